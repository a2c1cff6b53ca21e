import assert from 'node:assert/strict';
import fs from 'node:fs';
import { readSpec } from '../../grammar/reader.ts';
import { referenceMarkdown } from '../../grammar/reference.ts';
import { textMateJson } from '../../grammar/textmate.ts';
import { sections, wordLists } from '../../grammar/vocabulary/index.ts';
import { rangeTable } from '../../server/model/values/ranges.ts';
import { problemsOf } from './support.ts';

const stored = (name: string) => fs.readFileSync(new URL(`../../grammar/${name}`, import.meta.url), 'utf8');

describe('What is generated from the vocabulary', () => {
  it('is up to date (npm run generate)', () => {
    assert.equal(stored('REFERENCE.md'), referenceMarkdown(rangeTable()));
    assert.equal(stored('planish.tmLanguage.json'), textMateJson());
  });

  it('tells every line, qualifier and list word in the reference', () => {
    const reference = referenceMarkdown(rangeTable());
    for (const section of sections)
      for (const line of section.lines) {
        assert.ok(reference.includes(`\`${line.example}\``), line.example);
        for (const qualifier of line.qualifiers) assert.ok(reference.includes(qualifier.doc), qualifier.doc);
      }
    for (const word of Object.values(wordLists).flat()) assert.ok(reference.includes(`\`${word.word}\``), word.word);
  });

  it('has no spec in the reference that is not read without a problem', () => {
    const blocks = [...referenceMarkdown(rangeTable()).matchAll(/```planish\n(.*?)```/gs)].map((match) => match[1]!);
    assert.ok(blocks.length >= 2);
    for (const block of blocks) assert.deepEqual(problemsOf(readSpec(block)), [], block);
  });
});

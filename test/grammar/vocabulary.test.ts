import assert from 'node:assert/strict';
import { readSpec } from '../../grammar/reader.ts';
import { sections, singleWords } from '../../grammar/vocabulary/index.ts';
import { problemsOf } from './support.ts';

describe('The vocabulary', () => {
  for (const section of sections) {
    const header = `${section.kind} ${section.named === 'text' ? '"A job"' : 'one'}`;
    for (const line of section.lines)
      it(`${section.kind}: the example “${line.example}” is a ${line.id} line and has no mistake`, () => {
        const spec = readSpec(`${header}\n  ${[line.example, ...line.followedBy].join('\n  ')}\n`);
        assert.deepEqual(
          problemsOf(spec).filter((problem) => problem.code !== 'line-missing'),
          [],
        );
        assert.equal(spec.sections[0]!.lines[0]!.word?.id, line.id);
      });
  }

  for (const [word, { example }] of Object.entries(singleWords))
    it(`the example “${example}” is a single line and has no mistake`, () => {
      const spec = readSpec(`${example}\n`);
      assert.deepEqual(problemsOf(spec), []);
      assert.equal(spec.sections[0]!.singles[0]!.kind, word === 'planish' ? 'version' : word);
    });

  it('says what every word means', () => {
    for (const section of sections)
      for (const word of [section, ...section.lines, ...section.lines.flatMap((line) => line.qualifiers)])
        assert.match(word.doc, /^[A-Z].*[.`]$/s, JSON.stringify(word.doc));
  });
});

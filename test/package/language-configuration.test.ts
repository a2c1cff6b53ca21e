import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { sectionKinds } from '../../grammar/vocabulary/index.ts';

const root = path.resolve(import.meta.dirname, '../..');
const configuration = JSON.parse(readFileSync(path.join(root, 'client/language-configuration.json'), 'utf8'));
const pattern = ({ pattern, flags }: { pattern: string; flags?: string }, more = '') =>
  new RegExp(pattern, `${flags ?? ''}${more}`);

describe('the language configuration', () => {
  const indents = pattern(configuration.indentationRules.increaseIndentPattern);
  const outdents = pattern(configuration.indentationRules.decreaseIndentPattern);

  it('knows the sections of the vocabulary and no others', () => {
    const kinds = [...indents.source.matchAll(/\(\?:((?:\w+\|)+\w+)\)/g)].map((found) => found[1]?.split('|').sort());
    assert.deepEqual(kinds, [[...sectionKinds].sort()]);
    for (const kind of sectionKinds) {
      assert.match(`${kind} some-name`, indents);
      assert.match(`  ${kind} some-name # why`, outdents);
    }
  });

  it('takes no line of a section for a header', () => {
    for (const line of ['rivets small, every 25 mm', 'finish body on skull', 'make 6, spare 1', 'plate 120 x 80 mm'])
      for (const rule of [indents, outdents]) assert.doesNotMatch(line, rule);
    assert.match('build "Two words"', indents);
  });

  it('cuts a line into the words that a double click takes', () => {
    const words = (line: string) => line.match(pattern(configuration.wordPattern, 'g'));
    assert.deepEqual(words('let rim-round = guard.head-round + 2 * pi'), [
      'let',
      'rim-round',
      'guard.head-round',
      '2',
      'pi',
    ]);
    assert.deepEqual(words('due 2027-03-01'), ['due', '2027-03-01']);
    assert.deepEqual(words('brass 1/8 x 3/8 in'), ['brass', '1/8', 'x', '3/8', 'in']);
    assert.deepEqual(words('piece тулья-2'), ['piece', 'тулья-2']);
  });
});

import assert from 'node:assert/strict';
import { isMeasure, type SlotType } from '../../grammar/pattern.ts';
import { readSpec } from '../../grammar/reader.ts';
import { lineSnippet, sectionSnippet, snippetOf, withDefaults } from '../../grammar/snippets.ts';
import { sections } from '../../grammar/vocabulary/index.ts';
import { problemsOf } from './support.ts';

/** Problems of one line, without what the section still needs. */
function problemsIn(kind: string, line: string): string[] {
  const spec = readSpec(`${kind} ${kind === 'build' ? '"A job"' : 'one'}\n  ${line}\n`);
  return problemsOf(spec)
    .filter((problem) => problem.code !== 'line-missing')
    .map((problem) => `${line}: ${problem.message}`);
}

describe('Snippets', () => {
  for (const section of sections)
    it(`of a ${section.kind} parse with their defaults taken`, () => {
      const problems = section.lines.flatMap((line) => [
        ...problemsIn(section.kind, withDefaults(snippetOf(line))),
        ...problemsIn(section.kind, withDefaults(lineSnippet(line))),
        ...line.qualifiers.flatMap((qualifier) =>
          problemsIn(section.kind, `${withDefaults(snippetOf(line))}, ${withDefaults(snippetOf(qualifier))}`),
        ),
      ]);
      assert.deepEqual(problems, []);
      assert.deepEqual(problemsOf(readSpec(withDefaults(sectionSnippet(section)))), []);
    });

  it('hold an example that is no bare word wherever a measure is wanted', () => {
    // What may be left out is not in the snippet.
    for (const section of sections)
      for (const word of section.lines.flatMap((line) => [line, ...line.qualifiers]))
        for (const measure of word.pattern.notation.replace(/\[.*?\]/g, '').matchAll(/<[^:>]+:([^>]+)>/g))
          if (isMeasure(measure[1] as SlotType))
            assert.match(withDefaults(snippetOf(word)), /\d/, word.pattern.notation);
  });

  it('show what is to be filled in', () => {
    const piece = sections.find((section) => section.kind === 'piece')!;
    const line = (id: string) => piece.lines.find((one) => one.id === id)!;
    assert.equal(snippetOf(line('disc')), `disc \${1:90 mm}`);
    assert.equal(snippetOf(line('grain')), `grain \${1|up,across|}`);
    assert.equal(lineSnippet(line('oval dome')), `oval dome \${1:120 x 80 mm}, deep \${2:60 mm}`);
    assert.equal(sectionSnippet(piece), `piece \${1:skull}\n  from \${2:plate-16}\n  plate \${3:120 x 80 mm}\n  $0`);
  });
});

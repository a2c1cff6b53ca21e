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
        ...problemsIn(section.kind, withDefaults(lineSnippet(line))),
        // Short of what the line needs besides, which is another matter.
        ...[
          withDefaults(snippetOf(line)),
          ...line.qualifiers.map(
            (qualifier) => `${withDefaults(snippetOf(line))}, ${withDefaults(snippetOf(qualifier))}`,
          ),
        ].flatMap((text) => problemsIn(section.kind, text).filter((problem) => !problem.includes('it also wants'))),
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
    assert.equal(lineSnippet(line('oval dome')), `oval dome \${1:235 x 195 mm}, deep \${2:150 mm}`);
    assert.equal(lineSnippet(line('hole')), `hole \${1:1/4 in}, at \${2:13 mm} \${3|from,above,below|} \${4:rim}`);
    assert.equal(sectionSnippet(piece), `piece \${1:skull}\n  from \${2:plate-16}\n  plate \${3:120 x 80 mm}\n  $0`);
  });

  it('of a section begin with what it usually is', () => {
    const taken = (kind: string) => withDefaults(sectionSnippet(sections.find((section) => section.kind === kind)!));
    assert.match(taken('material'), /\n {2}mild steel 16 ga\n/);
    assert.match(taken('rivet'), /\n {2}mild steel 1\/8 x 3\/8 in, domed\n/);
  });

  it('hold the names that are known where they go', () => {
    const names = (type: SlotType) =>
      ({ material: ['thin', 'thick'], piece: ['cap'], copy: ['cap', 'brow', 'nape'] })[type as string] ?? [];
    const line = (kind: string, id: string) =>
      lineSnippet(sections.find((one) => one.kind === kind)!.lines.find((one) => one.id === id)!, names);
    assert.equal(line('piece', 'from'), `from \${1|thin,thick|}`);
    assert.equal(line('piece', 'like'), `like \${1:cap}`);
    assert.equal(line('seam', 'joins'), `joins \${1:cap, brow}`);
    assert.equal(line('piece', 'fits'), `fits \${1:guard}`);
  });
});

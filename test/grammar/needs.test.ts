import assert from 'node:assert/strict';
import { readSpec } from '../../grammar/reader.ts';
import { sections } from '../../grammar/vocabulary/index.ts';
import { problemsOf } from './support.ts';

/** What is said of lines of one section, but for the lines that it has not. */
function said(kind: string, lines: readonly string[]): string[] {
  const header = `${kind} ${kind === 'build' ? '"A job"' : 'one'}`;
  return problemsOf(readSpec([header, ...lines, ''].join('\n  ')))
    .filter(({ code }) => code !== 'line-missing')
    .map(({ code, message }) => `${code}: ${message}`);
}

describe('What a line needs', () => {
  for (const section of sections)
    for (const line of section.lines.filter(({ needs }) => needs.length))
      it(`${section.kind}: “${line.example}” is marked once without any of it, and not with it`, () => {
        assert.deepEqual(said(section.kind, [line.example, ...line.followedBy]), []);
        const [head, ...facts] = line.example.split(', ');
        const bare = head!.replace(/ (rolled) over .*$/, ' $1');
        const lacking = said(section.kind, [bare]);
        assert.equal(lacking.length, 1, lacking.join('\n'));
        assert.match(lacking[0]!, /^line-unfinished: .* is not finished: it also wants /);
        // One fact after the other is left out: what is needed is marked, and by its name.
        for (const fact of facts) {
          const rest = [head, ...facts.filter((each) => each !== fact)].join(', ');
          const found = said(section.kind, [rest, ...line.followedBy]);
          assert.ok(found.length <= 1, found.join('\n'));
        }
      });

  it('is said by the name of what is missing, all of it in one mark', () => {
    assert.deepEqual(said('piece', ['gore dome 210 mm']), [
      'line-unfinished: “gore dome” is not finished: it also wants “deep …” and “gores …”.',
    ]);
    assert.deepEqual(said('piece', ['edge top rolled, outward']), [
      'line-unfinished: “edge” is not finished: it also wants “over …” or “hollow …”.',
    ]);
    assert.deepEqual(said('piece', ['bend 20 mm from left']), [
      'line-unfinished: “bend” is not finished: it also wants an angle and “radius …”.',
    ]);
    assert.deepEqual(said('piece', ['form half', 'at 0 mm, round 600 mm']), [
      'line-unfinished: “form” is not finished: it also wants 2 lines or more of “at …” below it.',
    ]);
    assert.deepEqual(said('piece', ['outline']), [
      'line-unfinished: “outline” is not finished: it also wants a text in quotes or 2 lines or more of “to …” or “arc to …” below it.',
    ]);
  });

  it('can be met in another way', () => {
    for (const lines of [
      ['edge top rolled, hollow 5 mm'],
      ['half dome round 700 mm, long 240 mm, deep 90 mm'],
      ['half dome 240 x 200 mm, deep 90 mm'],
      ['lies over breast, from bottom to 90 mm up'],
      ['lies over breast, long 90 mm, wide 60 mm'],
      ['outline "crest.svg"'],
      ['holes 4 of 3 mm, at 20 mm from top'],
    ])
      assert.deepEqual(said('piece', lines), [], lines.join(', '));
    assert.deepEqual(said('seam', ['rivets small, inset 8 mm, count 4']), []);
    assert.deepEqual(said('seam', ['rivets small', 'shares rim-line 3']), []);
    assert.equal(said('piece', ['lies over breast, long 90 mm']).length, 1);
    assert.equal(said('piece', ['half dome round 700 mm, deep 90 mm']).length, 1);
  });

  it('is not said of a line that is marked already', () => {
    for (const line of ['dome 210 mm,', 'dome 210 mm, dep 60 mm', 'dome 210 mm, deep', 'dome', 'hole #30'])
      assert.doesNotMatch(said('piece', [line]).join('\n'), /it also wants/, line);
  });
});

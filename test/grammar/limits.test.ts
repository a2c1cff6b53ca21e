// How much of a text is read, and that what lies beyond stays as it stands.
import assert from 'node:assert/strict';
import { LONGEST_NAME, MOST_LETTERS, MOST_ROWS, MOST_SECTIONS, MOST_SIGNS } from '../../grammar/limits.ts';
import { formatSpec } from '../../grammar/printer.ts';
import { Reading, readSpec } from '../../grammar/reader.ts';
import type { Spec } from '../../grammar/tree.ts';

const wholeOf = ({ sections }: Spec): string => sections.map(({ text }) => text).join('');
const shapeOf = ({ sections }: Spec) => sections.map(({ start, text, unreadFrom }) => [start, text, unreadFrom]);
const tooLong = ({ sections }: Spec) =>
  sections.flatMap(({ problems, text }) =>
    problems.filter(({ code }) => code === 'too-long').map(({ from, to }) => text.slice(from, to)),
  );
const header = (i: number) => `piece p${i}\n`;
const headers = (count: number) => Array.from({ length: count }, (_, i) => header(i)).join('');
const edited = (text: string, from: number, to: number, put: string) => text.slice(0, from) + put + text.slice(to);

describe('What is longer than is read', () => {
  it('of a spec is all behind its last section, marked once', () => {
    const text = headers(MOST_SECTIONS + 3);
    const spec = readSpec(text);
    assert.equal(wholeOf(spec), text);
    assert.equal(spec.sections.length, MOST_SECTIONS + 1);
    assert.deepEqual(tooLong(spec), [header(MOST_SECTIONS).trimEnd()]);
    assert.deepEqual(tooLong(readSpec(headers(MOST_SECTIONS))), []);
  });

  it('is read as soon as it is no longer beyond, and the other way round', () => {
    const text = headers(MOST_SECTIONS + 2);
    const middle = text.indexOf(header(5_000));
    const last = text.indexOf(header(MOST_SECTIONS));
    const edits: [number, number, string][] = [
      [middle, middle + header(5_000).length, ''],
      [middle, middle, header(1)],
      [middle, middle, '  make 2\n'],
      [last, last, '  make 2\n'],
      [last + header(MOST_SECTIONS).length, text.length, ''],
      [last - 1, last, ',\n'],
      [text.length, text.length, header(3)],
      [middle, text.length, ''],
    ];
    for (const [from, to, put] of edits) {
      const previous = readSpec(text);
      const now = edited(text, from, to, put);
      const kept = { before: from, after: text.length - to };
      const fresh = readSpec(now);
      assert.deepEqual(shapeOf(readSpec(now, previous, kept)), shapeOf(fresh), JSON.stringify([from, to, put]));
      assert.deepEqual(
        shapeOf(readSpec(text, fresh)),
        shapeOf(readSpec(text)),
        `back from ${JSON.stringify([from, to, put])}`,
      );
    }
  }).timeout(120_000);

  it('is not read in steps either', () => {
    const text = headers(MOST_SECTIONS + 500);
    const reading = new Reading();
    assert.equal([...reading.through(text)].filter((share) => share > 0).length < MOST_SECTIONS + 50, true);
    assert.deepEqual(shapeOf(reading.end(text)), shapeOf(readSpec(text)));
  });

  it('of a section is its rows past so many, or its letters', () => {
    const rows = `piece a\n${'  make 2\n'.repeat(MOST_ROWS - 2)}  make 3\n`;
    assert.deepEqual(tooLong(readSpec(rows)), []);
    const more = `${rows}  make 4\n  make 5\npiece b\n`;
    assert.deepEqual(tooLong(readSpec(more)), ['  make 4']);
    assert.equal(wholeOf(readSpec(more)), more);
    assert.equal(readSpec(more).sections[0]!.lines.length, MOST_ROWS - 1);
    const wide = `piece a\n  make 2\n# ${'x'.repeat(MOST_LETTERS)}\n  make 3\npiece b\n`;
    assert.equal(tooLong(readSpec(wide)).length, 1);
    assert.equal(readSpec(wide).sections.length, 2);
    assert.equal(readSpec(wide).sections[0]!.lines.length, 1);
  });

  it('is no mistake where it is blank', () => {
    assert.deepEqual(
      tooLong(readSpec(`piece a\n${'\n'.repeat(3 * MOST_ROWS)}${' '.repeat(MOST_LETTERS)}\npiece b\n`)),
      [],
    );
  });

  it('of a line is the whole line, of a name the name', () => {
    const line = `finish f\n  on ${Array.from({ length: MOST_SIGNS }, (_, i) => `p${i}`).join(', ')}\n  sand 120 grit\n`;
    const spec = readSpec(line);
    assert.equal(tooLong(spec).length, 1);
    assert.deepEqual(
      spec.sections[0]!.lines.map(({ word }) => word !== undefined),
      [false, true],
    );
    assert.deepEqual(tooLong(readSpec(`piece ${'a'.repeat(LONGEST_NAME)}\n`)), []);
    assert.deepEqual(tooLong(readSpec(`piece ${'a'.repeat(LONGEST_NAME + 1)}\n`)), ['a'.repeat(LONGEST_NAME + 1)]);
  });

  it('is left as it stands by the formatter', () => {
    const long = `piece   a\n${'make 2\n'.repeat(MOST_ROWS)}\n\n\n`;
    const text = `piece   z\nmake 2\n\n\n${long}piece   b\nmake 2\n`;
    const once = formatSpec(text);
    assert.ok(once.startsWith('piece z\n  make 2\n\n') && once.endsWith('piece b\n  make 2\n'));
    assert.ok(once.includes(long));
    assert.equal(formatSpec(once), once);
  });

  it('commas in a row are one mistake', () => {
    const [section] = readSpec(`piece a\n  make 2${','.repeat(1_000)} make 3\n`).sections;
    assert.deepEqual(
      section!.problems.filter(({ code }) => code === 'comma-stray').map(({ fixes: [fix] }) => fix!.title),
      ['Remove 999 commas'],
    );
  });
});

import assert from 'node:assert/strict';
import path from 'node:path';
import type { MarkupContent } from 'vscode-languageserver-types';
import { checkOf } from '../../server/checks/run.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { expectSnapshot } from '../fixture.ts';
import { samples } from '../samples/support.ts';
import { open, openSample } from './view.ts';

const SPEC = `
planish 1

## For the spring season.
build "Cap with a *band*"
  duty display
  make 2

shop bench
  shear up to mild steel 14 ga

material plate
  mild steel 16 ga

material edge-wire
  mild steel wire 1/8 in

rivet small
  mild steel 1/8 x 3/16 in, domed

wearer guard
  head round 585 mm

## Room for the liner.
let ease = 2 * 6 mm

## Dished cold, **never** hot.
piece cap
  from plate
  dome 210 mm, deep 60 mm
  dish
  edge rim rolled over edge-wire, outward
  slot eye 110 x 12 mm, at 62 mm from rim
  flute 4, deep 5 mm

piece band
  from plate
  strip 300 x 40 mm

seam band-line
  joins band, band
  along band.bottom
  rivets small, every 25 mm, inset 10 mm, peened domed

finish bright
  on cap
  sand 120 grit
`;

function hoverOn(text: string, offset = 0): string {
  const at = SPEC.indexOf(text);
  assert.ok(at >= 0, text);
  const { view, position } = open(`${SPEC.slice(0, at + offset)}$0${SPEC.slice(at + offset)}`.replace(/^\n/, ''));
  const hover = hoverAt(view, position);
  if (!hover) return '';
  const word = hover.range ? view.text.slice(view.offsetAt(hover.range.start), view.offsetAt(hover.range.end)) : '';
  // Other checks come and go; one of each sort shows how they are told.
  const cards = (hover.contents as MarkupContent).value.split('\n\n---\n\n').filter((card) => {
    const code = /^\*\*.*\*\* `([a-z-]+)` {2}$/m.exec(card.split('\n')[0] ?? '')?.[1];
    return code === undefined || !checkOf(code) || code === 'rivet-too-short';
  });
  return cards.join('') && `[${word}]\n${cards.join('\n\n---\n\n')}`;
}

const PLACES: readonly (readonly [string, string, number])[] = [
  ['the word of a section', 'piece cap', 0],
  ['the title of the build', '"Cap', 2],
  ['the name of a piece', 'piece cap', 6],
  ['the name of a material where it is used', 'from plate', 6],
  ['a gauge on a stock line', '16 ga', 1],
  ['a gauge elsewhere', '14 ga', 1],
  ['a form', 'dome 210', 0],
  ['a size of a form', '210 mm', 1],
  ['a fraction of an inch', '1/8 in', 1],
  ['a method', 'dish\n', 0],
  ['a rolled edge', 'rolled over', 0],
  ['an edge', 'rim rolled', 0],
  ['an opening', 'eye 110', 1],
  ['a word that is not computed yet', 'flute 4', 0],
  ['a closed list', 'mild steel 16', 0],
  ['a measure that is named', 'ease =', 1],
  ['the rivets of a seam', 'rivets small', 0],
  ['a rivet that is too short', 'small, every', 1],
  ['an edge of another piece', 'band.bottom', 6],
  ['a piece before a dot', 'band.bottom', 1],
  ['a grit', '120 grit', 1],
  ['a measure of the wearer', 'head round', 1],
  ['a comment', '## Room', 5],
];

describe('hover', () => {
  it('says what it says', () => {
    const all = PLACES.map(([what, text, offset]) => `## ${what}\n\n${hoverOn(text, offset) || '(nothing)'}\n`).join(
      '\n',
    );
    expectSnapshot(path.join(import.meta.dirname, 'expected/hover.md'), all);
  });

  it('shows first what it comes to, with the numbers put in', () => {
    const text = hoverOn('rivets small');
    assert.match(
      text,
      /^\[rivets\]\n\*\*rivets in one row: 13\*\* {2}\n`\(300 − 2 × 10\) ÷ 25, rounded up, \+ 1 = 13`/,
    );
    assert.match(text, /geometry/);
  });

  it('shows figures in the units of the build', () => {
    const { view, position } = open(`
      build "t"
        units in
      material p
        mild steel 1 in
      piece a
        from p
        d$0isc 10 in
    `);
    const { value } = hoverAt(view, position)!.contents as MarkupContent;
    assert.match(value, /10 in/);
    assert.match(value, /blank area: 78\.5 in²/);
    assert.doesNotMatch(value, /\d mm(?!`)|cm²/);
  });

  it('shows the figure behind a dot wherever it is used', () => {
    for (const line of ['strip cap.rim.le$0ngth x 40 mm', 'strip 40 mm x 2 * cap.rim.le$0ngth']) {
      const { view, position } = open(`piece cap\n  dome 210 mm, deep 60 mm\npiece band\n  ${line}\n`);
      const { contents, range } = hoverAt(view, position)!;
      assert.match(
        (contents as MarkupContent).value,
        /^\*\*cap\.rim\.length\*\* of piece cap[\s\S]*π × 210 = 659\.7 mm/,
      );
      assert.equal(view.text.slice(view.offsetAt(range!.start), view.offsetAt(range!.end)), 'cap.rim.length');
    }
  });

  it('says what a bare number counts, what an operation is, and what a finish comes to', () => {
    const textOf = (written: string) => {
      const { view, position } = open(written);
      return (hoverAt(view, position)?.contents as MarkupContent | undefined)?.value ?? '';
    };
    assert.match(textOf('build "b"\n  make 2, spare $01\n'), /^`spare ‹spare›`/);
    assert.match(textOf('material m-1\n  sheet 1 x 2 m, price 4$01.50\n'), /^`price ‹price›`/);
    assert.match(
      textOf('piece cap\n  disc 9 mm\norder o-1\n  first cap di$0sh, then cap planish\n'),
      /^\*\*dish\*\* {2}\nDishing/,
    );
    assert.match(
      textOf('material m-1\n  brass 1 mm\npiece cap\n  from m-1\n  disc 90 mm\nfinish bri$0ght\n  on cap\n  wax\n'),
      /^\*\*finish\*\* bright\n- surface for one build: 127 cm²/,
    );
  });

  it('reads a note as words, never as markup', () => {
    assert.match(hoverOn('piece cap', 6), /Dished cold, \\\*\\\*never\\\*\\\* hot\./);
  });

  it('shows plain text to an editor that knows no other', () => {
    const { view, position } = open('material m\n  mi$0ld steel 16 ga\n');
    const { kind, value } = hoverAt(view, position, { markdown: false })!.contents as MarkupContent;
    assert.equal(kind, 'plaintext');
    assert.doesNotMatch(value, /\*\*|`/);
  });

  it('explains the check that an excuse names', () => {
    const { view, position } = open('material m\n  mild steel 16 ga # allow rivet-$0too-short: kept\n');
    assert.match((hoverAt(view, position)!.contents as MarkupContent).value, /too short for its stack/);
  });

  it('is read at a glance, at every word of every sample', () => {
    const longest = { letters: 0, at: '' };
    const all: number[] = [];
    for (const file of samples) {
      const view = openSample(file);
      for (const { index } of view.text.matchAll(/[^\s,]+/g)) {
        const hover = hoverAt(view, view.positionAt(index), { pictures: true, commands: true });
        if (!hover) continue;
        const { value } = hover.contents as MarkupContent;
        const read = value.replace(/!?\[([^\]]*)\]\((?:data|command):[^)]*\)/g, '$1').length;
        all.push(read);
        if (read > longest.letters)
          Object.assign(longest, { letters: read, at: `${file} ${view.text.slice(index).split('\n', 1)[0]}` });
      }
    }
    assert.ok(longest.letters <= 900, `${longest.letters} letters: ${longest.at}`);
    const middle = all.sort((a, b) => a - b)[all.length >> 1]!;
    assert.ok(all.length > 1500 && middle < 350, `${all.length} words, ${middle} letters in the middle`);
  });

  it('never fails, wherever it is asked', () => {
    const { view } = open(`${SPEC.slice(1)}piece x\n  dome ((3 x " # allow\nuse "\nlet = 3 *\npeice\n  × ½" ,`);
    for (let at = 0; at <= view.text.length; at++) hoverAt(view, view.positionAt(at));
  });
});

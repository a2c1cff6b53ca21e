import assert from 'node:assert/strict';
import { problemsIn } from './specs.ts';

/* Where a check must speak and where it must be silent, side by side: each spec differs from its neighbour in one thing. */

const STOCK = `material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm
material fourteen
  mild steel 14 ga
rivet sunk-inch
  mild steel 5/32 x 5/16 in, countersunk
material thin
  mild steel 0.8 mm
material zinc
  galvanised steel 1.5 mm
material spring
  spring steel 1.5 mm, grade "1050"
material brass-wire
  brass wire 3 mm
material hide
  veg-tan leather 8 oz
material edge-wire
  mild steel wire 3 mm
rivet small
  mild steel 4 x 8 mm, domed
rivet plated
  mild steel 4 x 8 mm, domed, nickel plated
rivet copper
  copper 4 x 10 mm, domed
`;

const piece = (name: string, ...lines: string[]) => `piece ${name}\n  ${lines.join('\n  ')}\n`;
const seam = (...lines: string[]) => `seam joined\n  ${lines.join('\n  ')}\n`;
const two = (a: string, b = a) => piece('one', 'from plate', a) + piece('other', 'from plate', b);
const ROW = 'rivets small, every 28 mm, inset 9 mm';
const OUTLINE = 'outline\n  to 90 mm right and 0 mm up\n  to 90 mm right and 60 mm up\n  to 0 mm right and 60 mm up';

/** The check, a spec of which it says something that holds `said`, and one of which it says nothing. */
const PAIRS: readonly {
  readonly of: string;
  readonly code: string;
  readonly fires: string;
  readonly said: RegExp;
  readonly silent: string;
}[] = [
  {
    of: 'a row near the edge of the plate below',
    code: 'edge-too-near',
    fires: two('plate 120 x 40 mm') + seam('joins one, other', 'along one.top', ROW, 'overlap 14 mm'),
    said: /5 mm in from the edge of “other” on its other side.*8 mm \(2 D\)/,
    silent: two('plate 120 x 40 mm') + seam('joins one, other', 'along one.top', ROW, 'overlap 18 mm'),
  },
  {
    of: 'a row that breaks out of a narrow plate',
    code: 'edge-too-near',
    fires:
      two('plate 120 x 40 mm', 'plate 120 x 10 mm') +
      seam('joins one, other', 'along one.top', 'along other.bottom', ROW),
    said: /“other” on its other side, this row breaks out of it/,
    silent:
      two('plate 120 x 40 mm', 'plate 120 x 20 mm') +
      seam('joins one, other', 'along one.top', 'along other.bottom', ROW),
  },
  {
    of: 'two holes',
    code: 'web-too-thin',
    fires: piece(
      'one',
      'from plate',
      'plate 90 x 60 mm',
      'hole 6 mm, at 30 mm from left',
      'hole 6 mm, at 38 mm from left',
    ),
    said: /Only 2 mm is left between this hole and the other hole: at least 3 mm/,
    silent: piece(
      'one',
      'from plate',
      'plate 90 x 60 mm',
      'hole 6 mm, at 30 mm from left',
      'hole 6 mm, at 48 mm from left',
    ),
  },
  {
    of: 'a hole in a slot',
    code: 'web-too-thin',
    fires: piece(
      'one',
      'from plate',
      OUTLINE,
      'slot eye 40 x 10 mm, at 30 mm from bottom',
      'hole 6 mm, at 60 mm from left and 36 mm from bottom',
    ),
    said: /This hole and “eye” run into each other/,
    silent: piece(
      'one',
      'from plate',
      OUTLINE,
      'slot eye 40 x 10 mm, at 30 mm from bottom',
      'hole 6 mm, at 80 mm from left and 36 mm from bottom',
    ),
  },
  {
    of: 'a hole that runs into a slot on a dome',
    code: 'web-too-thin',
    fires: piece(
      'one',
      'from plate',
      'dome 220 mm, deep 70 mm',
      'dish',
      'slot sight 110 x 12 mm, at 40 mm from rim',
      'hole 6 mm, at 33 mm from rim and 52 mm right of front',
    ),
    said: /This hole and “sight” run into each other/,
    silent: piece(
      'one',
      'from plate',
      'dome 220 mm, deep 70 mm',
      'dish',
      'slot sight 110 x 12 mm, at 40 mm from rim',
      'hole 6 mm, at 33 mm from rim and 66 mm right of front',
    ),
  },
  {
    of: 'a row that runs into a slot of a ring',
    code: 'web-too-thin',
    fires: piece(
      'one',
      'from plate',
      'cylinder round 500 mm, high 90 mm',
      'slot 60 x 10 mm, at 20 mm from top',
      'holes lining 12 of 4 mm, along top, inset 14 mm',
    ),
    said: /This row and the other slot run into each other/,
    silent: piece(
      'one',
      'from plate',
      'cylinder round 500 mm, high 90 mm',
      'slot 60 x 10 mm, at 40 mm from top',
      'holes lining 12 of 4 mm, along top, inset 14 mm',
    ),
  },
  {
    of: 'the holes of one row',
    code: 'web-too-thin',
    fires: piece(
      'one',
      'from plate',
      'form wrap 180 deg',
      'at 0 mm, round 600 mm, long 220 mm',
      'at 90 mm, round 560 mm, long 200 mm',
      'holes 50 of 4 mm, along top, inset 10 mm',
    ),
    said: /is left between two of these holes/,
    silent: piece(
      'one',
      'from plate',
      'form wrap 180 deg',
      'at 0 mm, round 600 mm, long 220 mm',
      'at 90 mm, round 560 mm, long 200 mm',
      'holes 30 of 4 mm, along top, inset 10 mm',
    ),
  },
  {
    of: 'a form that is dished too deep',
    code: 'dome-too-deep-for-gauge',
    fires: piece(
      'bowl',
      'from plate',
      'form wrap 360 deg',
      'at 0 mm, round 500 mm',
      'at 80 mm, round 440 mm',
      'at 130 mm, flat',
      'dish',
    ),
    said: /the thinnest place of “bowl” may thin from 1.5 mm/,
    silent: piece(
      'bowl',
      'from plate',
      'form wrap 360 deg',
      'at 0 mm, round 500 mm',
      'at 80 mm, round 440 mm',
      'at 130 mm, flat',
      'dish then raise',
    ),
  },
  {
    of: 'a dish for which the gauge is too thin',
    code: 'dome-too-deep-for-gauge',
    fires: piece('bowl', 'from thin', 'dome 200 mm, deep 65 mm', 'dish'),
    said: /Sheet of this gauge bears it down to/,
    silent: piece('bowl', 'from plate', 'dome 200 mm, deep 65 mm', 'dish'),
  },
  {
    of: 'a dish in thin sheet that is annealed twice on the way',
    code: 'dome-too-deep-for-gauge',
    fires: piece('bowl', 'from thin', 'dome 200 mm, deep 65 mm', 'dish'),
    said: /annealed once/,
    silent: piece('bowl', 'from thin', 'dome 200 mm, deep 65 mm', 'anneal', 'anneal', 'dish'),
  },
  {
    of: 'a countersunk head of 5/32 in, which is less deep than one of 4 mm',
    code: 'countersink-too-deep',
    fires:
      two('plate 120 x 40 mm') +
      seam('joins one, other', 'along one.top', 'rivets sunk-inch, every 28 mm, inset 12 mm'),
    said: /is 1\.7 mm deep and goes through/,
    silent:
      two('plate 120 x 40 mm').replaceAll('from plate', 'from fourteen') +
      seam('joins one, other', 'along one.top', 'rivets sunk-inch, every 28 mm, inset 12 mm'),
  },
  {
    of: 'the plating of a rivet',
    code: 'galvanic-pair',
    fires:
      two('plate 120 x 40 mm') + seam('joins one, other', 'along one.top', 'rivets plated, every 28 mm, inset 9 mm'),
    said: /Nickel plated .* on mild steel.*: 0.55 V apart/,
    silent: two('plate 120 x 40 mm') + seam('joins one, other', 'along one.top', ROW),
  },
  {
    of: 'a wire in a roll',
    code: 'galvanic-pair',
    fires: piece('one', 'from plate', 'plate 120 x 40 mm', 'edge top rolled over brass-wire'),
    said: /Brass.* on mild steel.*: 0.4 V apart/,
    silent: piece('one', 'from plate', 'plate 120 x 40 mm', 'edge top rolled over edge-wire'),
  },
  {
    of: 'a copper rivet, which through a strap is how it is done',
    code: 'galvanic-pair',
    fires:
      two('plate 120 x 40 mm') + seam('joins one, other', 'along one.top', 'rivets copper, every 28 mm, inset 9 mm'),
    said: /Copper on mild steel/,
    silent:
      piece('one', 'from plate', 'plate 120 x 40 mm') +
      piece('belt', 'from hide', 'plate 120 x 40 mm') +
      seam('joins one, belt', 'along one.top', 'rivets copper, every 28 mm, inset 12 mm'),
  },
  {
    of: 'straight edges that differ by little',
    code: 'seam-lengths-differ',
    fires:
      two('plate 120 x 40 mm', 'plate 125 x 40 mm') +
      seam('joins one, other', 'along one.top', 'along other.bottom', ROW),
    said: /differ by 5 mm/,
    silent:
      two('cylinder round 600 mm, high 80 mm', 'cylinder round 605 mm, high 80 mm') +
      seam('joins one, other', 'along one.top', 'along other.bottom', ROW),
  },
  {
    of: 'a bend along the grain',
    code: 'bend-along-grain',
    fires: piece('one', 'from plate', 'plate 90 x 60 mm', 'bend 30 mm from left, 90 deg, radius 1 mm', 'grain up'),
    said: /lies along the grain/,
    silent: piece('one', 'from plate', 'plate 90 x 60 mm', 'bend 30 mm from bottom, 90 deg, radius 1 mm', 'grain up'),
  },
  {
    of: 'a heat that hardens nothing',
    code: 'heat-unlikely',
    fires: piece('one', 'from spring', 'plate 90 x 60 mm', 'harden 400 C, quench oil', 'temper 290 C'),
    said: /not hardened at 400 °C: at least 740 °C/,
    silent: piece('one', 'from spring', 'plate 90 x 60 mm', 'harden 1530 F, quench oil', 'temper 290 C'),
  },
  {
    of: 'a heat that tempers nothing',
    code: 'heat-unlikely',
    fires: piece('one', 'from spring', 'plate 90 x 60 mm', 'harden 830 C, quench oil', 'temper 60 C'),
    said: /not tempered at 60 °C: at least 100 °C/,
    silent: piece('one', 'from spring', 'plate 90 x 60 mm', 'harden 830 C, quench oil', 'temper 200 C'),
  },
  {
    of: 'an order to anneal what is coated with zinc',
    code: 'zinc-fume',
    fires: `${piece('one', 'from zinc', 'plate 90 x 60 mm')}order bench\n  first one anneal, then one planish\n`,
    said: /zinc/i,
    silent: `${piece('one', 'from plate', 'plate 90 x 60 mm')}order bench\n  first one anneal, then one planish\n`,
  },
  {
    of: 'a polish after a coarse paper',
    code: 'grit-jump',
    fires: `${piece('one', 'from plate', 'plate 90 x 60 mm')}finish bright\n  on one\n  grind 36 grit\n  polish\n`,
    said: /After 36 grit .* a polish only shines the scratches/,
    silent: `${piece('one', 'from plate', 'plate 90 x 60 mm')}finish bright\n  on one\n  sand 240 grit\n  polish\n`,
  },
  {
    of: 'a roll round a square corner of an outline',
    code: 'roll-on-sharp-curve',
    fires: piece('one', 'from plate', OUTLINE, 'edge rim rolled over edge-wire'),
    said: /The rim turns 4 sharp corners/,
    silent: piece('one', 'from plate', OUTLINE, 'edge rim rolled over edge-wire, from 10 mm to 80 mm'),
  },
  {
    of: 'an edge that is none',
    code: 'unknown-name',
    fires: piece('one', 'from plate', 'dome 210 mm, deep 60 mm', 'edge middle hemmed 6 mm'),
    said: /“one” has no edge or opening “middle”: it has rim/,
    silent: piece('one', 'from plate', 'half dome 210 x 200 mm, deep 60 mm', 'edge middle hemmed 6 mm'),
  },
  {
    of: 'a line along which nothing is known',
    code: 'unknown-name',
    fires: two('dome 210 mm, deep 60 mm') + seam('joins one, other', 'along one.front', ROW),
    said: /“one” has no edge or opening “front”/,
    silent: two('dome 210 mm, deep 60 mm') + seam('joins one, other', 'along one.middle', ROW),
  },
  {
    of: 'a pitch within the rulebook',
    code: 'pitch-too-wide',
    fires: `build "x"\n  duty contact, rules book\nrules book\n  rivets at most 40 mm\n${two('plate 220 x 40 mm')}${seam('joins one, other', 'along one.top', 'rivets small, every 60 mm, inset 9 mm')}`,
    said: /“book” allows 40 mm at most/,
    silent: `build "x"\n  duty contact, rules book\nrules book\n  rivets at most 63.5 mm\n${two('plate 220 x 40 mm')}${seam('joins one, other', 'along one.top', 'rivets small, every 60 mm, inset 9 mm')}`,
  },
  {
    of: 'two rivets alone, which are no row',
    code: 'pitch-too-wide',
    fires: two('plate 220 x 40 mm') + seam('joins one, other', 'along one.top', 'rivets small, count 3, inset 9 mm'),
    said: /more than ten shanks/,
    silent: two('plate 220 x 40 mm') + seam('joins one, other', 'along one.top', 'rivets small, count 2, inset 9 mm'),
  },
  {
    of: 'a strip that fits across the sheet',
    code: 'strip-longer-than-sheet',
    fires: piece('one', 'from plate', 'strip 2300 x 20 mm'),
    said: /2300 mm long/,
    silent: piece('one', 'from plate', 'strip 2200 x 20 mm'),
  },
  {
    of: 'a strip that would fit across but for its grain',
    code: 'strip-longer-than-sheet',
    fires: piece('one', 'from plate', 'strip 2200 x 20 mm', 'grain across'),
    said: /2200 mm long/,
    silent: piece('one', 'from plate', 'strip 1990 x 20 mm', 'grain across'),
  },
];

describe('checks speak where they must, and nowhere else', () => {
  for (const { of, code, fires, said, silent } of PAIRS)
    it(`${code}: ${of}`, () => {
      const found = (text: string) =>
        problemsIn(STOCK + text)
          .filter((problem) => problem.code === code)
          .map(({ message }) => message);
      assert.match(found(fires).join('\n'), said);
      assert.deepEqual(found(silent), []);
    });

  it('a row’s rules of pitch and size are not for the pivots of a joint', () => {
    const text = `${STOCK}${two('plate 220 x 40 mm').replaceAll('from plate', 'from thin')}joint knee\n  plates one, other\n  pivots small, inset 10 mm, left\n  pivots small, inset 10 mm, right\n`;
    const rules = /^(pitch-|rivet-too-thi|edge-too-)/;
    assert.deepEqual(
      problemsIn(text).filter(({ code }) => rules.test(code)),
      [],
    );
  });

  it('strain-needs-anneal: what is coated with zinc is told of the zinc, and no anneal is offered', () => {
    const of = (material: string) =>
      problemsIn(`${STOCK}${piece('one', `from ${material}`, 'dome 200 mm, deep 98 mm', 'dish then raise')}`).find(
        ({ code }) => code === 'strain-needs-anneal',
      )!;
    assert.match(of('zinc').message, /zinc coated, and heated zinc gives a fume/);
    assert.equal(of('zinc').fixes.length, 0);
    assert.doesNotMatch(of('plate').message, /zinc/);
    assert.equal(of('plate').fixes.length, 1);
  });
});

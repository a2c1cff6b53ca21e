import assert from 'node:assert/strict';
import { problemsIn } from './specs.ts';

/* Slips of the bench, each with the finding that answers it; and what is well, with the finding that must not come. */

const PLATE = 'material plate\n  mild steel 1.5 mm\n  sheet 1000 x 2000 mm\n';
const RIVET = 'rivet r\n  steel 4 x 8 mm, domed\n';
const one = (lines: string) => `piece one\n  from plate\n${lines}`;
const flat = (lines = '') => one(`  plate 200 x 80 mm\n${lines}`);
const other = 'piece other\n  from plate\n  plate 200 x 80 mm\n';
const seam = (lines = '  along one.top\n  rivets r, every 30 mm, inset 12 mm\n') =>
  `seam s\n  joins one, other\n${lines}`;
const stage = (text: string) => `build "b"\n  duty stage\n${text}`;
const countersunk = (gauge: number) =>
  stage(
    `  units in\nmaterial plate\n  mild steel ${gauge} ga\nrivet r\n  steel 5/32 x 3/8 in, countersunk\n${flat()}${other}${seam()}`,
  );

const FOUND: Readonly<Record<string, readonly [spec: string, code: string]>> = {
  'two holes that run together': [
    stage(`${PLATE}${flat('  hole 10 mm, at 30 mm from left\n  hole 10 mm, at 36 mm from left\n')}`),
    'web-too-thin',
  ],
  'a hole that runs into a slot': [
    stage(`${PLATE}${flat('  hole 10 mm, at 30 mm from left\n  slot 60 x 8 mm, at 50 mm from left\n')}`),
    'web-too-thin',
  ],
  'a plated rivet in stainless plates': [
    stage(
      `${PLATE.replace('mild', 'stainless')}rivet r\n  steel 4 x 8 mm, domed, zinc plated\n${flat()}${other}${seam()}`,
    ),
    'galvanic-pair',
  ],
  'an aluminium wire in a brass roll': [
    stage(
      `material plate\n  brass 1.2 mm\nmaterial wire-3\n  aluminium wire 3 mm\n${flat('  edge top rolled over wire-3, outward\n')}`,
    ),
    'galvanic-pair',
  ],
  'steel hardened at a tempering heat': [
    stage(`material plate\n  spring steel 1.5 mm, grade "1050"\n${flat('  harden 400 C\n')}`),
    'heat-unlikely',
  ],
  'steel tempered at a washing heat': [
    stage(`material plate\n  spring steel 1.5 mm, grade "1050"\n${flat('  harden 820 C\n  temper 60 C\n')}`),
    'heat-unlikely',
  ],
  'an anneal in the order of a zinc coated plate': [
    stage(`material plate\n  galvanised steel 1.5 mm\n${flat()}${other}order o\n  first one anneal, then other\n`),
    'zinc-fume',
  ],
  'a polish after 36 grit': [
    stage(`${PLATE}${flat()}finish bright\n  on one\n  grind 36 grit\n  polish\n  oil\n`),
    'grit-jump',
  ],
  'a form by its levels too deep for its gauge': [
    stage(
      `material plate\n  mild steel 0.8 mm\n${one('  form wrap 360 deg\n  at 0 mm, round 600 mm\n  at 80 mm, round 500 mm\n  at 120 mm, point\n  dish\n')}`,
    ),
    'dome-too-deep-for-gauge',
  ],
  'a roll round the square corners of an outline': [
    stage(
      `${PLATE}${one('  outline\n  to 90 mm right and 0 mm up\n  to 90 mm right and 40 mm up\n  to 0 mm right and 40 mm up\n  edge rim rolled, hollow 6 mm\n')}`,
    ),
    'roll-on-sharp-curve',
  ],
  'a crown that is hemmed': [
    stage(`${PLATE}${one('  dome 200 mm, deep 60 mm\n  dish\n  edge crown hemmed 6 mm\n')}`),
    'unknown-name',
  ],
  'a seam along the front of a cap': [
    stage(
      `${PLATE}${RIVET}${one('  dome 200 mm, deep 60 mm\n  dish\n')}${other}${seam('  along one.front\n  rivets r, every 30 mm, inset 12 mm\n')}`,
    ),
    'unknown-name',
  ],
  'an anneal that zinc does not bear': [
    stage(`material plate\n  galvanised steel 1.5 mm\n${one('  dome 200 mm, deep 90 mm\n  dish\n')}`),
    'strain-needs-anneal',
  ],
  'a countersunk 5/32 head in 16 ga, which it goes through': [countersunk(16), 'countersink-too-deep'],
  'a strip longer than the diagonal of its sheet': [
    stage(`${PLATE}${one('  strip 2300 x 20 mm\n')}`),
    'strip-longer-than-sheet',
  ],
};

const NOT_FOUND: typeof FOUND = {
  'a countersunk 5/32 head in 14 ga, which holds it': [countersunk(14), 'countersink-too-deep'],
  'a strip that fits its sheet from corner to corner': [
    stage(`${PLATE}${one('  strip 2100 x 20 mm\n')}`),
    'strip-longer-than-sheet',
  ],
  'copper that holds a strap to steel': [
    stage(
      `${PLATE}rivet r\n  copper 4 x 10 mm, domed\nmaterial hide\n  veg-tan leather 8 oz\n${flat()}piece other\n  from hide\n  strip 200 x 30 mm\n${seam('  along other.top\n  rivets r, every 30 mm, inset 12 mm, washer inside\n')}`,
    ),
    'galvanic-pair',
  ],
  'two rivets of a row, whatever their pitch': [
    stage(`${PLATE}${RIVET}${flat()}${other}${seam('  along one.top\n  rivets r, count 2, inset 12 mm\n')}`),
    'pitch-too-wide',
  ],
};

describe('slips of the bench', () => {
  for (const [what, [spec, code]] of Object.entries(FOUND))
    it(`is told: ${what}`, () => {
      const found = problemsIn(spec).map((problem) => problem.code);
      assert.ok(found.includes(code), found.join());
    });

  for (const [what, [spec, code]] of Object.entries(NOT_FOUND))
    it(`is well: ${what}`, () => {
      const found = problemsIn(spec);
      assert.deepEqual(
        found.filter((problem) => problem.code === code || problem.severity === 'error').map(({ message }) => message),
        [],
      );
    });

  it('says the zinc in the same breath as the anneal', () => {
    const found = problemsIn(FOUND['an anneal that zinc does not bear']![0]);
    assert.match(found.find(({ code }) => code === 'strain-needs-anneal')!.message, /zinc/);
  });
});

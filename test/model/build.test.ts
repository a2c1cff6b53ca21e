import assert from 'node:assert/strict';
import { figuresOf, nearFigure } from './support.ts';

const KNEE = `build "Knee"
  duty stage
material plate
  mild steel 1.5 mm
material edge-wire
  mild steel wire 3 mm
material strap-leather
  veg-tan leather 8 oz
rivet small
  brass 4 x 8 mm, domed
part buckle
  mass 24 g
piece cop
  from plate
  make 2
  cylinder round 400 mm, high 60 mm, wrap 180 deg
  edge top rolled over edge-wire, outward
piece plain
  from plate
  make 2
  plate 100 x 60 mm
seam line
  joins plain, cop
  along plain.top
  rivets small, every 30 mm, inset 8 mm, peened domed
seam leg
  joins plain, cop
  strap strap-leather, wide 25 mm, long 400 mm, count 2
finish grey
  on cop outside, plain
  grind 80 grit
  sand 120, 240 grit
  prime
  paint "grey", coats 2
`;

describe('the build', () => {
  const found = figuresOf(KNEE);
  const value = (name: string) => found.get(name)!.value;

  it('counts rivets, wire and blanks', () => {
    nearFigure(found.get('build.rivets'), 2 * value('line.rivets'));
    nearFigure(found.get('build.wire'), 2 * value('cop.top.wire'));
    nearFigure(found.get('build.blank-area'), 2 * value('cop.blank.area') + 2 * value('plain.blank.area'));
  });

  it('weighs what is worn, straps too', () => {
    const without = figuresOf(KNEE.replace(/ {2}strap .*\n/, '')).get('build.mass')!.value;
    nearFigure(found.get('build.mass'), without + (2 * 25 * 400 * value('strap-leather.mass-per-area')) / 1e6);
  });

  it('counts hinge pins as wire', () => {
    const hinged = figuresOf(
      `${KNEE}hinge gate\n  joins cop.left, plain.right\n  knuckles 3, wide 40 mm\n  over edge-wire\n`,
    );
    nearFigure(hinged.get('build.wire'), value('build.wire') + 2 * hinged.get('gate.pin-length')!.value);
    assert.ok(hinged.get('build.mass')!.value > value('build.mass'));
  });
});

describe('finishes', () => {
  const found = figuresOf(KNEE);
  const value = (name: string) => found.get(name)!.value;

  it('are on one face, or on both', () => {
    nearFigure(found.get('grey.area'), 2 * found.get('cop.area')!.value + 4 * found.get('plain.area')!.value);
  });

  it('leave out what is cut away, and count the heads of rivets', () => {
    const holed =
      figuresOf(`${KNEE.replace('plate 100 x 60 mm', 'plate 100 x 60 mm\n  hole 20 mm, at 50 mm from left')}finish age
  on small
  wax
`);
    nearFigure(holed.get('grey.area'), value('grey.area') - 4 * 100 * Math.PI);
    // A domed head of 7 × 2.4 mm each side, as a cap: π (3.5² + 2.4²).
    nearFigure(holed.get('age.area'), value('build.rivets') * 2 * Math.PI * (3.5 ** 2 + 2.4 ** 2), 0.5);
  });

  it('go from grain to grain', () => {
    nearFigure(found.get('grey.step-1.grain'), 0.201);
    assert.equal(found.get('grey.step-1.ratio'), undefined);
    nearFigure(found.get('grey.step-2.ratio'), 201 / 125);
    nearFigure(found.get('grey.step-3.ratio'), 125 / 58.5);
  });

  it('take paint by the coat', () => {
    const paint = found.get('grey.paint')!;
    nearFigure(paint, (found.get('grey.area')!.value * 2 * 0.04) / 0.5 / 0.6);
    assert.ok(paint.low! < paint.value / 2 && paint.high! > 2 * paint.value);
    assert.ok(found.get('grey.primer'));
  });

  it('are silent about what they are not on', () => {
    const names = [...figuresOf('finish wax\n  on nothing\n  wax\n').keys()];
    assert.deepEqual(names, []);
  });
});

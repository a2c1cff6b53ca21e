import assert from 'node:assert/strict';
import { metal } from '../../../server/trade/metal/metals.ts';
import { problemsIn } from '../../checks/specs.ts';
import { figuresOf, nearFigure } from '../support.ts';

const PLATE = 'material plate\n  mild steel 1.5 mm\n';
const piece = (lines: string, more = '') => figuresOf(`${PLATE}${more}piece cop\n  from plate\n  ${lines}\n`);

describe('openings', () => {
  it('say how hard they are to punch, whatever shape they have', () => {
    const shear = metal('mild steel').shear;
    const found = piece(
      'plate 120 x 80 mm\n  hole crest 6 mm, at 20 mm from top\n  slot eye 40 x 10 mm, at 40 mm from top',
    );
    const hole = found.get('cop.crest.punch-force');
    nearFigure(hole, Math.PI * 6 * 1.5 * shear.value);
    assert.ok(hole!.low! < hole!.value && hole!.high! > hole!.value, 'as uncertain as the metal');
    nearFigure(found.get('cop.eye.punch-force'), (60 + Math.PI * 10) * 1.5 * shear.value);
    assert.deepEqual(hole!.inputs, ['plate.thickness', 'plate.shear']);
  });

  it('say what passes', () => {
    const found = piece(
      'plate 120 x 80 mm\n  slot eye 40 x 10 mm, at 40 mm from top\n  breaths cheek 6 of 4 mm, rows 2',
    );
    nearFigure(found.get('cop.eye.rod'), 10);
    nearFigure(found.get('cop.cheek.rod'), 4);
  });

  it('leave metal to the edge they are measured from, or the one across', () => {
    nearFigure(piece('plate 120 x 80 mm\n  slot eye 40 x 10 mm, at 30 mm from top').get('cop.eye.edge-distance'), 25);
    const far = piece('plate 120 x 80 mm\n  slot eye 40 x 10 mm, at 60 mm from top').get('cop.eye.edge-distance');
    nearFigure(far, 15);
    assert.match(far!.title, /bottom/);
    nearFigure(
      piece('dome 200 mm, deep 60 mm\n  holes lace 6 of 3 mm, along rim, inset 12 mm').get('cop.lace.edge-distance'),
      10.5,
    );
    assert.match(
      piece('plate 120 x 80 mm\n  hole lost 10 mm, at 4 mm from top').get('cop.lost.edge-distance')!.outside ?? '',
      /breaks out/,
    );
    assert.equal(piece('dome 90 mm, deep 9 mm\n  hole top 4 mm').get('cop.top.edge-distance'), undefined);
  });

  it('show the wearer what the geometry allows', () => {
    const wearer = 'wearer guard\n  head round 585 mm\n  eye distance 64 mm\n';
    const found = piece(
      'cylinder round 700 mm, high 200 mm, inside\n  fits guard head, liner 28.5 mm, ease 10 mm\n  slot eye 130 x 10 mm, at 60 mm from top',
      wearer,
    );
    nearFigure(found.get('cop.eye.view-wide'), 120, 1e-9);
    nearFigure(found.get('cop.eye.view-both'), 79, 0.5);
    nearFigure(found.get('cop.eye.view-high'), 14.25, 0.05);
    assert.ok(found.get('cop.eye.view-high')!.low! < 12);
    const blind = piece('plate 120 x 80 mm\n  slot eye 40 x 10 mm, at 30 mm from top', wearer);
    assert.equal(blind.get('cop.eye.view-wide'), undefined);
  });

  it('say which saw goes through, and how far to tilt the one there is', () => {
    const slot = 'plate 120 x 80 mm\n  slot eye 40 x 10 mm, at 30 mm from top';
    nearFigure(piece(slot).get('cop.blade-teeth'), (2 * 25.4) / 1.5);
    assert.equal(piece(slot).get('cop.saw-tilt'), undefined);
    const tilted = piece(slot, 'shop bench\n  blade 24 tpi\n  blade 28 tpi\n').get('cop.saw-tilt');
    nearFigure(tilted, (Math.asin((1.5 * 28) / 50.8) * 180) / Math.PI, 1e-9);
  });
});

describe('bends, flares and rolls', () => {
  it('take up the neutral line', () => {
    const found = piece('plate 120 x 80 mm\n  bend 30 mm from left, 90 deg, radius 2 mm');
    const allowance = found.get('cop.bend-1.allowance')!;
    nearFigure(allowance, 1.57 * 2 + 0.64 * 1.5, 0.01);
    assert.ok(allowance.low! < allowance.value && allowance.value < allowance.high!);
    nearFigure(found.get('cop.bend-1.setback'), 3.5);
    nearFigure(found.get('cop.bend-1.deduction'), 7 - allowance.value, 1e-9);
  });

  it('wait for the radius', () => {
    assert.equal(piece('plate 120 x 80 mm\n  bend 30 mm from left, 90 deg').get('cop.bend-1.allowance'), undefined);
  });

  it('stretch the edge of a flare and the lip of a roll', () => {
    const found = piece(
      'cylinder round 300 mm, high 100 mm\n  flare bottom, 30 deg, wide 10 mm\n  edge top rolled, hollow 6 mm, outward',
    );
    const radius = 300 / (2 * Math.PI);
    nearFigure(found.get('cop.bottom.strain'), Math.log(1 + 5 / radius), 1e-9);
    nearFigure(found.get('cop.top.roll-strain'), Math.log(1 + 7.5 / radius), 1e-9);
    const inward = piece('cylinder round 300 mm, high 100 mm\n  edge top rolled, hollow 6 mm, inward');
    nearFigure(inward.get('cop.top.roll-strain'), Math.log(1 - 7.5 / radius), 1e-9);
    assert.equal(piece('plate 120 x 80 mm\n  edge top rolled, hollow 6 mm').get('cop.top.roll-strain'), undefined);
  });

  it('that come near an edge or a bay over a curved plate are marked, whatever they are measured from', () => {
    const codes = (at: string) =>
      problemsIn(`planish 1
material plate
  mild steel 1.5 mm
piece breast
  from plate
  form wrap 190 deg
  at 0 mm, round 973 mm, long 340 mm
  at 260 mm, round 1123 mm, long 390 mm, deep 160 mm
  at 360 mm, round 900 mm, long 330 mm
  dish
  cut neck from 95 mm on top to 95 mm on top, deep 40 mm
  hole lace 5 mm, at ${at}
`).filter(({ code }) => code === 'hole-near-edge');
    assert.deepEqual(codes('150 mm from bottom'), []);
    const [near] = codes('316 mm from bottom');
    assert.match(near!.message, /left between the hole and neck/);
    const [out] = codes('321 mm from bottom');
    assert.match(out!.message, /breaks out of neck/);
    assert.equal(out!.severity, 'error');
  });
});

describe('what stands beside an opening', () => {
  it('is the metal to the next hole of its pattern, and to the nearest bend', () => {
    const found = figuresOf(`material plate
  mild steel 1.5 mm
piece cheek
  from plate
  plate 140 x 100 mm
  bend 30 mm from left, 90 deg, radius 3 mm
  breaths cheek-breaths 24 of 5 mm, rows 4, pitch 12 mm
  hole strap 6 mm, at 60 mm from left and 20 mm from bottom
`);
    nearFigure(found.get('cheek.cheek-breaths.web'), 7);
    const allowance = found.get('cheek.bend-1.allowance')!.value;
    nearFigure(found.get('cheek.strap.bend-distance'), 30 - 3 - allowance / 2);
    assert.match(found.get('cheek.strap.bend-distance')!.title, /bend 30 mm from left/);
    assert.equal(found.get('cheek.strap.web'), undefined);
  });
});

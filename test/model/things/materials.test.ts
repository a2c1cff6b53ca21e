import assert from 'node:assert/strict';
import { metal } from '../../../server/trade/metal/metals.ts';
import { figureValue, modelFrom } from '../support.ts';

const figureOf = (spec: string, name: string) => {
  const figure = modelFrom(spec)
    .figures()
    .flatMap((set) => set.all())
    .find((each) => each.name === name);
  assert.ok(figure, `no figure ${name}`);
  return figure;
};

describe('materials', () => {
  it('carry what the books say of the metal', () => {
    const spec = 'material plate\n  brass 1 mm, half hard\n';
    const brass = metal('brass', { temper: 'half hard' });
    assert.equal(figureOf(spec, 'plate.yield').value, brass.yield.value);
    assert.equal(figureOf(spec, 'plate.tensile').low, brass.tensile.low);
    assert.equal(figureOf(spec, 'plate.elongation').value, brass.elongation.value);
    assert.equal(figureOf(spec, 'plate.hardening').value, brass.hardening.value);
    assert.equal(figureOf(spec, 'plate.shear').value, brass.shear.value);
    assert.equal(figureOf(spec, 'plate.strain-before-anneal').value, brass.strainBeforeAnneal.value);
  });

  it('believe the smith over the books', () => {
    const spec = 'material plate\n  mild steel 1.5 mm\n  yield 180 MPa\n  tensile 300 MPa\n  elongation 41 %\n';
    assert.equal(figureOf(spec, 'plate.yield').value, 180);
    assert.equal(figureOf(spec, 'plate.yield').basis, 'from the spec');
    assert.equal(figureOf(spec, 'plate.elongation').value, 41);
    assert.equal(figureOf(spec, 'plate.elongation').unit, 'percent');
    const steel = metal('mild steel');
    const shear = figureOf(spec, 'plate.shear');
    assert.ok(Math.abs(shear.value - (300 * steel.shear.value) / steel.tensile.value) < 1e-9);
    assert.deepEqual(shear.inputs, ['plate.tensile']);
    assert.equal(shear.place.from, modelFrom(spec).materials()[0]!.stock()!.place.from);
  });

  it('let a spec use such a figure', () => {
    const model = modelFrom(
      'material plate\n  mild steel 1.5 mm\n  yield 200 MPa\nmaterial other\n  mild steel 2 mm\n  yield plate.yield * 1.2\n',
    );
    assert.equal(figureValue(model, 'other.yield'), 240);
  });

  it('say so where the table does not know the temper', () => {
    assert.match(figureOf('material b\n  bronze 0.9 mm, half hard\n', 'b.yield').note ?? '', /half hard/);
    assert.equal(figureOf('material b\n  brass 0.9 mm, half hard\n', 'b.yield').note, undefined);
  });

  it('say nothing of the strength of leather', () => {
    const names = modelFrom('material flap\n  veg-tan leather 7 oz\n')
      .figures()
      .flatMap((set) => set.all())
      .map(({ name }) => name);
    assert.ok(!names.includes('flap.yield'));
  });

  it('tell what a mill may be off, unless the smith has measured', () => {
    assert.equal(figureOf('material plate\n  mild steel 1.5 mm\n', 'plate.tolerance').value, 0.08);
    const names = modelFrom('material plate\n  mild steel 1.5 mm ± 0.03 mm\n')
      .figures()
      .flatMap((set) => set.all())
      .map(({ name }) => name);
    assert.ok(!names.includes('plate.tolerance'));
  });
});

describe('a tolerance', () => {
  const spec = (thickness: string) => `material plate
  mild steel ${thickness}
rivet small
  brass 4 x 10 mm, domed
piece cop
  from plate
  dome 200 mm, deep 60 mm
  dish
piece band
  from plate
  plate 600 x 20 mm
seam line
  joins band, cop
  along band.top
  rivets small, every 30 mm, inset 8 mm, peened domed
`;
  const sure = (name: string) => figureOf(spec('1.5 mm'), name);
  const unsure = (name: string) => figureOf(spec('1.5 mm ± 0.08 mm'), name);

  it('of a sheet goes on into all that is made of it, and changes no value', () => {
    for (const name of [
      'plate.thickness',
      'plate.mass-per-area',
      'cop.thickness.crown',
      'cop.thickness.edge',
      'cop.thickness.least',
      'cop.thickness.mean',
      'cop.mass',
      'band.mass',
      'band.thickness.least',
      'line.stack',
      'line.rivet-length',
    ]) {
      const one = sure(name);
      const other = unsure(name);
      assert.equal(other.value, one.value, name);
      assert.ok(other.low! < (one.low ?? one.value) && other.high! > (one.high ?? one.value), name);
    }
  });

  it('gives the range that the thin and the thick sheet would', () => {
    for (const [name, ends] of [
      ['cop.thickness.crown', ['low', 'high']],
      ['line.stack', ['low', 'high']],
      ['band.thickness.least', ['value', 'value']],
    ] as const) {
      const thin = figureOf(spec('1.42 mm'), name);
      const thick = figureOf(spec('1.58 mm'), name);
      assert.ok(Math.abs(unsure(name).low! - thin[ends[0]]!) < 1e-9, name);
      assert.ok(Math.abs(unsure(name).high! - thick[ends[1]]!) < 1e-9, name);
    }
  });
});

import assert from 'node:assert/strict';
import fc from 'fast-check';
import { checks } from '../../../server/checks/all.generated.ts';
import { problemsOf } from '../../../server/checks/run.ts';
import type { Model } from '../../../server/model/spec.ts';
import { samples, specOf, textOf } from '../../samples/support.ts';
import { inOtherUnits } from './other-units.ts';

/* A build is the same build in inches and in millimetres: every figure to a thousand-millionth, and every finding. */

const LIBRARY: Readonly<Record<string, string>> = Object.fromEntries(samples.map((name) => [name, textOf(name)]));

/** A spec with the files that it may use, the one asked for first. */
function both(name: string, text: string): readonly [Model, Model] {
  const files = { [name]: text, ...LIBRARY, [name]: text };
  return [
    specOf(files),
    specOf(Object.fromEntries(Object.entries(files).map(([path, each]) => [path, inOtherUnits(each)]))),
  ];
}

/** What is sold in inches is not what is sold in millimetres: these look at how the stock is written. */
const SOLD: ReadonlySet<string> = new Set(['thickness-not-stocked', 'rivet-too-long']);

function assertSame([one, other]: readonly [Model, Model]): number {
  const figures = (model: Model) =>
    new Map(model.figures().flatMap((set) => set.all().map((figure) => [figure.name, figure] as const)));
  const [a, b] = [figures(one), figures(other)];
  assert.deepEqual([...b.keys()], [...a.keys()]);
  for (const [name, figure] of a) {
    const twin = b.get(name)!;
    assert.equal(twin.unit, figure.unit, name);
    for (const end of ['value', 'low', 'high'] as const) {
      const [x, y] = [figure[end], twin[end]];
      if (x === undefined || y === undefined) assert.equal(y, x, `${name}.${end}`);
      else assert.ok(Math.abs(x - y) <= 1e-9 * Math.max(1, Math.abs(x)), `${name}.${end}: ${x} and ${y}`);
    }
  }
  const found = (model: Model) =>
    problemsOf(model)
      .filter(({ code }) => !SOLD.has(code))
      .map(({ code, severity }) => `${severity} ${code}`);
  assert.deepEqual(found(other), found(one));
  return a.size;
}

describe('inches and millimetres', () => {
  // Laying a breastplate flat takes a second, and more on a busy machine.

  it('every measure is rewritten, exactly', () => {
    assert.equal(
      inOtherUnits('piece a\n  plate 120 x 2 1/2 mm\n  slot eye 1/8 x 3 in, at 25.4 mm from top\n'),
      'piece a\n  plate 600/127 x 25/254 in\n  slot eye 127/40 x 381/5 mm, at 1 in from top\n',
    );
    assert.equal(inOtherUnits('let a = 10 mm + 2 * 1 in\n'), 'let a = 50/127 in + 2 * 127/5 mm\n');
    assert.equal(inOtherUnits('material a\n  mild steel 16 ga\n'), 'material a\n  mild steel 16 ga\n');
  });

  for (const name of samples)
    it(`agree in ${name}`, () => {
      const [one, other] = both(name, LIBRARY[name]!);
      assert.notEqual(other.file.spec.sections.length, 0);
      assert.ok(assertSame([one, other]) > 10);
    });

  // A fault of the writing itself is lost or made by writing it anew.
  for (const check of checks)
    if (check.family !== 'Language')
      it(`agree in the example of ${check.code}`, () => {
        const files = { [`${check.code}.planish`]: check.example, ...check.beside };
        const turned = Object.fromEntries(Object.entries(files).map(([path, text]) => [path, inOtherUnits(text)]));
        assertSame([specOf(files), specOf(turned)]);
      });

  /** Sixty-fourths of an inch and tenths of a millimetre, as a smith writes them. */
  const length = (least: number, most: number) =>
    fc.oneof(
      fc.integer({ min: Math.ceil(least * 10), max: Math.floor(most * 10) }).map((tenths) => `${tenths / 10} mm`),
      fc
        .integer({ min: Math.ceil((least / 25.4) * 64), max: Math.floor((most / 25.4) * 64) })
        .map((parts) => `${parts}/64 in`),
    );
  const form = fc.oneof(
    fc.tuple(length(80, 400), length(20, 35)).map(([d, h]) => `dome ${d}, deep ${h}\n  dish then raise`),
    fc
      .tuple(length(200, 700), length(20, 200), fc.integer({ min: 60, max: 360 }))
      .map(
        ([girth, high, wrap]) => `cylinder round ${girth}, high ${high}, wrap ${wrap} deg\n  edge top rolled over wire`,
      ),
    fc
      .tuple(length(200, 400), length(410, 700), length(40, 200))
      .map(([top, bottom, high]) => `cone round ${top} to ${bottom}, high ${high}, wrap 200 deg, outside`),
    fc
      .tuple(length(40, 300), length(40, 300), length(3, 10))
      .map(([wide, high, hole]) => `plate ${wide} x ${high}\n  hole lace ${hole}, at ${high} / 2 from top`),
  );

  it('agree in any piece', () => {
    fc.assert(
      fc.property(length(0.6, 3), length(1.5, 4), form, (thickness, wire, lines) => {
        const text = `build "Any"\n  duty stage\nmaterial sheet\n  mild steel ${thickness}\nmaterial wire\n  mild steel wire ${wire}\npiece any\n  from sheet\n  ${lines}\n`;
        assertSame([specOf({ 'any.planish': text }), specOf({ 'any.planish': inOtherUnits(text) })]);
      }),
      { numRuns: 60 },
    );
  });
});

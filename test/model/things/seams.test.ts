import assert from 'node:assert/strict';
import { shown } from '../../../server/model/values/figure.ts';
import { figuresOf, figureValue, modelFrom, nearFigure, PLATE } from '../support.ts';

const close = (a: number, b: number, within = 1e-6) =>
  assert.ok(Math.abs(a - b) <= within * Math.max(1, Math.abs(b)), `${a} is not ${b}`);

const TWO = `${PLATE}rivet small
  brass 4 x 10 mm, domed
  washer 10 x 0.8 mm
piece outer
  from plate
  plate 200 x 40 mm
piece inner
  from plate
  make 2
  plate 200 x 40 mm
`;

describe('seams', () => {
  it('sum the stack where the rivet passes, as formed', () => {
    const model = modelFrom(
      `${TWO}piece cop\n  from plate\n  dome 200 mm, deep 60 mm\nseam join\n  joins cop, outer\n  along cop.rim\n  rivets small, every 30 mm\n`,
    );
    close(figureValue(model, 'join.stack'), figureValue(model, 'cop.thickness.edge') + 1.5);
    assert.ok(figureValue(model, 'cop.thickness.edge') > 1.5, 'the rim of a dished dome is thicker than the sheet');
  });

  it('pass a hem as often as it is folded', () => {
    const through = (hem: string, inset: number) =>
      modelFrom(
        TWO.replace('  plate 200 x 40 mm\n', `  plate 200 x 40 mm\n  edge top hemmed ${hem}\n`) +
          `seam join\n  joins outer, inner\n  along outer.top\n  rivets small, every 30 mm, inset ${inset} mm\n`,
      )
        .seams()[0]
        ?.figure('stack');
    close(through('12 mm', 6)!.value, 2 * 1.5 + 1.5);
    assert.equal(through('12 mm', 6)!.formula, 'G = 2 × outer + inner');
    close(through('12 mm, double', 6)!.value, 3 * 1.5 + 1.5);
    close(through('5 mm', 6)!.value, 1.5 + 1.5);
  });

  it('press leather together and count the washer', () => {
    const model = modelFrom(
      `${TWO}material hide\n  veg-tan leather 8 oz\npiece flap\n  from hide\n  plate 100 x 90 mm\nseam join\n  joins outer, flap\n  along outer.top\n  rivets small, every 30 mm, washer inside\n`,
    );
    close(figureValue(model, 'join.stack'), 1.5 + 3.175 * 0.85 + 0.8);
    const stack = model.seams()[0]?.figure('stack');
    assert.equal(stack?.formula, 'G = outer + flap + washer');
    // From 7.5 oz pressed by a fifth to 8.5 oz pressed by a tenth.
    assert.equal(stack && shown(stack, 'mm'), '5 mm (4.68 to 5.34 mm)');
  });

  it('need the length that fills the hole and makes the head', () => {
    // DIN 660 head, hole 4.2, stack 2.4: 2.4 × 1.1025 + 4.251 = 6.90 mm.
    const model = modelFrom(
      `material thin\n  mild steel 1.2 mm\nrivet small\n  brass 4 x 10 mm, domed\npiece a\n  from thin\n  plate 200 x 40 mm\npiece b\n  from thin\n  plate 200 x 40 mm\nseam join\n  joins a, b\n  along a.top\n  rivets small, every 30 mm\n`,
    );
    close(figureValue(model, 'join.hole'), 4.15, 0.02);
    close(figureValue(model, 'join.rivet-length'), 6.9, 0.02);
    const flush = modelFrom(
      `${TWO}seam join\n  joins outer, inner\n  along outer.top\n  rivets small, every 30 mm, peened flush\n`,
    );
    assert.ok(
      figureValue(flush, 'join.rivet-length') < figureValue(model, 'join.rivet-length'),
      'a flush head takes less metal',
    );
  });

  it('divide an open row evenly, and keep its ends from the ends of the piece', () => {
    const model = modelFrom(
      `${TWO}seam join\n  joins outer, inner\n  along outer.top\n  rivets small, every 30 mm, inset 10 mm\n`,
    );
    assert.equal(figureValue(model, 'join.rivets'), 7); // 180 mm of run, six gaps of 30
    close(figureValue(model, 'join.pitch'), 30);
  });

  it('close a row round a rim', () => {
    const model = modelFrom(
      `${TWO}piece lid\n  from plate\n  disc 100 mm\nseam join\n  joins lid, outer\n  along lid.rim\n  rivets small, every 40 mm\n`,
    );
    assert.equal(figureValue(model, 'join.rivets'), 8); // 314.2 ÷ 40 = 7.9
    close(figureValue(model, 'join.pitch'), (Math.PI * 100) / 8);
  });

  it('take a count or a part of an edge as it is said', () => {
    const counted = modelFrom(
      `${TWO}seam join\n  joins outer, inner\n  along outer.top, from 20 mm to 120 mm\n  rivets small, count 5, inset 10 mm\n`,
    );
    close(figureValue(counted, 'join.length'), 100);
    close(figureValue(counted, 'join.pitch'), 20);
  });

  it('count rows by the copies that are joined', () => {
    const rows = (lines: string) =>
      modelFrom(`${TWO}seam join\n  ${lines}\n  along outer.top\n  rivets small, count 3\n`).seams()[0]?.rows();
    assert.equal(rows('joins outer, inner'), 1);
    assert.equal(rows('joins outer, left inner\n  joins outer, right inner'), 2);
    const inner = modelFrom(
      `${TWO}seam join\n  joins outer, inner\n  along inner.top\n  rivets small, count 3\n`,
    ).seams()[0];
    assert.equal(inner?.rows(), 2);
  });

  it('add up to the mass of the build with rivets, wire and parts', () => {
    const model = modelFrom(
      `build "Test"\n${TWO}part buckle\n  mass 28 g\n  make 2\nseam join\n  joins outer, inner\n  along outer.top\n  rivets small, count 3\n`,
    );
    const plate = (200 * 40 * 1.5 * 7.85) / 1000;
    close(figureValue(model, 'build.mass'), 3 * plate + 56 + 3 * figureValue(model, 'small.mass'));
  });

  it('say nothing where a layer is not known', () => {
    const model = modelFrom(`${TWO}seam join\n  joins outer, nobody\n  along outer.top\n  rivets small, count 3\n`);
    assert.equal(model.seams()[0]?.figure('stack'), undefined);
    assert.equal(model.seams()[0]?.figure('rivets')?.value, 3);
  });
});

describe('a row over the crown', () => {
  it('passes every thickness from the edge to the crown: its stack and its rivets have that range', () => {
    const found = figuresOf(`material plate
  mild steel 1.5 mm
rivet small
  mild steel 1/8 x 1/4 in, domed
piece skull
  from plate
  make 2, mirrored
  half dome 248 x 204 mm, deep 160 mm
  raise
piece ridge
  from plate
  strip 420 x 30 mm
seam crest
  joins ridge, left skull, right skull
  along skull.middle
  rivets small, every 30 mm, inset 8 mm, peened domed
`);
    const at = (where: string) => found.get(`skull.thickness.${where}`)!;
    const stack = found.get('crest.stack')!;
    assert.ok(at('edge').high! > at('crown').low!);
    nearFigure(stack, 1.5 + 2 * at('mid').value);
    const all = ['crown', 'mid', 'edge'].map(at);
    assert.ok(Math.abs(stack.low! - 1.5 - 2 * Math.min(...all.map(({ value, low = value }) => low))) < 1e-9);
    assert.ok(Math.abs(stack.high! - 1.5 - 2 * Math.max(...all.map(({ value, high = value }) => high))) < 1e-9);
    const length = found.get('crest.rivet-length')!;
    assert.ok(length.high! - length.low! >= stack.high! - stack.low! - 1e-9);
  });
});

import assert from 'node:assert/strict';
import { figuresOf as figures, modelFrom, nearFigure as near, PLATE } from '../support.ts';

const RULES = `build "Cop"
  duty contact, rules book
rules book
  book "Rules of the field", dated 2026-01-01
  finished at least 1.2 mm
`;

describe('forming', () => {
  it('keeps the metal: the mean thickness of a dished dome is the sheet’s, of a raised one more', () => {
    const dished = figures(`${PLATE}piece cop\n  from plate\n  dome 200 mm, deep 60 mm\n  dish\n`);
    near(dished.get('cop.thickness.mean'), 1.5, 3e-3);
    const mean = dished.get('cop.thickness.mean')!;
    near({ ...mean, value: mean.low! }, 1.5 / 1.36);
    const raised = figures(`${PLATE}piece cop\n  from plate\n  dome 200 mm, deep 60 mm\n  raise\n`);
    const all = raised.get('cop.thickness.mean')!;
    // From the sheet’s thickness to that of a plate whose profile keeps its length.
    near({ ...all, value: all.low! }, 1.5, 3e-3);
    near({ ...all, value: all.high! }, 1.5 * (122.495 / 116.619) ** 2, 2e-2);
    assert.ok(all.low! < all.value && all.value < all.high!);
  });

  it('makes of the smith’s own disc what it becomes, by area, and everything follows', () => {
    const PIECE = `${PLATE}piece cop\n  from plate\n  dome 200 mm, deep 60 mm\n  dish\n`;
    const [free, own] = [figures(PIECE), figures(`${PIECE}  blank disc 200 mm\n`)];
    near(own.get('cop.thickness.mean'), 1.5 / 1.36);
    const share = 1 / 1.36 / (free.get('cop.thickness.mean')!.value / 1.5);
    for (const place of ['crown', 'mid', 'edge', 'least'])
      near(own.get(`cop.thickness.${place}`), free.get(`cop.thickness.${place}`)!.value * share, 1e-9);
    near(own.get('cop.strain.edge-along'), 0, 1e-9);
    // At the crown both ways stretch alike: the strain is the loss of thickness.
    near(own.get('cop.strain.crown'), -Math.log(own.get('cop.thickness.crown')!.value / 1.5), 1e-9);
    assert.ok(own.get('cop.anneals')!.value > free.get('cop.anneals')!.value);
    near(own.get('cop.mass'), (Math.PI * 100 ** 2 * 1.5 * 7.85) / 1000);
  });

  it('takes no more of the smith’s own disc than the form needs', () => {
    const PIECE = `${PLATE}piece cop\n  from plate\n  dome 200 mm, deep 60 mm\n  dish\n`;
    const [free, own] = [figures(PIECE), figures(`${PIECE}  blank disc 240 mm\n`)];
    near(own.get('cop.thickness.mean'), free.get('cop.thickness.mean')!.value, 1e-9);
    near(own.get('cop.mass'), free.get('cop.mass')!.value, 1e-9);
    assert.ok(own.get('cop.trimmings')!.value > 0);
    // The disc that is told to cut changes nothing.
    const RAISED = PIECE.replace('dish', 'raise');
    const [said, left] = [`${RAISED}  blank disc ${figures(RAISED).get('cop.blank.diameter')!.value} mm\n`, RAISED].map(
      figures,
    );
    for (const name of ['mass', 'trimmings', 'thickness.mean', 'thickness.edge', 'strain.edge'])
      near(said!.get(`cop.${name}`), left!.get(`cop.${name}`)!.value, 1e-9);
  });

  it('names the stock to start from, where a rulebook asks for a thickness', () => {
    const spec = (form: string) => figures(`${RULES}${PLATE}piece cop\n  from plate\n  ${form}\n`);
    near(spec('plate 100 x 80 mm').get('cop.start-thickness'), 1.2);
    const dome = spec('dome 200 mm, deep 60 mm\n  dish');
    const start = dome.get('cop.start-thickness')!;
    near(start, (1.2 * 1.5) / dome.get('cop.thickness.least')!.value);
    assert.match(start.note ?? '', /Next stock up: \d/);
    assert.match(start.source, /Rules of the field/);
    assert.equal(figures(`${PLATE}piece cop\n  from plate\n  plate 10 x 8 mm\n`).get('cop.start-thickness'), undefined);
  });

  it('counts the gauge of the metal where the stock is said by gauge', () => {
    const found = figures(`${RULES}material plate\n  mild steel 18 ga\npiece cop\n  from plate\n  plate 100 x 80 mm\n`);
    assert.match(found.get('cop.start-thickness')!.note ?? '', /18 ga of the/);
  });

  it('takes the harder of the two things a rulebook asks', () => {
    const found = figures(`${RULES}  start at least 2.0 mm\n${PLATE}piece cop\n  from plate\n  plate 100 x 80 mm\n`);
    near(found.get('cop.start-thickness'), 2);
  });

  it('says which stake goes in', () => {
    const spec = (form: string) => figures(`${PLATE}piece cop\n  from plate\n  ${form}\n`);
    near(spec('dome 200 mm, deep 60 mm').get('cop.tightest-radius'), (100 ** 2 + 60 ** 2) / 120 - 0.75);
    near(spec('cylinder round 300 mm, high 100 mm, inside').get('cop.tightest-radius'), 300 / (2 * Math.PI));
    assert.equal(spec('plate 10 x 10 mm').get('cop.tightest-radius'), undefined);
  });

  it('rolls tighter than the finished radius, and tighter still for harder metal', () => {
    const spec = (metal: string) =>
      figures(`material plate\n  ${metal}\npiece cuff\n  from plate\n  cylinder round 300 mm, high 100 mm, inside\n`);
    const soft = spec('mild steel 1.2 mm').get('cuff.roll-radius')!;
    assert.ok(soft.value < 300 / (2 * Math.PI));
    assert.ok(soft.low! < soft.value && soft.value < soft.high!);
    const hard = spec('stainless steel 1.2 mm, grade "304"').get('cuff.roll-radius')!;
    assert.ok(hard.value < soft.value);
    const cone = figures(`${PLATE}piece cuff\n  from plate\n  cone round 300 to 200 mm, high 100 mm\n`);
    assert.ok(cone.get('cuff.roll-radius.top')!.value > cone.get('cuff.roll-radius.bottom')!.value);
  });

  it('uses the Keeler limit for the steel it was drawn for, and no other', () => {
    const spec = (metal: string) =>
      figures(`material plate\n  ${metal}\npiece cop\n  from plate\n  dome 100 mm, deep 20 mm\n`).get('cop.limit')!;
    assert.match(spec('mild steel 1.2 mm').source, /Keeler/);
    assert.doesNotMatch(spec('brass 1.2 mm').source, /Keeler/);
    near(spec('brass 1.2 mm'), Math.log(1 + 53 / 100), 1e-9);
  });

  it('is worked out only when it is asked for', () => {
    const model = modelFrom(`${PLATE}piece cop\n  from plate\n  dome 100 mm, deep 20 mm\n`);
    const [cop] = model.pieces();
    assert.ok(cop!.figure('thickness.crown'));
    assert.ok(cop!.figure('tightest-radius'), 'by its name');
    assert.ok(model.figureOf(cop!.named, 'limit'));
  });
});

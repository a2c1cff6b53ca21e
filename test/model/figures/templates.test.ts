import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import type { Model } from '../../../server/model/spec.ts';
import { layoutsOf } from '../../../server/output/documents/patterns/layouts.ts';
import type { Pattern } from '../../../server/output/documents/patterns/pattern.ts';
import { patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { figuresOf, modelFrom, nearFigure, PLATE } from '../support.ts';

const BREAST = `piece breast
  from plate
  form wrap 180 deg
  at 0 mm, round 973 mm, long 310 mm
  at 220 mm, round 1123 mm, long 360 mm
  at 340 mm, round 960 mm, long 320 mm
  dish
`;
const patternsIn = (model: Model) => patternsOf(model, { date: '2027-03-01', problems: [] });
const templatesIn = (spec: string): Pattern[] =>
  patternsIn(modelFrom(spec)).patterns.filter(({ piece }) => piece.includes('template'));
const refusals = (spec: string) =>
  problemsOf(modelFrom(spec)).flatMap(({ code, message }) => (code === 'template-impossible' ? [message] : []));

describe('templates', () => {
  it('have the length, width and depth of their section, counted as they stand', () => {
    const figures = figuresOf(
      `${PLATE}${BREAST}  template at 220 mm\n  template along middle\n  template at 220 mm, inside\n`,
    );
    // The wall stands upright at its widest level: half the thickness to each side of half the girth.
    const [outside, inside] = [figures.get('breast.template-1.length')!, figures.get('breast.template-3.length')!];
    nearFigure(outside, 1123 / 2 + (Math.PI * 1.5) / 2, 0.2);
    nearFigure(inside, 1123 / 2 - (Math.PI * 1.5) / 2, 0.2);
    nearFigure(figures.get('breast.template-1.deep'), 180.75, 0.01);
    assert.ok(figures.get('breast.template-2.high')!.value > 339.5);
    assert.equal(figures.get('breast.template-2.wide'), undefined);
    assert.equal(outside.place.section.text.slice(outside.place.from, outside.place.to), 'template at 220 mm');
    assert.equal(outside.basis, 'geometry');
    assert.match(outside.source, /moved out by half of what forming leaves there on the mean, 0\.75/);
  });

  it('take their height as the form’s levels do; other forms count from their lowest place', () => {
    const shifted = BREAST.replace('at 0 mm', 'at 40 mm').replace('at 220', 'at 260').replace('at 340', 'at 380');
    const value = (spec: string, name: string) => figuresOf(`${PLATE}${spec}`).get(name)!.value;
    const own = value(`${BREAST}  template at 100 mm\n`, 'breast.template-1.length');
    const high = value(`${shifted}  template at 140 mm\n`, 'breast.template-1.length');
    assert.ok(Math.abs(own - high) < 1e-6);
    // A band that lies high up on another plate: nought is its own bottom.
    const band = `${BREAST}piece band
  from plate
  lies over breast, gap 1 mm, from top to 60 mm
  template at 2 mm
`;
    assert.deepEqual(refusals(`${PLATE}${band}`), []);
    assert.ok(value(band, 'band.template-1.length') > 300);
  });

  it('go with a piece that is like another, as large as it is', () => {
    const figures = figuresOf(`${PLATE}${BREAST}  template at 100 mm\npiece small\n  like breast, scaled 0.5\n`);
    const [one, half] = [figures.get('breast.template-1.wide')!, figures.get('small.template-1.wide')!];
    // Half of the middle's width, and the whole of the thickness.
    assert.ok(Math.abs(half.value - one.value / 2 - 0.75) < 0.02, `${one.value}, ${half.value}`);
  });

  it('come out as patterns: one for all builds, with what lies which way', () => {
    const spec = `${PLATE}let waist = 60 mm
${BREAST}  make 2, mirrored
  cut neck from 120 mm on top to 120 mm on top, deep 50 mm
  template at waist
  template at 310 mm
  template along middle
  template along middle
`;
    const [waist, neck, middle, again] = templatesIn(spec) as [Pattern, Pattern, Pattern, Pattern];
    assert.deepEqual(
      [waist, neck, middle, again].map(({ piece }) => piece),
      [
        'breast, template at waist',
        'breast, template at 310 mm',
        'breast, template along middle',
        'breast, template along middle (2)',
      ],
    );
    const texts = ({ labels }: Pattern) => labels.map(({ text }) => text);
    for (const text of ['outside of breast, at waist, 60 mm up', 'front', 'wearer’s left', 'wearer’s right', 'middle'])
      assert.ok(texts(waist).includes(text), text);
    for (const text of ['up', 'down', 'front', '220 mm', '60 mm', '310 mm'])
      assert.ok(texts(middle).includes(text), text);
    assert.ok(waist.once && waist.count === 1 && waist.turned === 0);
    assert.ok(waist.notes.some((note) => /half of 1\.5 mm/.test(note)));
    assert.ok(waist.notes.includes('Turn it over for the copy on the other side.'));
    // The neck is open at 310 mm: a tick at both its sides, and none below it.
    const ticks = ({ lines }: Pattern) => lines.filter(({ kind }) => kind === 'match').length;
    assert.deepEqual([ticks(waist), ticks(neck)], [0, 2]);
    assert.ok(middle.notes.some((note) => note.includes('seen from the wearer’s right')));
  });

  it('are chosen with their piece, and are no part of the sheets', () => {
    const spec = `${PLATE.trimEnd()}\n  sheet 1000 x 2000 mm\n${BREAST}  template at 100 mm\npiece tab\n  from plate\n  plate 40 x 20 mm\n  template at 5 mm\n`;
    const model = modelFrom(spec);
    const names = (piece: string) =>
      patternsOf(model, { date: '2027-03-01', problems: [], piece }).patterns.map((each) => each.piece);
    assert.deepEqual(names('BREAST'), ['breast', 'breast, template at 100 mm']);
    assert.deepEqual(names('tab'), ['tab']);
    assert.deepEqual(patternsIn(model).missing, [
      { piece: 'tab, template at 5 mm', reason: 'it has no formed surface' },
    ]);
    const { sheets, missing } = layoutsOf(model, { date: '2027-03-01', problems: [] });
    assert.deepEqual(missing, []);
    assert.ok(!JSON.stringify(sheets).includes('template'));
  });

  it('say why there is none', () => {
    assert.deepEqual(refusals(`${PLATE}${BREAST}  template at 400 mm\n`), [
      '“breast” has no section at 400 mm for a template: it reaches from 0 mm to 340 mm up.',
    ]);
    assert.match(
      refusals(`${PLATE}${BREAST.replace('180', '150')}  template along left\n`)[0]!,
      /“left” does not lie in one upright plane, and a board is flat\.$/,
    );
    assert.match(
      refusals(`${PLATE}${BREAST}  template along crest\n`)[0]!,
      /no edge or line “crest” .*it has front, middle/,
    );
    assert.match(
      refusals(`${PLATE}piece a\n  from plate\n  disc 90 mm\n  template at 5 mm\n`)[0]!,
      /no formed surface\.$/,
    );
    // Of a form that is at fault or not finished the form itself is marked.
    assert.deepEqual(refusals(`${PLATE}piece a\n  from plate\n  dome 90 mm\n  template at 5 mm\n`), []);
    assert.deepEqual(refusals('piece a\n  from lost\n  dome 90 mm, deep 20 mm\n  template at 50 mm\n'), []);
    assert.deepEqual(refusals(`${PLATE}${BREAST}  template at \n  template along\n`), []);
  });
});

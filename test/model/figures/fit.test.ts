import assert from 'node:assert/strict';
import { figuresOf, nearFigure } from '../support.ts';

const GUARD = `material plate
  mild steel 1.5 mm
wearer guard
  head round 585 mm
  head length 200 mm
  head breadth 158 mm
  knee round 385 mm
  bent knee round 402 mm
`;
const piece = (lines: string, more = '') => figuresOf(`${GUARD}${more}piece cop\n  from plate\n  ${lines}\n`);

describe('fit', () => {
  it('leaves the ease that was asked for', () => {
    const found = piece(
      'fits guard head, liner 10 mm, ease 6 mm\n  cylinder round guard.head-round + 2 * pi * 16 mm, high 80 mm, inside',
    );
    nearFigure(found.get('cop.inside-round'), 585 + 2 * Math.PI * 16);
    nearFigure(found.get('cop.clearance'), 6);
    nearFigure(found.get('cop.head-passes'), 2 * Math.PI * 16);
  });

  it('looks front to back and side to side where length and breadth are known', () => {
    const found = piece('fits guard head, liner 10 mm\n  oval dome 240 x 200 mm, deep 150 mm, inside');
    nearFigure(found.get('cop.clearance.front-back'), 10);
    nearFigure(found.get('cop.clearance.side'), 11);
  });

  it('takes a joint bent, where it is thicker', () => {
    const found = piece('fits guard knee, liner 15 mm\n  cylinder round 520 mm, high 50 mm, wrap 170 deg, inside');
    nearFigure(found.get('cop.clearance'), (520 - 402) / (2 * Math.PI) - 15);
    assert.deepEqual(found.get('cop.clearance')!.inputs, ['cop.inside-round', 'guard.bent-knee-round']);
    assert.equal(found.get('cop.head-passes'), undefined);
  });

  it('says when a head does not pass a neck', () => {
    const found = piece('fits guard neck\n  cone round 560 to 640 mm, high 90 mm, inside');
    nearFigure(found.get('cop.head-passes'), -25);
  });

  it('does not take a cop for a tube', () => {
    const found = piece('fits guard knee, liner 15 mm\n  dome 152 mm, deep 48 mm, inside');
    assert.equal(found.get('cop.clearance'), undefined);
    assert.ok(found.get('cop.inside-round'));
  });

  it('is silent without a wearer, and about a flat piece', () => {
    assert.equal(piece('cylinder round 600 mm, high 80 mm').get('cop.clearance'), undefined);
    assert.equal(piece('fits guard head\n  plate 20 x 20 mm').get('cop.inside-round'), undefined);
  });
});

describe('fit at its height', () => {
  const limb = `wearer reeve
  wrist round 170 mm
  forearm round 280 mm
  ankle round 230 mm
  calf round 370 mm
  head round 585 mm
`;
  const room = (inside: number, body: number, liner = 0) => (inside - body) / (2 * Math.PI) - liner;

  it('takes a wrist at the narrow end of a cone, whichever way up it stands, and a forearm at the wide one', () => {
    for (const ends of ['360 to 250', '250 to 360']) {
      const of = (region: string) =>
        piece(`fits reeve ${region}, liner 2 mm\n  cone round ${ends} mm, high 200 mm, wrap 200 deg, inside`, limb);
      nearFigure(of('wrist').get('cop.clearance'), room(250, 170, 2));
      nearFigure(of('forearm').get('cop.clearance'), room(360, 280, 2));
      // Nobody has said so: the ends are those of the cone.
      const { low, high } = of('forearm').get('cop.clearance')!;
      assert.ok(Math.abs(low! - room(250, 280, 2)) < 1e-9 && Math.abs(high! - room(360, 280, 2)) < 1e-9);
    }
  });

  it('takes a height or an edge where the line names one', () => {
    const at = (where: string) =>
      piece(`fits reeve forearm, ${where}\n  cone round 260 to 360 mm, high 200 mm, wrap 200 deg, inside`, limb).get(
        'cop.clearance',
      )!;
    nearFigure(at('at 0 mm'), room(360, 280));
    nearFigure(at('along bottom'), room(360, 280));
    nearFigure(at('along top'), room(260, 280));
    nearFigure(at('at 50 mm'), room(335, 280));
    assert.equal(at('at 50 mm').low, undefined);
  });

  it('counts the heights of a form as its levels do', () => {
    const found = piece(
      'fits reeve calf, at 150 mm\n  form wrap 200 deg, inside\n  at 100 mm, round 300 mm\n  at 200 mm, round 420 mm\n  at 300 mm, round 430 mm',
      limb,
    );
    // Between levels the girth runs smoothly, between those of both.
    const { value } = found.get('cop.inside-round')!;
    assert.ok(value > 300 && value < 420);
    nearFigure(found.get('cop.clearance'), room(value, 370));
  });

  it('tells several lines apart, and the tightest of all of them', () => {
    const found = piece(
      'fits reeve ankle, liner 3 mm, along bottom\n  fits reeve calf, liner 5 mm, along top\n  cone round 440 to 270 mm, high 240 mm, wrap 200 deg, inside',
      limb,
    );
    nearFigure(found.get('cop.clearance.ankle'), room(270, 230, 3));
    nearFigure(found.get('cop.clearance.calf'), room(440, 370, 5));
    nearFigure(found.get('cop.clearance'), room(270, 230, 3));
    assert.deepEqual(found.get('cop.clearance')!.inputs, ['cop.clearance.ankle']);
    assert.equal(found.get('cop.clearance.ankle-to-calf'), undefined);
  });

  it('finds the tight place between two heights', () => {
    const found = piece(
      'fits reeve ankle, at 0 mm\n  fits reeve calf, at 200 mm\n  form wrap 200 deg, inside\n  at 0 mm, round 300 mm\n  at 100 mm, round 302 mm\n  at 200 mm, round 440 mm',
      limb,
    );
    const between = found.get('cop.clearance.ankle-to-calf')!;
    assert.ok(between.value <= room(302, 300) + 0.01);
    nearFigure(found.get('cop.clearance'), between.value);
  });

  it('leaves less where an edge is rolled inward', () => {
    const at = (edge: string) =>
      piece(
        `fits reeve wrist, along bottom\n  cylinder round 300 mm, high 60 mm, wrap 200 deg, inside\n  edge ${edge} rolled, hollow 5 mm, inward`,
        limb,
      ).get('cop.clearance');
    nearFigure(at('top'), room(300, 170));
    nearFigure(at('bottom'), room(300, 170) - 6.5);
  });

  it('sends through a cuff the hand, and through a greave the heel, measured or not', () => {
    const cuff = (more: string) =>
      piece('fits reeve wrist\n  cone round 330 to 200 mm, high 60 mm, inside', `${limb}${more}`).get(
        'cop.hand-passes',
      )!;
    nearFigure(cuff('  hand round 212 mm\n'), -12);
    const guessed = cuff('  body man\n');
    nearFigure(guessed, 200 - 212);
    assert.ok(guessed.low! < guessed.value && guessed.high! > guessed.value);
    assert.deepEqual(guessed.inputs, ['reeve.hand-round.estimate', 'plate.thickness']);
    const greave = piece(
      'fits reeve calf\n  cone round 420 to 270 mm, high 200 mm, inside',
      `${limb}  foot round 340 mm\n`,
    );
    nearFigure(greave.get('cop.foot-passes'), 270 - 340);
  });

  it('is silent about a height that it does not have', () => {
    const found = piece('fits reeve wrist, at 90 mm\n  cylinder round 300 mm, high 60 mm, inside', limb);
    assert.equal(found.get('cop.clearance'), undefined);
  });

  it('answers the same for one shape however it is written', () => {
    const answers = (fits: string, forms: readonly string[]) => {
      const all = forms.map((form) => {
        const found = piece(`${fits}\n  ${form.replaceAll('\n', '\n  ')}`, limb);
        return ['clearance', 'inside-round', 'clearance.front-back'].map((name) => found.get(`cop.${name}`)?.value);
      });
      for (const each of all)
        each.forEach((value, i) => {
          assert.ok(
            value === undefined ? all[0]![i] === undefined : Math.abs(value - all[0]![i]!) < 1e-6,
            `${forms} ${i}`,
          );
        });
      assert.ok(all[0]![0] !== undefined);
    };
    answers('fits reeve wrist, liner 2 mm, at 40 mm', [
      'cylinder round 300 mm, high 90 mm, inside',
      'cone round 300 to 300 mm, high 90 mm, inside',
      'cylinder round 300 mm, long 95.49296585513721 mm, high 90 mm, inside',
      'form wrap 360 deg, inside\nat 0 mm, round 300 mm\nat 90 mm, round 300 mm',
      'form half, inside\nat 0 mm, round 300 mm\nat 90 mm, round 300 mm',
    ]);
    answers('fits reeve forearm, liner 2 mm, at 40 mm', [
      'cone round 240 to 300 mm, high 90 mm, inside',
      'form wrap 360 deg, inside\nat 0 mm, round 300 mm\nat 90 mm, round 240 mm',
      'form wrap 360 deg, inside\nat 0 mm, round 300 mm\nat 45 mm, round 270 mm\nat 90 mm, round 240 mm',
    ]);
    answers('fits guard head, liner 10 mm, at 40 mm', [
      'dome 220 mm, deep 140 mm, inside',
      'oval dome 220 x 220 mm, deep 140 mm, inside',
      'half dome 220 x 220 mm, deep 140 mm, inside',
      'gore dome 220 mm, deep 140 mm, gores 8, inside',
    ]);
    answers('fits guard head, liner 10 mm, at 30 mm', [
      'oval dome 240 x 210 mm, deep 90 mm, inside',
      'half dome 240 x 210 mm, deep 90 mm, inside',
    ]);
  });
});

describe('wearers', () => {
  it('has estimates of what belongs to a measure, marked as such, and none of what was measured', () => {
    const found = figuresOf('wearer guard\n  head round 585 mm\n  head length 203 mm\n');
    assert.equal(found.get('guard.head-length.estimate'), undefined);
    const broad = found.get('guard.head-breadth.estimate')!;
    assert.match(broad.title, /estimated/);
    assert.deepEqual(broad.inputs, ['guard.head-round', 'guard.head-length']);
    assert.ok(broad.low! < broad.value && broad.value < broad.high!);
    assert.equal(found.get('guard.hand-round.estimate'), undefined);
  });

  it('stand among other people', () => {
    const either = figuresOf(GUARD).get('guard.head-round.percentile')!;
    assert.ok(either.low! < either.high!);
    const man = figuresOf(`${GUARD}  body man\n`).get('guard.head-round.percentile')!;
    nearFigure(man, either.low!);
    assert.equal(man.unit, 'percent');
    assert.deepEqual(man.inputs, ['guard.head-round']);
    assert.equal(figuresOf(GUARD).get('guard.knee-round.percentile'), undefined);
  });
});

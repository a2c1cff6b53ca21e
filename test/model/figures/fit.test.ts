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

describe('wearers', () => {
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

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { circlePerimeter, ellipseArea, ellipsePerimeter } from '../../../server/trade/blank/plane-shapes.ts';
import { length, near } from '../numbers.ts';
import { outlined } from './outlined.ts';

const square = [
  { x: 0, y: 0 },
  { x: 100, y: 0 },
  { x: 100, y: 80 },
  { x: 0, y: 80 },
];

describe('Ovals', () => {
  it('of equal axes are round, and lie between twice the length and the box', () => {
    fc.assert(
      fc.property(length, length, (long, wide) => {
        assert.equal(ellipsePerimeter(long, long).value, circlePerimeter(long).value);
        const round = ellipsePerimeter(long, wide).value;
        assert.ok(round >= 2 * Math.max(long, wide) && round <= 2 * (long + wide));
        near(ellipsePerimeter(2 * long, 2 * wide).value, 2 * round, 1e-14);
        near(ellipseArea(2 * long, 2 * wide).value, 4 * ellipseArea(long, wide).value, 1e-14);
      }),
    );
  });
});

describe('Outlines', () => {
  it('of straight lines', () => {
    const plate = outlined(square);
    assert.equal(plate.area.value, 8000);
    assert.equal(plate.perimeter.value, 360);
    assert.deepEqual(plate.box, { left: 0, right: 100, bottom: 0, top: 80 });
    assert.equal(plate.crosses, false);
  });

  it('measure the same either way round', () => {
    assert.equal(outlined(square.toReversed()).area.value, 8000);
  });

  it('of two half circles are a disc, with its box', () => {
    const disc = outlined([
      { x: -50, y: 0, radius: -50 },
      { x: 50, y: 0, radius: -50 },
    ]);
    near(disc.area.value, Math.PI * 2500, 1e-14);
    near(disc.perimeter.value, Math.PI * 100, 1e-14);
    near(disc.box.top, 50);
    near(disc.box.bottom, -50);
    near(disc.box.right, 50);
  });

  it('bulge left for a positive radius: inward when travelling against the clock, outward with it', () => {
    const leads = (radius: number) =>
      outlined(square.map((point, index) => (index === 1 ? { ...point, radius } : point)));
    const half = 2 * Math.asin(50 / 60);
    const segment = (3600 * (half - Math.sin(half))) / 2;
    near(leads(60).area.value, 8000 - segment);
    near(leads(-60).area.value, 8000 + segment);
    near(leads(-60).box.bottom, -(60 - Math.sqrt(3600 - 2500)));
    // Nothing of the circle beyond the arc counts.
    assert.deepEqual([leads(-60).box.left, leads(-60).box.right, leads(-60).box.top], [0, 100, 80]);
    assert.deepEqual(leads(60).box, { left: 0, right: 100, bottom: 0, top: 80 });
    near(leads(60).perimeter.value, 260 + 60 * half);
  });

  it('refuse an arc that cannot reach, and a single line', () => {
    const tight = outlined([
      { x: 0, y: 0 },
      { x: 100, y: 0, radius: 49 },
      { x: 50, y: 80 },
    ]);
    assert.match(tight.area.outside ?? '', /cannot reach/);
    assert.match(
      outlined([
        { x: 0, y: 0 },
        { x: 9, y: 9 },
      ]).area.outside ?? '',
      /three corners/,
    );
    assert.ok(outlined([]).area.outside !== undefined);
  });

  it('notice that they cross themselves, with straight lines and with an arc', () => {
    const bow = outlined([
      { x: 0, y: 0 },
      { x: 100, y: 100 },
      { x: 100, y: 0 },
      { x: 0, y: 100 },
    ]);
    assert.equal(bow.crosses, true);
    assert.match(bow.area.outside ?? '', /crosses/);
    // A bay so deep that it breaks through the far side of a narrow strip.
    const bay = outlined([
      { x: 0, y: 0 },
      { x: 100, y: 0, radius: 50 },
      { x: 100, y: 30 },
      { x: 0, y: 30 },
    ]);
    assert.equal(bay.crosses, true);
  });

  it('keep their digits far from the origin', () => {
    const far = square.map(({ x, y }) => ({ x: x + 1e9, y: y - 1e9 }));
    near(outlined(far).area.value, 8000, 1e-6);
  });

  it('grow fourfold when every length doubles', () => {
    fc.assert(
      fc.property(length, length, length, (a, b, c) => {
        const outline = [
          { x: 0, y: 0 },
          { x: a, y: 0, radius: -(a / 2 + c) },
          { x: a, y: b },
        ];
        const doubled = outline.map((point) => ({
          x: 2 * point.x,
          y: 2 * point.y,
          ...(point.radius === undefined ? {} : { radius: 2 * point.radius }),
        }));
        near(outlined(doubled).area.value, 4 * outlined(outline).area.value);
      }),
    );
  });
});

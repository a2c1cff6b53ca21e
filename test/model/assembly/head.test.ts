import assert from 'node:assert/strict';
import { loftChart } from '../../../server/geometry/surface/loft.ts';
import { girthOf, sectionOf } from '../../../server/geometry/surface/section.ts';
import { headRooms } from '../../../server/model/assembly/head.ts';
import { headShape } from '../../../server/trade/fit/head.ts';
import { figuresOf, modelFrom } from '../support.ts';

const MEASURED = `build "Bowl"
wearer guard
  head round 575 mm
  head length 200 mm
  head breadth 155 mm
  crown height 90 mm
  face length 122 mm
  face breadth 142 mm
  eye distance 64 mm
  neck round 390 mm
material plate
  mild steel 1.5 mm
`;
const BOWL = `piece bowl
  from plate
  fits guard head, liner 10 mm, ease 5 mm, at 0 mm
`;
const measures = { round: 575, long: 200, broad: 155, crown: 90, face: 122, cheeks: 142, eyes: 64, neck: 390 };

describe('a head as a form', () => {
  it('has at the brow the girth, the length and the breadth that were measured, and its crown where it was', () => {
    const shape = headShape(measures)!;
    const brow = sectionOf(shape.levels.find(({ high }) => high === 0)!);
    assert.ok(typeof brow === 'object');
    assert.ok(Math.abs(girthOf(brow) - 575) < 1e-6);
    assert.ok(Math.abs(brow.front + brow.back - 200) < 1e-9 && Math.abs(2 * brow.wide - 155) < 1e-9);
    assert.deepEqual(loftChart(shape)!.point(0.5, 1), [0, 0, 90]);
  });

  it('is made as long as its measures are, and of none that are nothing', () => {
    for (const [round, long, broad] of [
      [500, 200, 155],
      [640, 180, 140],
      [575, 200, 400],
    ] as const)
      assert.ok(
        headShape({ ...measures, round, long, broad }) === undefined ||
          loftChart(headShape({ ...measures, round, long, broad })!),
      );
    assert.equal(headShape({ ...measures, neck: 0 }), undefined);
    assert.equal(headShape({ ...measures, crown: Number.NaN }), undefined);
  });
});

describe('the room round a head', () => {
  // A can round the brow alone, of which the nearest place is known: half its width less that of the head.
  const can = 'cylinder round 800 mm, high 4 mm, inside\n';

  it('is what lies between the skin and the inner face', () => {
    const [room] = headRooms(modelFrom(`${MEASURED}${BOWL}  ${can}`));
    const wanted = 800 / (2 * Math.PI) - 100;
    assert.ok(Math.abs(room!.least.apart - wanted) < 0.4, `${room!.least.apart}`);
    // In front or behind, where a head is longest; it is squarer than an oval there.
    assert.ok(Math.abs(room!.least.at[0]) < Math.abs(room!.least.at[1]) / 2);
    assert.equal(room!.low, room!.high);
  });

  it('is a figure of the build, with the liner off, and the share that has less than the ease', () => {
    const found = figuresOf(`${MEASURED}${BOWL}  ${can}`);
    const room = found.get('build.head-clearance')!;
    assert.ok(Math.abs(room.value - (800 / (2 * Math.PI) - 110)) < 0.4);
    assert.equal(room.low, undefined);
    // In front and behind the can comes nearer than 15 mm from the skin? 27 mm: nowhere.
    assert.equal(found.get('build.head-clearance.tight')!.value, 0);
    const tight = figuresOf(`${MEASURED}${BOWL}  cylinder round 700 mm, high 4 mm, inside\n`).get(
      'build.head-clearance.tight',
    )!;
    assert.ok(tight.value > 5 && tight.value < 60, `${tight.value}`);
  });

  it('has the ends of what is estimated, and says which', () => {
    const spec = MEASURED.replace('  head length 200 mm\n', '').replace('  crown height 90 mm\n', '');
    const room = figuresOf(`${spec}${BOWL}  ${can}`).get('build.head-clearance')!;
    assert.ok(room.low! < room.value && room.value < room.high!);
    assert.match(room.note!, /Estimated: guard\.head-length, guard\.crown-height/);
  });

  it('is below nought where the head does not go in', () => {
    const room = figuresOf(`${MEASURED}${BOWL}  dome 260 mm, deep 60 mm, inside\n`).get('build.head-clearance')!;
    // The crown stands 90 up, the inside of the dome 60.
    assert.ok(room.value < -35 && room.value > -41, `${room.value}`);
  });

  it('is not told of what fits no head', () => {
    assert.equal(
      figuresOf(`${MEASURED}${BOWL.replace(' head,', ' neck,')}  ${can}`).get('build.head-clearance'),
      undefined,
    );
  });
});

describe('what a wearer sees', () => {
  // The brow stands 100 up, so the eyes 78.
  const helm = (slot: string, more = '') =>
    figuresOf(
      `${MEASURED}piece helm\n  from plate\n  fits guard head, liner 10 mm, at 100 mm\n  cylinder round 750 mm, high 220 mm, inside\n${slot ? `  ${slot}\n` : ''}${more}`,
    );
  const value = (found: ReturnType<typeof helm>, name: string) => found.get(`build.sight.${name}`)!.value;

  it('is nothing behind a wall, and what the slot lets through', () => {
    // Only down past the lower edge, at the sides.
    const wall = helm('');
    assert.equal(value(wall, 'wide'), 0);
    assert.ok(value(wall, 'share') < 3);
    const found = helm('slot sight 130 x 12 mm, at 78 mm from bottom');
    assert.ok(Math.abs(value(found, 'left') - value(found, 'right')) < 0.2);
    assert.ok(Math.abs(value(found, 'up') - value(found, 'down')) < 0.2);
    // The wall before a pupil is about 19 mm off and 1.5 mm thick.
    const [x] = [Math.sqrt((750 / (2 * Math.PI)) ** 2 - 32 ** 2) - 100];
    const high = (2 * 180 * Math.atan(6 / (x + 1.5))) / Math.PI;
    assert.ok(Math.abs(value(found, 'up') + value(found, 'down') - high) < 2, `${value(found, 'up')} ${high}`);
    assert.ok(value(found, 'wide') > 100 && value(found, 'wide') <= 200);
    assert.ok(value(found, 'both') <= value(found, 'wide'));
    // Eyes that lie deeper see less.
    const wide = found.get('build.sight.up')!;
    assert.ok(wide.low! < wide.value);
  });

  it('looks up through a slot that lies over the eyes, and not down', () => {
    const found = helm('slot sight 130 x 12 mm, at 98 mm from bottom');
    assert.ok(value(found, 'down') < 0 && value(found, 'up') > 30);
  });

  it('grows with the slot, and with a second one', () => {
    const narrow = value(helm('slot sight 100 x 8 mm, at 78 mm from bottom'), 'share');
    const wide = value(helm('slot sight 140 x 12 mm, at 78 mm from bottom'), 'share');
    const two = value(
      helm('slot sight 140 x 12 mm, at 78 mm from bottom', '  hole low 20 mm, at 40 mm from bottom\n'),
      'share',
    );
    assert.ok(0 < narrow && narrow < wide && wide < two);
  });
});

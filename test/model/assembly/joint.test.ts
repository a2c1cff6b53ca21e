import assert from 'node:assert/strict';
import { moved } from '../../../server/geometry/motion/motion.ts';
import { apart } from '../../../server/geometry/surface/vector.ts';
import { assemblyOf } from '../../../server/model/assembly/pose.ts';
import { overlapOfStraightPlates } from '../../../server/trade/joint/joint.ts';
import { figuresOf, figureValue, modelFrom, nearFigure } from '../support.ts';

/** Insets are measured by chords. mm */
const NEAR = 1e-3;

/* Joints as a spec says them, against closed forms. */

const STOCK = `material plate
  mild steel 1.2 mm
rivet pivot
  mild steel 4 x 8 mm, domed
`;

interface Two {
  readonly girth: number;
  readonly wrap: number;
  readonly inset: number;
  readonly gap: number;
  readonly lap: number;
  readonly bend: number;
  readonly from?: number;
  readonly order?: string;
}

const two = ({ girth, wrap, inset, gap, lap, bend, from = 0, order = 'upper, lower' }: Two) => `${STOCK}piece upper
  from plate
  cylinder round ${girth} mm, high 90 mm, wrap ${wrap} deg
piece lower
  from plate
  lies under upper, gap ${gap} mm, high 90 mm, wrap ${wrap} deg
joint elbow
  plates ${order}
  pivots pivot, inset ${inset} mm
  bends ${from} to ${bend} deg
  overlap ${lap} mm
  overlap at least 5 mm
`;

/** From the line of the pivots to the middle of the plate beneath, and the same as figures of the spec. */
function reach({ girth, wrap, inset, gap }: Two): number {
  const radius = girth / (2 * Math.PI) - gap - 1.2;
  return radius * (1 - Math.cos((wrap * Math.PI) / 360 - inset / radius));
}

describe('a joint', () => {
  const cases: readonly Two[] = [
    { girth: 340, wrap: 200, inset: 10, gap: 1, lap: 30, bend: 25 },
    { girth: 250, wrap: 170, inset: 8, gap: 0.5, lap: 40, bend: 60 },
    { girth: 500, wrap: 230, inset: 15, gap: 2, lap: 24, bend: 12 },
  ];

  it('of two straight plates loses what the closed form says', () => {
    for (const each of cases) {
      const figures = figuresOf(two(each));
      const radius = reach(each);
      const left = overlapOfStraightPlates({ radius, top: each.lap / 2, end: -each.lap / 2, bend: each.bend });
      nearFigure(figures.get('elbow.overlap'), each.lap, NEAR);
      nearFigure(figures.get('elbow.radius'), radius, NEAR);
      nearFigure(figures.get('elbow.overlap-least'), left.value, NEAR);
    }
  });

  it('reaches to the bend at which the closed form comes to what is asked', () => {
    for (const each of cases) {
      const reached = figureValue(modelFrom(two(each)), 'elbow.reach');
      const left = overlapOfStraightPlates({
        radius: reach(each),
        top: each.lap / 2,
        end: -each.lap / 2,
        bend: reached,
      });
      assert.ok(Math.abs(left.value - 5) < NEAR, `${left.value} is left at ${reached}°`);
    }
  });

  it('closes in the middle where it bends back, and shares its range by its pairs', () => {
    const [each] = cases;
    const figures = figuresOf(two({ ...each!, from: -30, bend: 0 }));
    nearFigure(figures.get('elbow.overlap-least'), each!.lap, NEAR);
    const three = figuresOf(`${two({ ...each!, bend: 50, order: 'upper, lower, last' })}piece last
  from plate
  lies under lower, gap 1 mm, high 90 mm, wrap 200 deg
`);
    nearFigure(three.get('elbow.share'), 25);
    const left = overlapOfStraightPlates({ radius: reach(each!), top: 15, end: -15, bend: 25 });
    nearFigure(three.get('elbow.overlap-least'), left.value, NEAR);
    const alone = overlapOfStraightPlates({ radius: reach(each!), top: 15, end: -15, bend: 50 });
    nearFigure(three.get('elbow.overlap-worst'), alone.value, NEAR);
  });

  it('says the same with its plates the other way up', () => {
    const [each] = cases;
    const figures = figuresOf(two({ ...each!, order: 'lower, upper' }));
    const left = overlapOfStraightPlates({ radius: reach(each!), top: 15, end: -15, bend: 25 });
    nearFigure(figures.get('elbow.overlap-least'), left.value, NEAR);
  });

  it('takes what the bend needs where no overlap is said: it keeps what is asked, and little more', () => {
    for (const each of cases) {
      const figures = figuresOf(two(each).replace(/ {2}overlap \d+ mm\n/, ''));
      const left = figures.get('elbow.overlap-least')!.value;
      assert.ok(left > 5 - NEAR && left < 5 + each.lap / 2, `${left} mm`);
      assert.match(figures.get('elbow.overlap')!.note!, /is taken, what the bend needs/);
    }
  });

  it('turns about the shank of a pivot that stands alone', () => {
    // A half cylinder, its rivet on the side: the shank points across.
    const radius = 340 / (2 * Math.PI) - 2.2;
    const wrap = 180 + (2 * 10 * 180) / (Math.PI * radius);
    const spec = two({ girth: 340, wrap: 200, inset: 10, gap: 1, lap: 30, bend: 25 }).replaceAll(
      'wrap 200',
      `wrap ${wrap}`,
    );
    const both = figuresOf(spec);
    const left = figuresOf(spec.replace('inset 10 mm', 'inset 10 mm, left'));
    nearFigure(left.get('elbow.radius'), radius, 1e-4);
    nearFigure(left.get('elbow.overlap-least'), both.get('elbow.overlap-least')!.value, 1e-3);
  });

  it('ties plates that do not lie on each other by their forms at their pivots', () => {
    const [each] = cases;
    const radius = 340 / (2 * Math.PI) - 2.2;
    const model = modelFrom(
      two(each!).replace(
        'lies under upper, gap 1 mm, high 90 mm,',
        `cylinder round ${2 * Math.PI * (radius + 1)} mm, high 90 mm,`,
      ),
    );
    const { groups, unplaced } = assemblyOf(model);
    assert.deepEqual(unplaced, []);
    assert.equal(groups.length, 1);
    const lower = groups[0]!.bodies.find(({ body }) => body.id === 'lower')!;
    assert.equal(lower.by, 'joint elbow');
    assert.ok(apart(moved(lower.motion, [0, 0, 90]), [0, 0, 30]) < 0.2);
    nearFigure(
      new Map(model.figures().flatMap((set) => set.all().map((figure) => [figure.name, figure]))).get('elbow.overlap'),
      30,
      0.05,
    );
  });

  it('hangs a lame under a dome by its pivots', () => {
    const figures = figuresOf(`${STOCK}piece cop
  from plate
  dome 130 mm, deep 62 mm
piece lower
  from plate
  lies under cop, gap 1 mm, high 60 mm, wrap 190 deg
joint elbow
  plates cop, lower
  pivots pivot, inset 8 mm
  bends 0 to 15 deg
  overlap 16 mm
`);
    assert.ok(Math.abs(figures.get('elbow.overlap')!.value - 16) < 6, `${figures.get('elbow.overlap')!.value} mm`);
    assert.ok(figures.get('elbow.overlap-least')!.value < figures.get('elbow.overlap')!.value);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { Chart } from '../../../server/geometry/surface/chart.ts';
import { coverChart, foldsOver } from '../../../server/geometry/surface/cover.ts';
import { wayLength } from '../../../server/geometry/surface/cut.ts';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import { type LoftShape, loftChart, loftRefusals } from '../../../server/geometry/surface/loft.ts';
import { surfaceArea } from '../../../server/geometry/surface/measure.ts';
import { raisedInSteps, rowsInSteps } from '../../../server/geometry/surface/mesh.ts';
import { pchip } from '../../../server/geometry/surface/pchip.ts';
import { plateChart } from '../../../server/geometry/surface/plate.ts';
import { girthOf, grownSection, type Section, sectionOf } from '../../../server/geometry/surface/section.ts';
import type { Surface } from '../../../server/geometry/surface/surface.ts';
import { apart } from '../../../server/geometry/surface/vector.ts';
import type { Steps } from '../../../server/incremental/steps.ts';
import { near } from '../../trade/numbers.ts';
import { formArea, meshOf } from '../at-once.ts';
import { normalError, soundSurface, turning } from './sound.ts';

const BREAST: LoftShape = {
  wrap: 190,
  levels: [
    { high: 0, round: 973, long: 340 },
    { high: 260, round: 1123, long: 390, deep: 160 },
    { high: 360, round: 900, long: 330 },
  ],
};
const VISOR: LoftShape = {
  wrap: 200,
  levels: [
    { high: 0, round: 760, long: 260 },
    { high: 70, round: 790, long: 320, ridge: true },
    { high: 150, round: 720, long: 250 },
  ],
};
const SKULL: LoftShape = {
  wrap: 'half',
  levels: [
    { high: 0, round: 690, long: 235 },
    { high: 80, round: 680, long: 232, offset: 4 },
    { high: 150, ends: 'flat' },
  ],
};
const POT: LoftShape = {
  wrap: 360,
  levels: [
    { high: 0, round: 700, long: 240, wide: 215 },
    { high: 75, round: 500, long: 170, wide: 150, ends: 'flat' },
  ],
};
const TIP: LoftShape = {
  wrap: 300,
  levels: [
    { high: 0, round: 400 },
    { high: 120, ends: 'point' },
  ],
};

const CHARTS: Readonly<Record<string, Chart>> = {
  'a round dome': domeChart({ long: 210, wide: 210, deep: 60 }),
  'an oval dome': domeChart({ long: 235, wide: 195, deep: 70 }),
  'half a deep dome': domeChart({ long: 240, wide: 180, deep: 150 }, 'half'),
  'a gore': domeChart({ long: 210, wide: 210, deep: 105 }, { gores: 6 }),
  'a breastplate': loftChart(BREAST)!,
  'a visor with a ridge': loftChart(VISOR)!,
  'half a skull with a round crown': loftChart(SKULL)!,
  'a pot with a flat top': loftChart(POT)!,
  'a cone to a point': loftChart(TIP)!,
  'a plate': plateChart(120, 80),
  'a band over a breastplate': coverChart(loftChart(BREAST)!, 2.5, { from: 'bottom', wide: 150 })!,
  'a patch over an oval dome': coverChart(domeChart({ long: 150, wide: 125, deep: 62 }), 2.5, { long: 60, wide: 24 })!,
};

/** A point of a plain form takes a microsecond, one of a form with flutes or of a cover some of them. */
const POINTS_AT_ONCE = 1000;

describe('Surfaces', () => {
  for (const [name, chart] of Object.entries(CHARTS)) {
    it(`${name}: whole, turned outward, named all round, one disc, at three finenesses`, () => {
      for (const fineness of [{ vertices: 60 }, { vertices: 60, refine: 2 }, {}])
        soundSurface(meshOf(chart, fineness), { closed: chart.closed });
    });

    it(`${name}: its normals are those of its slopes`, () => {
      assert.ok(normalError(chart) < 2e-4, `${normalError(chart)}`);
    });

    it(`${name}: what it curves and what its outline turns is one whole turn (Gauss and Bonnet)`, () => {
      near(turning(meshOf(chart, { vertices: 300 })), 2 * Math.PI, 1e-9);
    });

    it(`${name}: its sheet leads back to the spot it came from`, () => {
      for (let i = 1; i < 9; i++)
        for (let j = 0; j < 9; j++) {
          const [u, v] = [i / 9, j / 9];
          const [x, y] = chart.spot(...chart.sheet(u, v));
          assert.ok(Math.abs(x - u) < 1e-6 && Math.abs(y - v) < 1e-6, `${u}, ${v} comes back as ${x}, ${y}`);
        }
    });
  }

  it('stop for others while they are meshed, however fine: after a few hundred points at most', () => {
    for (const [name, chart] of Object.entries(CHARTS)) {
      let [all, since, most] = [0, 0, 0];
      const counted: Chart = {
        ...chart,
        point(u, v) {
          all++;
          since++;
          return chart.point(u, v);
        },
      };
      const meshing = function* (): Steps<Surface> {
        return yield* raisedInSteps(counted, yield* rowsInSteps(counted, { vertices: 4000, refine: 2 }));
      };
      for (const _ of meshing()) {
        most = Math.max(most, since);
        since = 0;
      }
      most = Math.max(most, since);
      assert.ok(all > 10_000, `${name}: only ${all} points were asked for`);
      assert.ok(most <= POINTS_AT_ONCE, `${name}: ${most} of ${all} points between two stops`);
    }
  });

  it('have as many vertices as they are asked for, about', () => {
    for (const chart of Object.values(CHARTS)) {
      const count = meshOf(chart).positions.length / 3;
      assert.ok(count > 700 && count < 1400, `${count}`);
    }
  });

  it('of covers on covers ask the form below no more often, however many lie between', () => {
    const askedThrough = (covers: number): number => {
      let asked = 0;
      const base = loftChart(BREAST)!;
      let chart: Chart = {
        ...base,
        normal(u, v) {
          asked++;
          return base.normal(u, v);
        },
      };
      for (let i = 0; i < covers; i++) chart = coverChart(chart, 1, { from: 'bottom', wide: 150 - i })!;
      // The columns have been measured then.
      chart.point(0.3, 0.4);
      asked = 0;
      chart.point(0.3, 0.6);
      return asked;
    };
    assert.equal(askedThrough(8), askedThrough(2));
  });

  it('twice as fine hold every vertex of the coarser', () => {
    const [coarse, fine] = [1, 2].map((refine) => meshOf(CHARTS['a breastplate']!, { vertices: 80, refine }));
    const have = new Set(Array.from({ length: fine!.positions.length / 3 }, (_, i) => spotKey(fine!.positions, i)));
    const shared = Array.from({ length: coarse!.positions.length / 3 }, (_, i) => spotKey(coarse!.positions, i));
    assert.deepEqual(
      shared.filter((key) => !have.has(key)),
      [],
    );
  });

  it('grow with the square of their measures', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 5, noNaN: true }), (scale) => {
        const scaled = {
          ...BREAST,
          levels: BREAST.levels.map((level) =>
            Object.fromEntries(Object.entries(level).map(([key, value]) => [key, scale * (value as number)])),
          ) as unknown as LoftShape['levels'],
        };
        near(formArea(loftChart(scaled)!).area, scale * scale * formArea(loftChart(BREAST)!).area, 1e-8);
      }),
      { numRuns: 10 },
    );
  });

  it('of a form that is alike on both sides are the same on both sides', () => {
    const mesh = meshOf(CHARTS['a visor with a ridge']!, { vertices: 400 });
    const count = mesh.positions.length / 3;
    const all = new Set(Array.from({ length: count }, (_, i) => spotKey(mesh.positions, i)));
    for (let i = 0; i < count; i++) {
      const [x, y, z] = [0, 1, 2].map((k) => mesh.positions[3 * i + k]!);
      assert.ok(all.has(spotKey([-x!, y!, z!], 0)), `${x}, ${y}, ${z} has no twin`);
    }
  });
});

function spotKey(all: ArrayLike<number>, i: number): string {
  return [0, 1, 2].map((k) => (Math.round(all[3 * i + k]! * 1e5) / 1e5 + 0).toFixed(4)).join(' ');
}

describe('Sections', () => {
  const girth = fc.double({ min: 50, max: 2000, noNaN: true });

  it('meet their girth to the last digits, whatever else is said of them', () => {
    fc.assert(
      fc.property(
        girth,
        fc.double({ min: 0.2, max: 0.49, noNaN: true }),
        fc.double({ min: 0.2, max: 0.8, noNaN: true }),
        fc.boolean(),
        (round, share, front, ridge) => {
          const long = share * round;
          for (const level of [
            { high: 0, round, ridge },
            { high: 0, round, long, ridge },
            { high: 0, round, wide: long, ridge },
            { high: 0, round, long, deep: front * long, ridge },
          ]) {
            const section = sectionOf(level);
            assert.ok(typeof section === 'object', String(section));
            near(girthOf(section), round, 1e-9);
            if (level.long !== undefined) near(section.front + section.back, level.long, 1e-12);
            if (level.wide !== undefined) near(section.wide, level.wide / 2, 1e-12);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('of a girth, a length and a width are squarer than an oval or leaner, and meet all three', () => {
    for (const round of [580, 628, 700, 760]) {
      const section = sectionOf({ high: 0, round, long: 220, wide: 180 }) as Section;
      near(girthOf(section), round, 1e-9);
      assert.deepEqual([section.wide, section.front, section.back], [90, 110, 110]);
    }
    const oval = sectionOf({ high: 0, long: 220, wide: 180 }) as Section;
    assert.ok((sectionOf({ high: 0, round: girthOf(oval), long: 220, wide: 180 }) as Section).power - 2 < 1e-6);
  });

  it('that cannot be say so in plain words', () => {
    assert.equal(
      sectionOf({ high: 0, round: 500, long: 260 }),
      '500 mm does not go round it: there and back alone is 520 mm',
    );
    assert.equal(
      sectionOf({ high: 0, round: 270, long: 100, wide: 100 }),
      '270 mm does not go round it: straight from side to side is 282.8 mm already',
    );
    assert.equal(
      sectionOf({ high: 0, round: 820, long: 220, wide: 180 }),
      'even a square-cornered one of its length and width is only 800 mm round',
    );
    assert.equal(sectionOf({ high: 0 }), 'it says nothing of its size');
    assert.equal(sectionOf({ high: 0, long: 100, deep: 120 }), 'its front cannot stand out further than it is long');
    assert.equal(sectionOf({ high: 0, round: -5 }), 'its round must be more than nothing');
  });

  it('grown outward have 2π more girth for each mm, and the width that was asked for', () => {
    const oval = sectionOf({ high: 0, round: 628, long: 220 }) as Section;
    for (const by of [-4, -0.5, 0.5, 12]) {
      const grown = grownSection(oval, by)!;
      near(girthOf(grown), 628 + 2 * Math.PI * by, 1e-9);
      near(grown.wide, oval.wide + by, 1e-12);
    }
    assert.equal(grownSection(oval, -150), undefined);
  });
});

describe('Forms by levels', () => {
  it('keep their girth at every level, whatever the wrap', () => {
    const chart = loftChart({ ...BREAST, wrap: 360 })!;
    near(
      wayLength(chart, (share) => [share, 0]),
      973,
      1e-6,
    );
    near(
      wayLength(chart, (share) => [share, 1]),
      900,
      1e-6,
    );
  });

  it('of two levels of one shape are cones, with straight elements', () => {
    const chart = loftChart({
      wrap: 180,
      levels: [
        { high: 0, round: 700, long: 250 },
        { high: 120, round: 560, long: 200 },
      ],
    })!;
    for (const u of [0, 0.2, 0.5, 0.9]) {
      const [low, middle, up] = [0, 0.5, 1].map((v) => chart.point(u, v));
      near(apart(low!, middle!) + apart(middle!, up!), apart(low!, up!), 1e-12);
    }
  });

  it('say which level cannot be made, and why', () => {
    const of = (...levels: LoftShape['levels'][number][]) => loftRefusals({ levels, wrap: 180 });
    assert.deepEqual(of({ high: 0, round: 600 }), [{ why: 'a form needs two levels or more' }]);
    assert.deepEqual(of({ high: 0, round: 600 }, { high: 0, round: 500 }), [
      { level: 1, why: 'there is another level at this height' },
    ]);
    assert.deepEqual(of({ high: 0, round: 600 }, { high: 50, ends: 'point' }, { high: 90, round: 300 }), [
      { level: 1, why: 'only the highest level can end in a point' },
    ]);
    assert.deepEqual(of({ high: 0, round: 600 }, { high: 90, round: 300, long: 200 }), [
      { level: 1, why: '300 mm does not go round it: there and back alone is 400 mm' },
    ]);
    assert.equal(loftChart({ levels: [], wrap: 180 }), undefined);
  });

  it('never overshoot between their levels', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 7 }),
        (values) => {
          const curve = pchip(
            values.map((_, i) => i * 1.5),
            values,
          );
          for (let i = 0; i < values.length - 1; i++)
            for (let k = 0; k <= 10; k++) {
              const at = curve.at((i + k / 10) * 1.5);
              const [low, high] = [Math.min(values[i]!, values[i + 1]!), Math.max(values[i]!, values[i + 1]!)];
              assert.ok(at >= low - 1e-9 && at <= high + 1e-9);
            }
        },
      ),
    );
  });

  it('turn out whatever is written: a chart that can be meshed, or a reason', () => {
    // Smaller than a millionth of a millimetre nothing is: its square would vanish.
    const measure = fc.option(
      fc.double({ min: -10, max: 2000 }).filter((value) => !(Math.abs(value) < 1e-6) || value === 0),
      { nil: undefined },
    );
    const level = fc.record({
      high: fc.double({ min: -500, max: 500 }).filter((value) => !(Math.abs(value) < 1e-6) || value === 0),
      round: measure,
      long: measure,
      wide: measure,
      deep: measure,
      offset: fc.option(fc.double({ min: -100, max: 100, noNaN: true }), { nil: undefined }),
      ridge: fc.boolean(),
      ends: fc.constantFrom(undefined, undefined, 'point' as const, 'flat' as const),
    });
    fc.assert(
      fc.property(
        fc.array(level, { maxLength: 4 }),
        fc.oneof(fc.constant('half' as const), fc.double({ min: -10, max: 400 })),
        (levels, wrap) => {
          const refused = loftRefusals({ levels, wrap });
          const chart = loftChart({ levels, wrap });
          assert.equal(chart === undefined, refused.length > 0);
          if (chart) assert.ok(surfaceArea(meshOf(chart, { vertices: 40 })) >= 0);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('Plates that lie on another', () => {
  const dome = domeChart({ long: 200, wide: 200, deep: 100 });

  it('on a ball have the area of the larger ball', () => {
    const extent = { from: 'bottom', wide: 60 } as const;
    const own = formArea(coverChart(dome, 0, extent)!).area;
    near(formArea(coverChart(dome, 5, extent)!).area, own * 1.05 ** 2, 1e-5);
    // A zone of a ball: 2πR × its height, which for 60 mm of arc on 100 mm is R sin 0.6.
    near(own, 2 * Math.PI * 100 * 100 * Math.sin(0.6), 2e-5);
  });

  it('on covers on a ball reach as far as they say, however small a part of the ball is left', () => {
    let chart: Chart = dome;
    let radius = 100;
    for (const wide of [60, 40, 15, 4]) {
      chart = coverChart(chart, 5, { from: 'bottom', wide })!;
      // Its zone as far up as it was measured on the ball below it.
      const up = wide / radius;
      radius += 5;
      near(formArea(chart).area, 2 * Math.PI * radius ** 2 * Math.sin(up), 2e-5);
    }
  });

  it('as a patch are as long and as wide as they say', () => {
    const patch = coverChart(dome, 0, { long: 50, wide: 24 })!;
    near(
      wayLength(patch, (share) => [0.5, share]),
      50,
      1e-4,
    );
    near(
      wayLength(patch, (share) => [share, 0.5]),
      24,
      1e-3,
    );
  });

  it('that are larger than their neighbour, or would be folded up under it, are refused', () => {
    assert.equal(coverChart(dome, 1, { from: 'bottom', wide: 200 }), undefined);
    assert.equal(coverChart(dome, 1, { long: 170, wide: 24 }), undefined);
    assert.ok(foldsOver(dome, -101) && !foldsOver(dome, -99));
  });
});

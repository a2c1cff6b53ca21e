import assert from 'node:assert/strict';
import { moved } from '../../../server/geometry/motion/motion.ts';
import { apart, type Vector } from '../../../server/geometry/surface/vector.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { drilledFor } from '../../../server/model/assembly/joint-rivets.ts';
import { type Lift, liftOf } from '../../../server/model/assembly/lift.ts';
import { pivotedBy } from '../../../server/model/assembly/pivoted.ts';
import { assemblyOf } from '../../../server/model/assembly/pose.ts';
import type { Model } from '../../../server/model/spec.ts';
import { assemblyInSteps } from '../../../server/output/documents/assembly.ts';
import { cutListInputOf } from '../../../server/output/documents/cut-list-of.ts';
import { problemsIn } from '../../checks/specs.ts';
import { textOf } from '../../samples/support.ts';
import { figureValue, modelFrom } from '../support.ts';

const STOCK = `material plate
  mild steel 1.5 mm
rivet pivot
  mild steel 5 x 12 mm, domed
part hook
  mass 30 g
`;
const [R, T] = [100, 1.5];
const SKULL = `piece skull
  from plate
  dome ${2 * R} mm, deep ${R} mm
`;
const HALVES = `piece skull
  from plate
  make 2
  half dome ${2 * R} x ${2 * R} mm, deep ${R} mm
`;
const lift = (plates: string, at: string, more: string) =>
  `joint lift\n  plates ${plates}\n  pivots pivot, at ${at}\n${more}`;

const swung = (model: Model, name = 'lift'): Lift => {
  const found = liftOf(model.joints().find((joint) => joint.name === name)!);
  assert.ok(typeof found === 'object', `${found}`);
  return found;
};
const near = (is: number, should: number, within: number, what = '') =>
  assert.ok(Math.abs(is - should) <= within, `${what} ${is} for ${should}`);

/** Where a place of a piece's own frame has come to. */
function at(model: Model, id: string, point: Vector): Vector {
  const placed = assemblyOf(model)
    .groups.flatMap(({ bodies }) => bodies)
    .find(({ body }) => body.id === id);
  assert.ok(placed, `${id} has a place`);
  return moved(placed.motion, placed.mirrored ? [-point[0], point[1], point[2]] : point);
}

/** A visor that has the sphere of the skull, moved out. */
const bowl = (gap: number, pivots: string, swings: string, skull = SKULL) =>
  modelFrom(`${STOCK}${skull}piece visor
  from plate
  lies over skull, gap ${gap} mm, from bottom to 150 mm, wrap 200 deg
${lift('visor, skull', pivots, `  swings ${swings} deg\n`)}`);

describe('a sphere that swings on a sphere', () => {
  it('about their common middle keeps its room, whatever it turns through', () => {
    for (const [gap, skull] of [
      [3, SKULL],
      [8, HALVES],
    ] as const) {
      const { down, up, least } = swung(bowl(gap, '0 mm from rim and 0 mm back of side', '0 to 20', skull));
      assert.deepEqual([down, up], [{ angle: -180 }, { angle: 180 }]);
      near(least!.clear, gap, 0.15, 'room');
    }
  });

  it('about a line in front of their middle comes nearer by 2 e sin φ/2, and stops where it presses in', () => {
    for (const [gap, e] of [
      [5, 20],
      [4, 40],
    ] as const) {
      const pivots = `0 mm from rim and ${R * Math.asin(e / R)} mm front of side`;
      const touches = (2 * Math.asin(gap / 2 / e) * 180) / Math.PI;
      const to = Math.floor(touches / 2);
      const model = bowl(gap, pivots, `0 to ${to}`);
      const { up, least } = swung(model);
      near(least!.clear, gap - 2 * e * Math.sin((to * Math.PI) / 360), 0.1, 'room');
      near(least!.angle, to, 1e-6);
      near(figureValue(model, 'lift.clearance-least'), least!.clear, 1e-9);
      // Half a millimetre is what plates spring.
      const stops = (2 * Math.asin((gap + 0.5) / 2 / e) * 180) / Math.PI;
      near(up.angle, stops, 0.5, 'stop');
      assert.equal(up.meets, 'skull');
      const further = swung(bowl(gap, pivots, `0 to ${Math.ceil(stops) + 10}`));
      near(further.least!.angle, touches, 0.5, 'touch');
      assert.equal(further.least!.clear, 0);
    }
  });
});

describe('a visor on its pivots', () => {
  const ALPHA = (100 * Math.PI) / 180;
  /** A part of a tube, its pivots so far in and up; where they are on a skull that is half a sphere. */
  const tube = (
    { r, wrap, high, inset, end }: Record<'r' | 'wrap' | 'high' | 'inset' | 'end', number>,
    { up, back }: { readonly up: number; readonly back: number },
    more = '  swings 0 to 60 deg\n',
    skull = SKULL,
  ) => {
    const alpha = (wrap / 360) * Math.PI - inset / r;
    const own: Vector = [r * Math.sin(alpha), r * Math.cos(alpha), end];
    const ring = R * Math.cos(up / R);
    const its: Vector = [ring * Math.cos(back / ring), -ring * Math.sin(back / ring), R * Math.sin(up / R)];
    const model = modelFrom(`${STOCK}${skull}piece visor
  from plate
  cylinder round ${2 * Math.PI * r} mm, high ${high} mm, wrap ${wrap} deg
${lift('visor, skull', `${up} mm from rim and ${Math.abs(back)} mm ${back < 0 ? 'front' : 'back'} of side, inset ${inset} mm, end ${end} mm`, more)}`);
    return { model, own, its, shift: [0, its[1] - own[1], its[2] - own[2]] as Vector };
  };
  const SIZES = { r: 118, wrap: 180, high: 80, inset: 12, end: 60 };

  it('stands upright, its own on the line of those of the skull, and tells the room between', () => {
    for (const skull of [SKULL, HALVES]) {
      const { model, own, its, shift } = tube(SIZES, { up: 30, back: 5 }, undefined, skull);
      assert.ok(apart(at(model, 'visor', [0, 118, 0]), [0, 118 + shift[1], shift[2]]) < 1e-3);
      near(figureValue(model, 'lift.room'), own[0] - its[0] - T, 1e-2);
      assert.equal(assemblyOf(model).groups.length, 1);
      const pivoted = pivotedBy(model.joints()[0]!);
      assert.ok(typeof pivoted === 'object' && pivoted.pivots.length === 2);
      const axis = pivoted.axis;
      assert.ok(apart(axis.along, [1, 0, 0]) < 1e-6);
    }
  });

  it('is drilled in both plates from one place, of halves once for both', () => {
    for (const [skull, holes] of [
      [SKULL, 2],
      [HALVES, 1],
    ] as const) {
      const { model, its } = tube(SIZES, { up: 30, back: 5 }, undefined, skull);
      const all = drilledFor(model.joints()[0]!);
      assert.equal(all.filter(({ piece }) => piece.name === 'visor').length, 2);
      const own = all.filter(({ piece }) => piece.name === 'skull');
      assert.equal(own.length, holes);
      for (const { piece, spot } of own) {
        const [x, y, z] = piece.chart()!.point(...spot);
        assert.ok(apart([Math.abs(x), y, z], its) < 1e-2);
      }
    }
  });

  it('goes up above nought, with what hangs on it, and tells its steps', () => {
    const { model, its } = tube(SIZES, { up: 30, back: 5 }, '  swings 0 to 90 deg\n', `${SKULL}`);
    const data = atOnce(assemblyInSteps(model, 'helm.planish')).joints[0]!;
    assert.deepEqual([data.steps[0]!.bend, data.steps.at(-1)!.bend], [0, 90]);
    const { turn, shift } = data.steps.at(-1)!.plates[0]!;
    const before = at(model, 'visor', [0, 118, 0]);
    const after = turn.map((row, i) => row[1]! * 118 + shift[i]!);
    // A quarter turn about the pivots: what was in front is above, what was below is in front.
    near(after[2]! - its[2], before[1] - its[1], 1e-3);
    near(after[1]! - its[1], -(before[2] - its[2]), 1e-3);
    assert.ok(data.swing && data.swing.up.angle >= 90);
  });

  it('stops where dense sampling says that it meets the sphere, and no nearer before', () => {
    let state = 11;
    const random = (from: number, to: number) => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return from + ((to - from) * state) / 2 ** 32;
    };
    let [stopped, looked] = [0, 0];
    for (let nth = 0; nth < 30; nth++) {
      const sizes = {
        r: random(108, 125),
        wrap: random(150, 190),
        high: random(60, 130),
        inset: random(8, 20),
        end: random(20, 60),
      };
      const { model, shift, its } = tube(sizes, { up: random(5, 60), back: random(-15, 15) }, '  swings 0 to 40 deg\n');
      const found = liftOf(model.joints()[0]!);
      if (typeof found === 'string') {
        assert.match(found, /runs through/);
        continue;
      }
      looked++;
      const points: Vector[] = [];
      const [ACROSS, UP] = [160, 50];
      for (let i = 0; i <= ACROSS; i++)
        for (let j = 0; j <= UP; j++) {
          const a = ((i / ACROSS - 0.5) * sizes.wrap * Math.PI) / 180;
          const p: Vector = [
            sizes.r * Math.sin(a),
            sizes.r * Math.cos(a) + shift[1] - its[1],
            (sizes.high * j) / UP + shift[2] - its[2],
          ];
          if (Math.hypot(p[1], p[2]) > 15) points.push(p);
        }
      /** The least room between faces at an angle, of what lies off the pivots. */
      const room = (angle: number): number => {
        const [s, c] = [Math.sin((angle * Math.PI) / 180), Math.cos((angle * Math.PI) / 180)];
        let least = Number.POSITIVE_INFINITY;
        for (const [x, y0, z0] of points) {
          const [y, z] = [its[1] + y0 * c - z0 * s, its[2] + y0 * s + z0 * c];
          const away = z >= 0 ? Math.abs(Math.hypot(x, y, z) - R) : Math.hypot(Math.hypot(x, y) - R, z);
          least = Math.min(least, away);
        }
        return least - T;
      };
      const GIVE = 0.5;
      const OFF = 0.3;
      for (const [end, way] of [
        [found.up.angle, 1],
        [found.down.angle, -1],
      ] as const) {
        const stop = Math.abs(end);
        // The far side of a thin shell is inside too: only the way there counts.
        for (let angle = 0; angle < Math.min(stop, 120) - 0.6; angle += 2)
          assert.ok(room(way * angle) > -GIVE - OFF, `${nth}: ${room(way * angle)} at ${way * angle} before ${end}`);
        if (stop < 180) {
          stopped++;
          assert.ok(room(end) < -GIVE + OFF, `${nth}: ${room(end)} at ${end}`);
        }
      }
      if (found.least) {
        const { clear, angle } = found.least;
        near(Math.max(0, room(angle)), clear, OFF, `${nth}: room at ${angle}`);
      }
    }
    assert.ok(looked >= 10 && stopped >= 8, `${looked} looked at, ${stopped} stops`);
  });

  it('shares its pivots with a bevor, whose rivets then pass all three', () => {
    const text = (more: string) =>
      modelFrom(`${STOCK}${SKULL}piece visor
  from plate
  cylinder round ${2 * Math.PI * 116} mm, high 90 mm, wrap 200 deg
piece bevor
  from plate
  cylinder round ${2 * Math.PI * 110} mm, high 90 mm, wrap 200 deg
${lift('visor, skull', '30 mm from rim and 5 mm back of side, inset 12 mm, end 40 mm', '  swings 0 to 60 deg\n  holds 50 deg\n  locks hook, at 0 deg, rivets pivot, count 2\n')}${more}`);
    const one = text('');
    const all = text(
      'joint chin\n  plates bevor, skull\n  shares lift, inset 12 mm, end 70 mm\n  swings -5 to 40 deg\n',
    );
    const rivets = (model: Model) => figureValue(model, 'lift.rivet-length');
    near(rivets(all) - rivets(one), T, 0.05);
    assert.equal(figureValue(all, 'lift.rivets'), 4);
    assert.ok(at(all, 'bevor', [0, 110, 0])[2] < at(all, 'visor', [0, 116, 0])[2]);
    assert.ok(swung(all, 'chin').up.angle >= 0);
    const { parts, rivets: listed } = cutListInputOf(all, { date: '2026-12-01', problems: [] });
    assert.equal(parts.find(({ name }) => name === 'hook')?.perBuild, 1);
    assert.equal(
      listed.find(({ name }) => name === 'pivot')?.uses.reduce((sum, use) => sum + use.perBuild, 0),
      4,
    );
    const { own, its } = tube({ r: 116, wrap: 200, high: 90, inset: 12, end: 40 }, { up: 30, back: 5 });
    // Of a wrap of 200° it is r × sin α ÷ α.
    const [front, up] = [(116 * Math.sin(ALPHA)) / ALPHA - own[1], 45 - 40];
    assert.ok(its[2] > 0);
    const rise = (Math.atan2(up, front) * 180) / Math.PI;
    near(figureValue(one, 'lift.balance'), 90 - rise, 0.05);
    near(figureValue(one, 'lift.arm'), Math.hypot(front, up) * Math.cos(((rise + 50) * Math.PI) / 180), 0.05);
  });

  it('carries what is hinged to its arms', () => {
    const model = modelFrom(`${STOCK}material pin
  mild steel wire 3 mm
${HALVES}piece arm
  from plate
  make 2, mirrored
  lies over skull, gap 1 mm, long 30 mm, wide 90 mm
piece face
  from plate
  cylinder round ${2 * Math.PI * 120} mm, high 30 mm, wrap 100 deg
hinge temple
  joins arm.right, face.left
  knuckles 3, wide 20 mm
  over pin
${lift('arm, skull', '70 mm from rim and 30 mm back of side', '  swings 0 to 30 deg\n')}`);
    const data = atOnce(assemblyInSteps(model, 'helm.planish')).joints[0]!;
    assert.deepEqual(data.steps[0]?.plates.map(({ name }) => name).sort(), ['face', 'left arm', 'right arm']);
  });

  it('or says in words why it is not known', () => {
    for (const [text, why] of [
      [lift('visor', '30 mm from rim', '  swings 0 to 60 deg\n'), /two plates/],
      [lift('visor, skull', '30 mm from rim', '  swings 0 to 60 deg\n'), /how far in/],
      ['joint lift\n  plates visor, skull\n  swings 0 to 60 deg\n', /no pivots/],
      [lift('visor, skull', '900 mm from rim, inset 9 mm', '  swings 0 to 60 deg\n'), /off the plate/],
    ] as const) {
      const model = modelFrom(`${STOCK}${SKULL}piece visor
  from plate
  cylinder round 740 mm, high 90 mm, wrap 180 deg
${text}`);
      const found = liftOf(model.joints()[0]!);
      assert.ok(typeof found === 'string');
      assert.match(found, why);
    }
  });
});

describe('the close helm of the samples', () => {
  const file = 'close-helm/close-helm.planish';
  const codesOf = (...change: readonly (readonly [string, string])[]) => {
    const text = change.reduce((before, [from, to]) => {
      assert.ok(before.includes(from), from);
      return before.replace(from, to);
    }, textOf(file));
    return problemsIn({ [file]: text, 'shop/stock.planish': textOf('shop/stock.planish') }, {}, file)
      .filter(({ severity }) => severity !== 'information')
      .map(({ code, severity, message }) => `${severity} ${code}: ${message}`);
  };

  it('opens and shuts without a mark', () => {
    assert.deepEqual(codesOf(), []);
  });

  it('whose bevor is to go up before the visor does jams on it', () => {
    const [found, ...more] = codesOf([', while lift at 60 deg', '']);
    assert.match(found ?? '', /^warning visor-jams: “bevor” swings to 1\d\.\d° and not to 40°: there it meets “visor”/);
    assert.deepEqual(more, []);
  });

  it('whose pivots are sold too short is told so', () => {
    const [found] = codesOf(['mild steel 6 x 12 mm', 'mild steel 6 x 8 mm']);
    assert.match(
      found ?? '',
      /^warning rivet-too-short: “pivot” is too short: needs 10\.9 mm, has 8 mm \(stack 4\.5 mm\)/,
    );
  });

  it('whose pivots sit lower jams on the crown', () => {
    const [found] = codesOf(['at 22 mm from rim', 'at 6 mm from rim']);
    assert.match(found ?? '', /^warning visor-jams: “visor” swings to .*there it meets “(left|right) skull”/);
  });

  it('whose visor is wider does not come together at the pivots', () => {
    const wider = codesOf(
      ['at 0 mm, long 272 mm, wide 218 mm', 'at 0 mm, long 272 mm, wide 230 mm'],
      ['at 30 mm, long 272 mm, wide 218 mm', 'at 30 mm, long 272 mm, wide 230 mm'],
    );
    assert.match(wider.join(), /^warning pivots-apart: At the pivots “visor” and “skull” stand \d/);
  });

  it('whose bevor is narrower runs through the skull', () => {
    const narrower = codesOf(['at 80 mm, long 258 mm, wide 214 mm', 'at 80 mm, long 258 mm, wide 200 mm']);
    assert.ok(narrower.some((each) => each.startsWith('warning pieces-run-through: “bevor” runs')));
  });
});

import assert from 'node:assert/strict';
import { moved } from '../../../server/geometry/motion/motion.ts';
import { apart, type Vector } from '../../../server/geometry/surface/vector.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { hingedBy } from '../../../server/model/assembly/hinged.ts';
import { assemblyOf } from '../../../server/model/assembly/pose.ts';
import { swingOf } from '../../../server/model/assembly/swing.ts';
import type { Model } from '../../../server/model/spec.ts';
import { assemblyInSteps } from '../../../server/output/documents/assembly.ts';
import { cutListInputOf } from '../../../server/output/documents/cut-list-of.ts';
import { foldInward } from '../../../server/trade/hinge/hinge.ts';
import { figuresOf, figureValue, modelFrom } from '../support.ts';

const STOCK = `material plate
  mild steel 1.2 mm
material pin
  mild steel wire 3 mm
`;
const hinge = (joins: string, more = '', wide = 60) =>
  `hinge gate\n  joins ${joins}\n  knuckles 5, wide ${wide} mm\n  over pin\n${more}`;

/** Where a place of a piece's own frame has come to. */
function at(model: Model, id: string, point: Vector): Vector {
  const placed = assemblyOf(model)
    .groups.flatMap(({ bodies }) => bodies)
    .find(({ body }) => body.id === id);
  assert.ok(placed, `${id} has a place`);
  return moved(placed.motion, placed.mirrored ? [-point[0], point[1], point[2]] : point);
}
const near = (is: Vector, should: Vector, within = 1e-6) =>
  assert.ok(apart(is, should) < within, `${is.map((x) => x.toFixed(4))} for ${should}`);

const flat = (more = '', wide = 60) => `${STOCK}piece arm
  from plate
  plate 80 x 60 mm
piece flap
  from plate
  plate 50 x 60 mm
${hinge('arm.left, flap.right', more, wide)}`;

/** Two leaves of a tube, of so many degrees, on one pin. */
const tube = ([r1, w1]: readonly [number, number], [r2, w2]: readonly [number, number], more = '') => `${STOCK}piece one
  from plate
  cylinder round ${2 * Math.PI * r1} mm, high 60 mm, wrap ${w1} deg
piece two
  from plate
  cylinder round ${2 * Math.PI * r2} mm, high 60 mm, wrap ${w2} deg
${hinge('one.left, two.right', more)}`;

describe('hinges place their leaves', () => {
  it('edge on edge, the one plate going on as the other ends', () => {
    const model = modelFrom(flat());
    // A plate's left, as drawn, is the wearer's right.
    near(at(model, 'flap', [-25, 0, 30]), at(model, 'arm', [40, 0, 30]));
    near(at(model, 'flap', [25, 0, 0]), [90, 0, 0]);
    assert.equal(assemblyOf(model).groups[0]!.bodies[1]!.by, 'hinge gate');
  });

  it('of two halves of a tube make it whole', () => {
    const model = modelFrom(`build "Cuff"\n${tube([50, 180], [50, 180])}`);
    assert.ok(Math.abs(figureValue(model, 'build.wide') - 101.2) < 1e-3);
    assert.ok(Math.abs(figureValue(model, 'build.deep') - 101.2) < 1e-3);
  });

  it('with faces against the pin in one plane, whatever their thickness', () => {
    const model = modelFrom(
      flat().replace('piece flap\n  from plate', 'material thick\n  mild steel 2 mm\npiece flap\n  from thick'),
    );
    near(at(model, 'flap', [-25, 0, 30]), [40, (1.2 - 2) / 2, 30]);
  });

  it('in the middle of a swing that does not come to where they go on into each other', () => {
    const model = modelFrom(flat('  swing 60 to 120 deg\n'));
    const away = (3 + 0.1) / 2 + 0.6;
    // At right angles, outward, about the pin.
    near(at(model, 'flap', [-25, 0, 30]), [40 + away, away, 30]);
    near(at(model, 'flap', [25, 0, 30]), [40 + away, away + 50, 30]);
  });

  it('of a pair on one plate on its left and on its right', () => {
    const model = modelFrom(`${STOCK}piece face
  from plate
  cylinder round 600 mm, high 60 mm, wrap 150 deg
piece arm
  from plate
  make 2, mirrored
  plate 70 x 60 mm
${hinge('arm.right, face.left')}`);
    const [left, right] = ['arm', 'arm|right'].map((id) => at(model, id, [-35, 0, 30]));
    near(right!, [-left![0], left![1], left![2]], 1e-4);
    near(at(model, 'arm|right', [-35, 0, 30]), at(model, 'face', [0, 0, 30]), 400);
    assert.equal(figuresOf(`${STOCK}build "x"\n${hinge('a.left, b.right')}`).size > 0, true);
  });

  it('or say why they do not', () => {
    const model = modelFrom(`${STOCK}piece arm
  from plate
  plate 80 x 60 mm
piece flap
  from plate
  disc 60 mm
${hinge('arm.left, flap.left')}`);
    assert.match(hingedBy(model.hinges()[0]!).why ?? '', /flap/);
    assert.match(
      assemblyOf(model)
        .unplaced.map(({ why }) => why)
        .join(),
      /hinge “gate” cannot be measured/,
    );
  });
});

describe('the swing of a hinge', () => {
  it('is free outward as far as is looked, and ends inward where its edges butt or the notch does', () => {
    const all = swingOf(modelFrom(flat()).hinges()[0]!)!;
    assert.equal(all.outward.angle, 180);
    assert.ok(all.inward.angle < -90 && all.inward.angle > -91);
    const butts = swingOf(modelFrom(flat('', 40)).hinges()[0]!)!;
    assert.ok(Math.abs(butts.inward.angle) < 1e-9);
    assert.equal(butts.inward.meets, 'the edge of the other leaf');
    assert.ok(Math.abs(figureValue(modelFrom(flat('', 40)), 'gate.swing') - 180) < 1e-9);
  });

  it('folds inward until the corner of a notch comes to the face of the other leaf', () => {
    for (const [pin, thickness, notch] of [
      [3, 1.2, 2],
      [2, 1, 3],
      [5, 2, 1],
    ] as const) {
      const face = (pin + 0.1) / 2 + thickness;
      const inside = (angle: number) => {
        // The corner, as the leaf that is folded sees it: below its inner face it is free.
        const [s, c] = [Math.sin(angle), Math.cos(angle)];
        return -notch * s - face * c > -face;
      };
      const found = (foldInward({ pin, thickness, notch }) * Math.PI) / 180;
      assert.ok(inside(found + 1e-6) && !inside(found - 1e-6));
    }
  });

  it('is what dense sampling across the pin finds, of random leaves of tubes', () => {
    let state = 5;
    const random = (from: number, to: number) => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return from + ((to - from) * state) / 2 ** 32;
    };
    const [t, pin] = [1.2, 3];
    const [away, own] = [(pin + 0.1) / 2 + t / 2, pin + 0.1 + 2 * t + 1];
    let met = 0;
    const SAMPLES = 150;
    for (let n = 0; n < 40; n++) {
      const [r1, r2] = [random(25, 90), random(25, 90)];
      const [w1, w2] = [random(60, 300), random(40, 200)];
      const RAD = Math.PI / 180;
      // Across the pin: the leaves meet at nought, outside is up, the second goes to the right.
      const fromPin = (x: number, y: number) => Math.hypot(x, y - away);
      const start = (r: number) => {
        let a = 0;
        while (fromPin(r * Math.sin(a), r * Math.cos(a) - r) < own) a += 1e-3;
        return a;
      };
      const [s1, s2] = [start(r1), start(r2)];
      const distance = (x: number, y: number) => {
        // Of a point to the arc of the first leaf, which runs to the left and down.
        const turn = (Math.atan2(-x, y + r1) / RAD + 360) % 360;
        if (turn >= s1 / RAD && turn <= w1) return Math.abs(Math.hypot(x, y + r1) - r1);
        return Math.min(...[s1, w1 * RAD].map((a) => Math.hypot(x + r1 * Math.sin(a), y - (r1 * Math.cos(a) - r1))));
      };
      const least = (angle: number) => {
        let best = Number.POSITIVE_INFINITY;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        for (let i = 0; i <= SAMPLES; i++) {
          const b = s2 + ((w2 * RAD - s2) * i) / SAMPLES;
          const [x, y] = [r2 * Math.sin(b), r2 * Math.cos(b) - r2 - away];
          best = Math.min(best, distance(x * c - y * s, x * s + y * c + away));
        }
        return best;
      };
      if (least(0) < t + 1) continue;
      const stop = (way: 1 | -1, most: number) => {
        const meets = (angle: number) => least(way * angle * RAD) <= t;
        for (let angle = 0.25; angle <= most; angle += 0.25)
          if (meets(angle)) return meets(angle - 0.125) ? angle - 0.125 : angle;
        return undefined;
      };
      const found = swingOf(modelFrom(tube([r1, w1], [r2, w2])).hinges()[0]!)!;
      const fold = foldInward({ pin, thickness: t, notch: Math.sqrt((1.55 + t) ** 2 - 1.55 ** 2) + 0.5 });
      const [out, back] = [stop(1, 180) ?? 180, stop(-1, fold) ?? fold];
      if (out < 180 || back < fold - 0.2) met++;
      const told = `case ${n}: ${found.outward.angle} for ${out}, ${-found.inward.angle} for ${back}`;
      assert.ok(Math.abs(found.outward.angle - out) < 0.5, told);
      assert.ok(Math.abs(-found.inward.angle - back) < 0.5, told);
    }
    assert.ok(met > 10, `${met} meet metal`);
  }).timeout(120_000);

  it('tells the least room to what it does not join, and to nothing else', () => {
    const found = figuresOf(flat());
    assert.ok(found.has('gate.swing') && !found.has('gate.clearance-least'));
    // A third plate goes on beyond the arm: the flap, folded over to 180°, lies over it, two pins' faces apart.
    const longer = figuresOf(
      `${flat('  swing 0 to 180 deg\n').replace('plate 50 x 60', 'plate 150 x 60')}piece beyond
  from plate
  plate 90 x 60 mm
seam on
  joins arm, beyond
  along arm.right
  along beyond.left
  weld
`,
    );
    const least = longer.get('gate.clearance-least')!;
    assert.ok(Math.abs(least.value - 3.1) < 0.05, `${least.value}`);
    assert.match(least.note ?? '', /beyond and flap/);
  });
});

describe('what other programs are told', () => {
  it('holds the swing of each hinge, and what runs through what', () => {
    const { hinges, through } = atOnce(assemblyInSteps(modelFrom(flat('', 40)), 'flap.planish'));
    assert.deepEqual(hinges, [
      { name: 'gate', inward: { angle: 0, meets: 'the edge of the other leaf' }, outward: { angle: 180 } },
    ]);
    assert.deepEqual(through, []);
  });
});

describe('a bought hinge', () => {
  const bought = (line: string) => `${STOCK}rivet small
  mild steel 3 x 8 mm, domed
part butt
  mass 20 g
  make 2
build "x"
piece arm
  from plate
  make 2, mirrored
  plate 80 x 60 mm
piece flap
  from plate
  make 2, mirrored
  plate 50 x 60 mm
hinge gate
  joins arm.left, flap.right
  ${line}
`;

  it('lies on the plates, its pin half a barrel outside them', () => {
    const model = modelFrom(bought('bought butt, wide 40 mm, barrel 7 mm, rivets small, count 6'));
    const [link] = hingedBy(model.hinges()[0]!).links;
    assert.ok(Math.abs(link!.axis!.point[1] - (0.6 + 3.5)) < 1e-9);
    assert.equal(swingOf(model.hinges()[0]!)!.inward.angle + 0, 0);
  });

  it('has its rivets counted and weighed, and makes no knuckles', () => {
    const found = figuresOf(bought('bought butt, wide 40 mm, barrel 7 mm, rivets small, count 6'));
    assert.equal(found.get('build.rivets')?.value, 12);
    assert.equal(found.get('arm.left.knuckles'), undefined);
    const without = figuresOf(bought('bought butt, wide 40 mm, barrel 7 mm'));
    const six = found.get('build.mass')!.value - without.get('build.mass')!.value;
    const { rivets, parts } = cutListInputOf(
      modelFrom(bought('bought butt, wide 40 mm, barrel 7 mm, rivets small, count 6')),
      { date: '2027-01-01', problems: [] },
    );
    const needed = (name: string) =>
      rivets.find((each) => each.name === name)?.uses.reduce((sum, { perBuild }) => sum + perBuild, 0) ??
      parts.find((each) => each.name === name)?.perBuild;
    assert.deepEqual([needed('small'), needed('butt')], [12, 2]);
    // Shank of 3 × 8 mm and its domed head, in steel.
    assert.ok(six / 12 > 0.44 && six / 12 < 0.75, `${six / 12} g`);
  });

  it('says nothing of its swing while nobody knows how thick it is', () => {
    assert.equal(swingOf(modelFrom(bought('bought butt, wide 40 mm')).hinges()[0]!), undefined);
  });
});

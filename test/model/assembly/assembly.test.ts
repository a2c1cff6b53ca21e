import assert from 'node:assert/strict';
import { readSpec } from '../../../grammar/reader.ts';
import { moved } from '../../../server/geometry/motion/motion.ts';
import { apart, cross, minus, size, type Vector } from '../../../server/geometry/surface/vector.ts';
import { listenToWork } from '../../../server/incremental/memo.ts';
import { boxOf, mainGroup } from '../../../server/model/assembly/assembled.ts';
import { misfitsOf } from '../../../server/model/assembly/misfit.ts';
import { assemblyOf, type PlacedBody } from '../../../server/model/assembly/pose.ts';
import { shapeOf } from '../../../server/model/assembly/shape.ts';
import { modelOf } from '../../../server/model/index.ts';
import { Project } from '../../../server/model/names/project.ts';
import type { Model } from '../../../server/model/spec.ts';
import { sample } from '../../samples/support.ts';
import { figureValue, modelFrom } from '../support.ts';

const PLATE = `material plate
  mild steel 1.5 mm
rivet small
  mild steel 4 x 10 mm, domed
`;

const bodies = (model: Model): ReadonlyMap<string, PlacedBody> =>
  new Map(assemblyOf(model).groups.flatMap((group) => group.bodies.map((body) => [body.body.id, body] as const)));

const lost = (model: Model): string[] => assemblyOf(model).unplaced.map(({ piece, why }) => `${piece.name}: ${why}`);

/** Where a place of a piece's own frame has come to. */
function at(model: Model, id: string, point: Vector): Vector {
  const body = bodies(model).get(id);
  assert.ok(body, `${id} has a place`);
  return moved(body.motion, body.mirrored ? [-point[0], point[1], point[2]] : point);
}

const near = (is: Vector, should: Vector, within = 1e-6): void =>
  assert.ok(apart(is, should) < within, `${is.map((x) => x.toFixed(4))} is ${apart(is, should)} from ${should}`);

/** Greatest misfit of each seam, mm. */
const misfits = (model: Model): number[] =>
  model.seams().flatMap((seam) => misfitsOf(seam).map(({ gaps }) => Math.max(...gaps.map((gap) => gap.apart))));

/** The middle of the area of all that is placed. */
function middleOf(model: Model): Vector {
  let [area, sum]: [number, Vector] = [0, [0, 0, 0]];
  for (const { body, motion, mirrored } of bodies(model).values()) {
    const { positions, triangles } = shapeOf(body.piece)!;
    const point = (i: number): Vector => {
      const [x, y, z] = [...positions.subarray(3 * i, 3 * i + 3)] as unknown as Vector;
      return moved(motion, [mirrored ? -x : x, y, z]);
    };
    for (let i = 0; i < triangles.length; i += 3) {
      const [a, b, c] = [point(triangles[i]!), point(triangles[i + 1]!), point(triangles[i + 2]!)];
      const own = size(cross(minus(b, a), minus(c, a))) / 2;
      area += own;
      sum = [0, 1, 2].map((k) => sum[k]! + (own * (a[k]! + b[k]! + c[k]!)) / 3) as unknown as Vector;
    }
  }
  return sum.map((x) => x / area) as unknown as Vector;
}

describe('the assembly', () => {
  describe('of halves', () => {
    const spec = (dome: string) => `${PLATE}build "Bowl"
piece half
  from plate
  make 2, mirrored
  ${dome}
seam ridge
  joins left half, right half
  along half.middle
  weld
`;

    it('of a sphere is the whole: no misfit, the whole’s box and its middle', () => {
      const model = modelFrom(spec('half dome 200 x 200 mm, deep 100 mm'));
      assert.equal(bodies(model).size, 2);
      assert.ok(bodies(model).get('half|right')!.mirrored);
      assert.deepEqual(misfits(model), [0]);
      assert.equal(figureValue(model, 'ridge.misfit'), 0);
      const box = boxOf(mainGroup(assemblyOf(model))!.bodies)!;
      for (const [is, should] of [
        [box[0], [-100.75, 100.75]],
        [box[1], [-100.75, 100.75]],
        [box[2], [0, 100.75]],
      ] as const)
        assert.ok(Math.abs(is[0] - should[0]) < 1e-5 && Math.abs(is[1] - should[1]) < 1e-5, `${is}`);
      assert.ok(Math.abs(figureValue(model, 'build.wide') - 201.5) < 1e-4);
      assert.ok(Math.abs(figureValue(model, 'build.high') - 100.75) < 1e-4);
      // The middle of a half sphere's area lies half way up.
      near(middleOf(model), [0, 0, 50], 0.2);
    });

    it('made of six gores is round again', () => {
      const model = modelFrom(`${PLATE}build "Bowl"
piece gore
  from plate
  make 6
  gore dome 200 mm, deep 100 mm, gores 6
`);
      assert.equal(bodies(model).size, 6);
      assert.ok(Math.abs(figureValue(model, 'build.wide') - 201.5) < 1e-4);
      assert.ok(Math.abs(figureValue(model, 'build.deep') - 201.5) < 1e-4);
      near(middleOf(model), [0, 0, 50], 0.3);
    });

    it('meets one long edge with both of them', () => {
      const model = modelFrom(`${PLATE}piece half
  from plate
  make 2, mirrored
  half dome 200 x 200 mm, deep 100 mm
piece tail
  from plate
  cylinder round 628.3185307 mm, high 60 mm, wrap 120 deg
seam nape
  joins half, tail
  along half.rim, from 209.4395 mm to 314.1593 mm
  along tail.top
  weld
`);
      // Its front looks backward, its top lies on the rim.
      near(at(model, 'tail', [0, 100, 60]), [0, -100, 0], 1e-2);
      near(at(model, 'tail', [0, 100, 0]), [0, -100, -60], 1e-2);
      assert.ok(misfits(model)[0]! < 1e-2, `${misfits(model)}`);
    });

    it('by levels is mirrored too, and an oval one is as wide as it should be', () => {
      const model = modelFrom(
        spec('form half\n  at 0 mm, long 240 mm, wide 190 mm\n  at 90 mm, long 240 mm, wide 190 mm').replace(
          'half.middle',
          'half.right',
        ),
      );
      assert.ok(Math.abs(figureValue(model, 'build.wide') - 191.5) < 1e-3);
      assert.ok(Math.abs(figureValue(model, 'build.deep') - 241.5) < 1e-3);
      assert.ok(misfits(model)[0]! < 1e-9);
    });
  });

  describe('by seams', () => {
    it('puts a cone under a cone of the same girth, right way up and where it should be', () => {
      const model = modelFrom(`${PLATE}piece upper
  from plate
  cone round 500 to 600 mm, high 100 mm, wrap 200 deg
piece lower
  from plate
  cone round 600 to 720 mm, high 80 mm, wrap 200 deg
seam waist
  joins upper, lower
  along upper.bottom
  along lower.top
  weld
`);
      near(at(model, 'upper', [0, 0, 0]), [0, 0, 0]);
      for (const point of [
        [0, 0, 0],
        [100, 0, 0],
        [0, 100, 0],
        [0, 0, 80],
      ] as const)
        near(at(model, 'lower', point), [point[0], point[1], point[2] - 80], 1e-4);
      assert.ok(misfits(model)[0]! < 1e-4, `${misfits(model)}`);
    });

    it('laps riveted plates by twice the inset, the inner one inside by both half thicknesses', () => {
      const model = modelFrom(`${PLATE}piece upper
  from plate
  cylinder round 628.3185307 mm, high 100 mm, wrap 180 deg
piece lower
  from plate
  cylinder round 618.8937527 mm, high 80 mm, wrap 180 deg
seam waist
  joins upper, lower
  along upper.bottom
  along lower.top
  rivets small, count 9, inset 9 mm, peened domed
`);
      near(at(model, 'lower', [0, 0, 80]), [0, 0, 18], 1e-3);
      near(at(model, 'lower', [0, 90, 80]), [0, 90, 18], 1e-3);
      assert.ok(misfits(model)[0]! < 0.05, `${misfits(model)[0]}`);
    });

    it('puts a flat plate below another, not over it', () => {
      const model = modelFrom(`${PLATE}piece upper
  from plate
  plate 100 x 60 mm
piece lower
  from plate
  plate 100 x 40 mm
seam waist
  joins upper, lower
  along upper.bottom
  along lower.top
  weld
`);
      near(at(model, 'lower', [20, 0, 40]), [20, 0, 0]);
      near(at(model, 'lower', [20, 0, 0]), [20, 0, -40]);
      assert.match(bodies(model).get('lower')!.assumed!, /angle/);
    });

    it('lays the lid on a can, its face up', () => {
      const model = modelFrom(`${PLATE}piece can
  from plate
  cylinder round 314.1592654 mm, high 70 mm
piece lid
  from plate
  disc 100 mm
seam edge
  joins can, lid
  along can.top
  along lid.rim
  weld
`);
      near(at(model, 'lid', [0, 0, 0]), [0, 0, 70], 1e-3);
      near(at(model, 'lid', [0, 0, 10]), [0, 0, 80], 1e-3);
      assert.ok(misfits(model)[0]! < 5e-3, `${misfits(model)}`);
    });

    it('of a round edge and an oval one of the same girth leaves 16.2 mm at the most', () => {
      const model = modelFrom(`${PLATE}piece round
  from plate
  cylinder round 628.32 mm, high 50 mm
piece oval
  from plate
  cylinder round 628.32 mm, high 50 mm, long 230 mm
seam edge
  joins round, oval
  along round.bottom
  along oval.top
  weld
`);
      const [misfit] = misfitsOf(model.seams()[0]!);
      assert.equal(misfit!.gaps.length, 20);
      // By another way: an ellipse of that girth by bisection, cut into 20 equal parts by very many chords, against the circle.
      const a = 115;
      const half = (b: number, parts = 100_000): number[] => {
        const lengths = [0];
        for (let i = 1; i <= parts; i++) {
          const [s, t] = [(2 * Math.PI * (i - 1)) / parts, (2 * Math.PI * i) / parts];
          lengths.push(lengths[i - 1]! + Math.hypot(a * (Math.cos(t) - Math.cos(s)), b * (Math.sin(t) - Math.sin(s))));
        }
        return lengths;
      };
      let [low, high] = [10, 115];
      while (high - low > 1e-9) {
        const b = (low + high) / 2;
        if (half(b, 20_000).at(-1)! < 628.32) low = b;
        else high = b;
      }
      const lengths = half(low);
      let most = 0;
      for (let k = 0; k < 20; k++) {
        const wanted = (k * lengths.at(-1)!) / 20;
        const i = lengths.findIndex((each) => each >= wanted);
        const t = (2 * Math.PI * i) / (lengths.length - 1);
        const round = (2 * Math.PI * k) / 20;
        most = Math.max(
          most,
          Math.hypot(100.0003 * Math.cos(round) - a * Math.cos(t), 100.0003 * Math.sin(round) - low * Math.sin(t)),
        );
      }
      assert.ok(Math.abs(most - 16.2) < 0.05, `by hand ${most}`);
      assert.ok(Math.abs(figureValue(model, 'edge.misfit') - most) < 0.01, `${figureValue(model, 'edge.misfit')}`);
      assert.ok(figureValue(model, 'edge.misfit-mean') < most);
    });

    it('closes a ring of three thirds of a cylinder', () => {
      const third = (name: string, wrap = 120) => `piece ${name}
  from plate
  cylinder round 600 mm, high 80 mm, wrap ${wrap} deg
`;
      const seam = (one: string, other: string) => `seam ${one}-${other}
  joins ${one}, ${other}
  along ${one}.right
  along ${other}.left
  weld
`;
      const ring = (wrap: number) =>
        modelFrom(
          `${PLATE}${third('a')}${third('b')}${third('c', wrap)}${seam('a', 'b')}${seam('b', 'c')}${seam('c', 'a')}`,
        );
      const model = ring(120);
      assert.ok(Math.max(...misfits(model)) < 1e-6, `${misfits(model)}`);
      // Each is the first turned by a third about the axis of all.
      const radius = 300 / Math.PI;
      const front = (turn: number): Vector => [-radius * Math.sin(turn), radius * Math.cos(turn), 0];
      near(at(model, 'b', front(0)), front((2 * Math.PI) / 3));
      near(at(model, 'c', front(0)), front((4 * Math.PI) / 3));
      assert.match(bodies(model).get('b')!.by, /a-b, b-c, c-a together/);
    });

    it('shares between two seams what neither can take alone', () => {
      const half = (name: string, girth: number) =>
        `piece ${name}\n  from plate\n  cylinder round ${girth} mm, high 80 mm, wrap 180 deg\n`;
      const model = modelFrom(`${PLATE}${half('a', 600)}${half('b', 612)}seam one
  joins a, b
  along a.left
  along b.right
  weld
seam other
  joins a, b
  along a.right
  along b.left
  weld
`);
      // The one is 12/π mm wider: half of it at each side.
      const [one, other] = misfits(model);
      assert.ok(Math.abs(one! - 6 / Math.PI) < 1e-4 && Math.abs(other! - 6 / Math.PI) < 1e-4, `${one} ${other}`);
      near(at(model, 'b', [0, 0, 40]), [0, 0, 40], 1e-4);
    });
  });

  it('places the two cheeks of a helm as each other’s mirror image', () => {
    const cheek = (side: string, from: number, to: number) => `seam ${side}-cheek
  joins skull, ${side} cheek
  along skull.rim, from ${from} mm to ${to} mm
  along cheek.top
  rivets small, count 4, inset 9 mm, peened domed
`;
    const model = modelFrom(`${PLATE}wearer guard
  head round 585 mm
piece skull
  from plate
  fits guard head, ease 9 mm
  dome 200 mm, deep 100 mm
piece cheek
  from plate
  make 2, mirrored
  cylinder round 620 mm, high 70 mm, wrap 60 deg
${cheek('left', 100, 200)}${cheek('right', 428.3185, 528.3185)}`);
    assert.deepEqual([...bodies(model).keys()], ['skull', 'cheek', 'cheek|right']);
    for (const point of [
      [0, 98, 0],
      [30, 90, 70],
    ] as const) {
      const [x, y, z] = at(model, 'cheek', point);
      near(at(model, 'cheek|right', point), [-x, y, z], 0.02);
      assert.ok(x < -60 && z < 25, `${[x, y, z]}`);
    }
  });

  it('says what has no place, and why', () => {
    const model = modelFrom(`${PLATE}build "Odd"
piece skull
  from plate
  dome 210 mm, deep 90 mm
piece peak
  from plate
  cylinder round 660 mm, high 60 mm, wrap 120 deg
piece plate-a
  from plate
  outline
  to 40 mm right and 0 mm up
  to 40 mm right and 30 mm up
seam brow
  joins skull, peak
  along skull.rim, from 20 mm to 200 mm
  rivets small, every 30 mm, inset 9 mm, peened domed
seam odd
  joins skull, plate-a
  weld
`);
    assert.deepEqual(lost(model), [
      'peak: seam “brow” tells its row on “skull” alone',
      'plate-a: seam “odd” tells no edge that it runs along',
    ]);
    assert.equal(assemblyOf(model).unplaced[0]!.seam?.name, 'brow');
    assert.equal(figureValue(model, 'build.placed'), 1);
  });

  it('of the sallet has all its metal, the tail behind and below the skull', () => {
    const model = sample('sallet/sallet.planish');
    assert.deepEqual([...bodies(model).keys()], ['skull', 'tail', 'binding']);
    assert.deepEqual(lost(model), ['ear-flap: it is soft, and takes the shape of what it hangs on']);
    const [x, y, z] = at(model, 'tail', [0, 110, 0]);
    assert.ok(Math.abs(x) < 3 && y < -100 && z < -50, `${[x, y, z]}`);
  });

  it('of the gauntlet hangs lame under lame, and says that no overlap is said', () => {
    const model = sample('gauntlet/cuff.planish');
    const placed = bodies(model);
    assert.deepEqual([...placed.keys()], ['cuff', 'wrist-lame', 'hand-lame', 'hand-plate']);
    assert.equal(placed.get('hand-lame')!.by, 'lies under wrist-lame');
    assert.match(placed.get('hand-lame')!.assumed!, /edge to edge/);
  });

  it('is made again only where an edit reaches', () => {
    const uri = 'file:///build/helm.planish';
    const piece = (n: number, girth = 600) =>
      `piece p${n}\n  from plate\n${n ? '' : '  fits guard chest, ease 9 mm\n'}  cylinder round ${girth} mm, high ${40 + n} mm, wrap 180 deg\n`;
    const seam = (n: number) =>
      `seam s${n}\n  joins p${n}, p${n + 1}\n  along p${n}.bottom\n  along p${n + 1}.top\n  weld\n`;
    const many = [...Array(20).keys()];
    const text = (changed: number, girth: number) =>
      `${PLATE}wearer guard\n  chest round 500 mm\n${many.map((n) => piece(n, n === changed ? girth : 600)).join('')}${many
        .slice(1)
        .map((n) => seam(n - 1))
        .join('')}`;
    let spec = readSpec(text(12, 600));
    const project = new Project({ read: () => spec, mayRead: () => true });
    const model = () => modelOf(project, uri)!;
    const before = bodies(model());
    const work: Record<string, number> = {};
    const edited = (changed: number, girth: number) => {
      spec = readSpec(text(changed, girth), spec);
      project.refresh(uri);
      const end = listenToWork((what) => {
        work[what] = (work[what] ?? 0) + 1;
      });
      const now = bodies(model());
      end();
      return now;
    };
    const now = edited(12, 640);
    assert.deepEqual([...now.keys()], [...before.keys()]);
    // Two seams are on the plate that was edited; it hangs on the first twelve, and seven hang on it.
    assert.equal(work['seam matched'], 2);
    assert.equal(work['pose'], 1 + 7);
    assert.equal(work['plan'], undefined);
    // What came out is what a reader who never saw it before says.
    const fresh = new Project({ read: () => readSpec(text(12, 640)), mayRead: () => true });
    for (const [id, body] of bodies(modelOf(fresh, uri)!)) assert.deepEqual(now.get(id)!.motion, body.motion);
  });
});

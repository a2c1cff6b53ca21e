import { strict as assert } from 'node:assert';
import { straight } from '../../../server/geometry/surface/along.ts';
import type { Chart, Spot } from '../../../server/geometry/surface/chart.ts';
import { cutForm, smoothParts, wayLength } from '../../../server/geometry/surface/cut.ts';
import { domeChart } from '../../../server/geometry/surface/dome.ts';
import { flaredChart } from '../../../server/geometry/surface/flare.ts';
import { loftChart } from '../../../server/geometry/surface/loft.ts';
import { plateChart } from '../../../server/geometry/surface/plate.ts';
import {
  type Crease,
  creaseRelief,
  creaseSection,
  type Flutes,
  fluteRelief,
  mostFlutes,
  relievedChart,
} from '../../../server/geometry/surface/relief.ts';
import { apart, cross, dot, minus, size, unit } from '../../../server/geometry/surface/vector.ts';
import { fluteSection } from '../../../server/trade/bend/flute.ts';
import { near } from '../../trade/numbers.ts';
import { cutMesh, formArea, meshOf, raised } from '../at-once.ts';
import { soundSurface } from './sound.ts';

const cylinder = (girth: number, high: number, wrap = 360): Chart =>
  loftChart({
    levels: [
      { high: 0, round: girth },
      { high, round: girth },
    ],
    wrap,
  })!;
const cone = (bottom: number, top: number, high: number): Chart =>
  loftChart({
    levels: [
      { high: 0, round: bottom },
      { high, round: top },
    ],
    wrap: 360,
  })!;
const flutedChart = (chart: Chart, flutes: Flutes): Chart | undefined => {
  const relief = fluteRelief(chart, flutes);
  return relief && relievedChart(chart, [relief]);
};
const creasedChart = (chart: Chart, crease: Crease): Chart | undefined => {
  const relief = creaseRelief(chart, crease);
  return relief && relievedChart(chart, [relief]);
};
const breast = loftChart({
  wrap: 190,
  levels: [
    { high: 0, round: 973, long: 340 },
    { high: 260, round: 1123, long: 390, deep: 160 },
    { high: 360, round: 900, long: 330 },
  ],
})!;
const skull = domeChart({ long: 240, wide: 180, deep: 150 }, 'half');

const lengthOf = (chart: Chart, from: Spot, to: Spot) =>
  smoothParts(chart, straight(from, to)).reduce((sum, way) => sum + wayLength(chart, way), 0);

const WORKED: Readonly<Record<string, Chart>> = {
  'a fluted cylinder': flutedChart(cylinder(360, 100), { count: 5, deep: 5, wide: 14 })!,
  'a fluted breastplate': flutedChart(breast, { count: 6, deep: 4, wide: 30 })!,
  'a dome with flutes': flutedChart(domeChart({ long: 210, wide: 190, deep: 70 }), { count: 8, deep: 5, wide: 30 })!,
  'flutes sunk in': flutedChart(cylinder(360, 100, 200), { count: 3, deep: -4, wide: 20 })!,
  'a creased breastplate': creasedChart(breast, { line: 'middle', deep: 6 })!,
  'a dome creased over its crown': creasedChart(domeChart({ long: 210, wide: 190, deep: 70 }), {
    line: 'middle',
    deep: 4,
  })!,
  'half a skull creased at its seam': creasedChart(skull, { line: 'middle', deep: 5 })!,
  'a crease that ends on the form': creasedChart(breast, {
    line: 'middle',
    deep: 6,
    stretch: { from: 80, to: 260 },
  })!,
  'a flared cylinder': flaredChart(cylinder(360, 100), { edge: 'bottom', angle: 25, wide: 40 })!,
  'a dome with a flared rim': flaredChart(domeChart({ long: 210, wide: 190, deep: 70 }), {
    edge: 'rim',
    angle: 40,
    wide: 15,
  })!,
  'a breastplate flared all round': ['bottom', 'top', 'left', 'right'].reduce<Chart>(
    (chart, edge) => flaredChart(chart, { edge, angle: 30, wide: 12 })!,
    breast,
  ),
  'all of it on one form': flaredChart(
    relievedChart(breast, [
      fluteRelief(breast, { count: 6, deep: 4, wide: 20 })!,
      creaseRelief(breast, { line: 'middle', deep: 6 })!,
    ]),
    { edge: 'bottom', angle: 30, wide: 20 },
  )!,
};

describe('What is worked into a surface', () => {
  for (const [name, chart] of Object.entries(WORKED)) {
    it(`${name}: whole, turned outward, named all round, one disc, at three finenesses`, () => {
      for (const fineness of [{ vertices: 60 }, { vertices: 60, refine: 2 }, {}])
        soundSurface(meshOf(chart, fineness), { closed: chart.closed });
    });

    it(`${name}: its sheet leads back to the spot it came from`, () => {
      for (let i = 1; i < 9; i++)
        for (let j = 0; j < 9; j++) {
          const [u, v] = [i / 9, j / 9];
          const [x, y] = chart.spot(...chart.sheet(u, v));
          assert.ok(Math.abs(x - u) < 1e-6 && Math.abs(y - v) < 1e-6, `${u}, ${v} comes back as ${x}, ${y}`);
        }
    });

    it(`${name}: its folds are chains of its mesh`, () => {
      const mesh = meshOf(chart, { vertices: 300 });
      assert.ok(chart.folds!.size > 0);
      for (const fold of chart.folds!.keys()) assert.ok(mesh.folds!.get(fold)!.length > 2, fold);
    });
  }

  for (const [name, chart] of Object.entries(WORKED))
    it(`${name}: its normals are those of its slopes, and none on its folds`, () => {
      const d = 1e-6;
      for (let i = 1; i < 23; i++)
        for (let j = 1; j < 11; j++) {
          // Off the round shares, where a fold may lie.
          const [u, v] = [i / 23 + 0.00123, j / 11 + 0.00217];
          const normal = chart.normal(u, v);
          const along = minus(chart.point(u + d, v), chart.point(u - d, v));
          const up = minus(chart.point(u, v + d), chart.point(u, v - d));
          near(dot(normal, unit(cross(along, up))), 1, 2e-4);
        }
      for (const [[u, v], [u1]] of [...chart.folds!.values()] as [Spot, Spot][]) {
        const on: Spot = u === u1 ? [u, 0.437] : [0.3377, v];
        const side = !chart.closed && (on[0] === 0 || on[0] === 1);
        // A crease that ends on the form has no fold beyond, and the form as it was has none where it is flared.
        if (!side && name !== 'a crease that ends on the form') assert.equal(size(chart.normal(...on)), 0, `${on}`);
      }
    });

  describe('flutes', () => {
    it('of a flat plate add the way over them to its width, and to its area', () => {
      const [wide, high, count] = [200, 120, 4];
      for (const deep of [3, 5, 7, 12]) {
        const flute = { deep, wide: 14 };
        const { way } = fluteSection(flute);
        const chart = flutedChart(plateChart(wide, high), { count, ...flute })!;
        const expected = wide + count * (way.value - flute.wide);
        // A wall that stands upright at its foot is measured less well.
        near(lengthOf(chart, [0, 0], [1, 0]), expected, deep < 7 ? 1e-6 : 1e-3);
        near(formArea(chart).area, expected * high, deep < 7 ? 1e-4 : 2e-3);
      }
    });

    it('narrow with a cone, their depth in proportion', () => {
      const chart = flutedChart(cone(400, 200, 120), { count: 4, deep: 5, wide: 20 })!;
      const plain = cone(400, 200, 120);
      const heightAt = (v: number) => apart(chart.point(0.125, v), plain.point(0.125, v));
      near(heightAt(0), 5, 1e-6);
      near(heightAt(1), 2.5, 1e-6);
    });

    it('as many as have room', () => {
      for (const [wide, most] of [
        [14, 3],
        [16.6, 3],
        [16.7, 2],
        [49, 1],
        [51, 0],
      ] as const)
        assert.equal(mostFlutes(plateChart(50, 50), { deep: 3, wide }), most, `${wide}`);
      assert.equal(mostFlutes(cylinder(300, 80), { deep: 3, wide: 20 }), 14);
    });

    it('are counted on from those before', () => {
      const { folds } = fluteRelief(plateChart(200, 50), { count: 2, deep: 3, wide: 20 }, 5)!;
      assert.deepEqual([...folds.keys()], ['flute 6 left', 'flute 6 right', 'flute 7 left', 'flute 7 right']);
    });

    it('stand in the middle of equal shares, as high as they are deep, their feet as far apart as they are wide', () => {
      for (const deep of [5, -5, 12]) {
        const { height } = fluteRelief(plateChart(200, 50), { count: 4, deep, wide: 20 })!;
        for (const middle of [0.125, 0.375, 0.625, 0.875]) {
          near(height(middle, 0.3), deep, 1e-9);
          // A wall that stands upright at its foot is met to the root of the step.
          near(1 + height(middle + 10 / 200, 0.3), 1, 1e-3);
          near(1 + height(middle - 10.5 / 200, 0.3), 1, 1e-12);
          // Half way to the foot: on the arc over the chord; on the oval where it is deeper than half its width.
          const radius = (10 * 10 + 25) / 10;
          const half =
            deep === 12 ? 12 * Math.sqrt(0.75) : Math.sign(deep) * (Math.sqrt(radius ** 2 - 25) - (radius - 5));
          near(height(middle + 5 / 200, 0.3), half, 1e-6);
        }
      }
    });

    it('that have no room side by side are none', () => {
      assert.equal(flutedChart(plateChart(50, 50), { count: 4, deep: 3, wide: 14 }), undefined);
    });
  });

  describe('a crease', () => {
    it('along a cylinder has two flat sides that meet the round at a tangent', () => {
      const [girth, deep] = [600, 8];
      const radius = girth / (2 * Math.PI);
      const turn = Math.acos(radius / (radius + deep));
      const chart = creasedChart(cylinder(girth, 150, 240), { line: 'front', deep })!;
      near(lengthOf(chart, [0, 0], [1, 0]), (girth * 240) / 360 + 2 * radius * (Math.tan(turn) - turn), 1e-4);
      // Flat: a point a third of the way lies on the chord.
      const share = (turn * radius * 0.999) / ((girth * 240) / 360);
      const [top, foot, between] = [0, share, share / 3].map((off) => chart.point(0.5 + off, 0.5));
      const along = (between![0] - top![0]) / (foot![0] - top![0]);
      near(between![1], top![1] + along * (foot![1] - top![1]), 1e-3);
    });

    it('stands out by its depth, and runs out where it ends', () => {
      const chart = creasedChart(cylinder(600, 200, 240), { line: 'front', deep: 6, stretch: { from: 50, to: 150 } })!;
      const plain = cylinder(600, 200, 240);
      const out = (v: number) => apart(chart.point(0.5, v), plain.point(0.5, v));
      near(out(0.5), 6, 1e-6);
      near(out(0.25), 0, 1e-9);
      near(out(0.2), 0, 1e-9);
      assert.ok(out(0.3) > 0 && out(0.3) < 6);
    });

    it('has a section that its figures read: the curve of the form, its depth, its width', () => {
      const radius = 600 / (2 * Math.PI);
      const round = cylinder(600, 200, 240);
      const full = creaseSection(round, { line: 'front', deep: 6 })!;
      near(full.curve!, 1 / radius, 1e-6);
      near(full.deep, 6, 1e-9);
      near(full.wide, 2 * radius * Math.acos(radius / (radius + 6)), 1e-6);
      assert.deepEqual(creaseSection(round, { line: 'front', deep: 6, wide: 30 }), { deep: 6, wide: 30 });
      // Of a part, in the middle of that.
      near(creaseSection(round, { line: 'front', deep: 6, wide: 30, stretch: { from: 20, to: 120 } })!.deep, 6, 1e-9);
      near(creaseSection(round, { line: 'front', deep: 6, wide: 90, stretch: { from: 20, to: 50 } })!.deep, 6, 1e-9);
      assert.equal(creaseSection(round, { line: 'bottom', deep: 6 }), undefined);
      assert.equal(creaseSection(plateChart(80, 80), { line: 'middle', deep: 6 }), undefined);
      // A ball is curved across every line by its radius, a skull at its seam from one side.
      const ball = domeChart({ long: 200, wide: 200, deep: 100 });
      near(creaseSection(ball, { line: 'middle', deep: 4, stretch: { from: 40, to: 90 } })!.curve!, 1 / 100, 1e-4);
      near(
        creaseSection(domeChart({ long: 200, wide: 200, deep: 100 }, 'half'), {
          line: 'middle',
          deep: 4,
          stretch: { from: 40, to: 90 },
        })!.curve!,
        1 / 100,
        1e-4,
      );
    });

    it('sunk in is hollow, and runs out as wide as one that stands out', () => {
      const round = cylinder(600, 200, 240);
      const [out, sunk] = [6, -6].map((deep) => creaseRelief(round, { line: 'front', deep })!);
      const { wide } = creaseSection(round, { line: 'front', deep: 6 })!;
      const at = (off: number) => 0.5 + off / 400;
      near(sunk!.height(0.5, 0.4), -6, 1e-9);
      near(sunk!.height(at(wide / 4), 0.4), -6 / 4, 1e-6);
      near(1 + out!.height(at(-wide / 2 - 0.01), 0.4), 1, 1e-9);
      assert.ok(out!.height(at(wide / 2 - 0.5), 0.4) > 0 && sunk!.height(at(wide / 2 - 0.5), 0.4) < 0);
      near(1 + sunk!.height(at(wide / 2 + 0.01), 0.4), 1, 1e-9);
    });

    it('runs out smoothly over half its width where it ends, and no further than its middle', () => {
      const round = cylinder(600, 200, 240);
      const height = (way: number, from: number, to: number) =>
        creaseRelief(round, { line: 'front', deep: 6, wide: 40, stretch: { from, to } })!.height(0.5, way / 200);
      near(1 + height(40, 40, 160), 1, 1e-9);
      near(height(45, 40, 160), 6 * 0.15625, 1e-3);
      near(height(50, 40, 160), 3, 1e-3);
      near(height(60, 40, 160), 6, 1e-3);
      near(height(150, 40, 160), 3, 1e-3);
      near(1 + height(170, 40, 160), 1, 1e-9);
      near(height(90, 80, 100), 6, 1e-3);
      near(height(85, 80, 100), 3, 1e-3);
    });

    it('on a flat plate needs its width said', () => {
      assert.equal(creasedChart(plateChart(100, 80), { line: 'middle', deep: 4 }), undefined);
      const chart = creasedChart(plateChart(100, 80), { line: 'middle', deep: 4, wide: 40 })!;
      near(chart.point(0.5, 0.5)[1], 4, 1e-9);
      near(chart.point(0.6, 0.5)[1], 1, 1e-9);
      near(chart.point(0.71, 0.5)[1], 0, 1e-9);
    });

    it('runs along lines that the form has', () => {
      assert.equal(creasedChart(cylinder(360, 100, 180), { line: 'crown', deep: 4 }), undefined);
      assert.equal(creasedChart(cylinder(360, 100, 180), { line: 'bottom', deep: 4 }), undefined);
    });
  });

  describe('a flare', () => {
    for (const angle of [10, 25, 60, 90, -15])
      it(`of ${angle} degrees at the end of a cylinder is a frustum of its width`, () => {
        const [girth, high, wide] = [360, 100, 40];
        const radius = girth / (2 * Math.PI);
        const chart = flaredChart(cylinder(girth, high), { edge: 'bottom', angle, wide })!;
        const out = wide * Math.sin((angle * Math.PI) / 180);
        near(lengthOf(chart, [0, 0], [1, 0]), 2 * Math.PI * (radius + out), 1e-8);
        near(formArea(chart).area, girth * (high - wide) + Math.PI * wide * (2 * radius + out), 1e-4);
        near(
          formArea(flaredChart(cylinder(girth, high), { edge: 'bottom', angle: 0, wide })!).area,
          girth * high,
          2e-5,
        );
      });

    it('keeps its width on every form, from every edge', () => {
      for (const edge of ['bottom', 'top', 'left', 'right']) {
        const chart = flaredChart(breast, { edge, angle: 35, wide: 18 })!;
        const [[u0, v0]] = [chart.folds!.get(`flare ${edge}`)![0]!];
        const across = edge === 'bottom' || edge === 'top';
        const from = edge === 'bottom' || edge === 'left' ? 0 : 1;
        for (const share of [0.1, 0.4, 0.8]) {
          const [edgePoint, fold] = across
            ? [chart.point(share, from), chart.point(share, v0)]
            : [chart.point(from, share), chart.point(u0, share)];
          near(apart(edgePoint, fold), 18, 1e-9);
        }
      }
    });

    it('wider than the form is none', () => {
      assert.equal(flaredChart(cylinder(360, 30), { edge: 'bottom', angle: 20, wide: 40 }), undefined);
      assert.equal(flaredChart(cylinder(360, 100), { edge: 'rim', angle: 20, wide: 10 }), undefined);
    });

    it('leaves every place at its spot', () => {
      const [flared, before] = [35, 0].map((angle) => flaredChart(breast, { edge: 'bottom', angle, wide: 30 })!);
      for (const [u, v] of [
        [0.2, 0.5],
        [0.7, 0.9],
      ] as const)
        near(apart(flared!.point(u, v), before!.point(u, v)), 0, 1e-9);
      assert.deepEqual(flared!.sheet(0.3, 0.01), before!.sheet(0.3, 0.01));
    });
  });

  it('bays are cut out of it as out of the plain form', () => {
    const chart = WORKED['all of it on one form']!;
    const bay = {
      name: 'armhole',
      from: { edge: 'left', at: 60 },
      to: { edge: 'top', at: 60 },
      deep: 25,
      mirrored: true,
    };
    const cut = cutForm(chart, [bay]);
    assert.deepEqual(cut.refused, []);
    soundSurface(raised(chart, cutMesh(chart, cut, { vertices: 400 })), { closed: false });
  });
});

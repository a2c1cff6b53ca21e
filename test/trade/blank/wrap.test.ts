import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { boxOfPath, signedArea } from '../../../server/geometry/outline/measure.ts';
import { spansOf } from '../../../server/geometry/outline/span.ts';
import { ellipsePerimeter, outlineMeasures } from '../../../server/trade/blank/plane-shapes.ts';
import {
  coneDevelopment,
  conePattern,
  cylinderBlank,
  ovalConeDevelopment,
  slopedCylinderCut,
} from '../../../server/trade/blank/wrap.ts';
import { length, near } from '../numbers.ts';

const turn = fc.double({ min: 5, max: 360, noNaN: true });

describe('Cones', () => {
  it('with equal ends are cylinders, exactly', () => {
    fc.assert(
      fc.property(length, length, turn, (girth, high, wrap) => {
        const cone = coneDevelopment({ top: girth, bottom: girth, high, wrap });
        const cylinder = cylinderBlank({ girth, high, wrap });
        assert.equal(cone.blankLong.value, cylinder.long.value);
        assert.equal(cone.blankWide.value, cylinder.wide.value);
        near(cone.area.value, cylinder.area.value, 1e-15);
        assert.equal(cone.sector.value, 0);
        assert.match(cone.outerRadius.outside ?? '', /cylinder/);
      }),
    );
  });

  it('come to the cylinder without a jump, and a slight taper is laid out by coordinates', () => {
    fc.assert(
      fc.property(length, length, turn, (girth, high, wrap) => {
        const cone = coneDevelopment({ top: girth * (1 - 1e-9), bottom: girth, high, wrap });
        const cylinder = cylinderBlank({ girth, high, wrap });
        near(cone.blankLong.value, cylinder.long.value, 1e-7);
        near(cone.area.value, cylinder.area.value, 1e-7);
        assert.match(cone.outerRadius.note ?? '', /coordinates/);
      }),
    );
  });

  it('grow fourfold in area and twofold in slant when every length doubles', () => {
    fc.assert(
      fc.property(length, length, length, turn, (top, bottom, high, wrap) => {
        const one = coneDevelopment({ top, bottom, high, wrap });
        const two = coneDevelopment({ top: 2 * top, bottom: 2 * bottom, high: 2 * high, wrap });
        near(two.area.value, 4 * one.area.value);
        near(two.slant.value, 2 * one.slant.value);
        near(two.sector.value, one.sector.value);
      }),
    );
  });

  it('do not care which end is up', () => {
    fc.assert(
      fc.property(length, length, length, (top, bottom, high) => {
        near(
          coneDevelopment({ top, bottom, high }).area.value,
          coneDevelopment({ top: bottom, bottom: top, high }).area.value,
          1e-14,
        );
      }),
    );
  });

  it('have a pattern of lines and arcs with the area and the box of the pattern by radii', () => {
    fc.assert(
      fc.property(length, length, length, turn, (top, bottom, high, wrap) => {
        const cone = coneDevelopment({ top, bottom, high, wrap });
        const { path, edges } = conePattern({ top, bottom, high, wrap });
        near(signedArea(path), cone.area.value, 1e-9);
        const box = boxOfPath(path);
        near(box.right - box.left, cone.blankLong.value, 1e-9);
        near(box.top - box.bottom, cone.blankWide.value, 1e-9);
        assert.equal(
          edges.reduce((sum, { spans }) => sum + spans, 0),
          spansOf(path).length,
        );
      }),
    );
  });

  it('name the edges of their pattern as seen from outside, whichever end is the larger', () => {
    const edges = (top: number, bottom: number) =>
      conePattern({ top, bottom, high: 100 }).edges.map(({ name }) => name);
    assert.deepEqual(edges(200, 300), ['bottom', 'right', 'top', 'left']);
    assert.deepEqual(edges(300, 200), ['top', 'left', 'bottom', 'right']);
    assert.deepEqual(conePattern({ top: 0, bottom: 300, high: 100 }).edges[2], { name: 'top', spans: 0 });
    assert.deepEqual(conePattern({ top: 200, bottom: Number.NaN, high: 100 }).edges, []);
  });

  it('with flat-laid rings turn once round', () => {
    near(coneDevelopment({ top: 0, bottom: 300, high: 0 }).sector.value, 360, 1e-12);
  });
});

describe('Oval cones', () => {
  it('with round ends are the plain cone', () => {
    for (const wrap of [120, 360]) {
      const oval = ovalConeDevelopment({
        bottom: { long: 190, wide: 190 },
        top: { long: 120, wide: 120 },
        high: 110,
        wrap,
      });
      const plainCone = coneDevelopment({ top: 120 * Math.PI, bottom: 190 * Math.PI, high: 110, wrap });
      near(oval.sector.value, plainCone.sector.value, 1e-8);
      near(oval.area.value, plainCone.area.value, 1e-8);
      near(oval.bottomLine.value, (190 * Math.PI * wrap) / 360, 1e-8);
      near(oval.blankLong.value, plainCone.blankLong.value, 1e-4);
      near(oval.blankWide.value, plainCone.blankWide.value, 1e-4);
    }
  });

  it('with equal ends are oval tubes: no angle, a rectangle as long as the oval is round', () => {
    const tube = ovalConeDevelopment({ bottom: { long: 210, wide: 170 }, top: { long: 210, wide: 170 }, high: 100 });
    assert.ok(Math.abs(tube.sector.value) < 1e-6);
    near(tube.area.value, tube.bottomLine.value * 100, 1e-8);
    near(tube.topLine.value, tube.bottomLine.value, 1e-12);
  });

  it('cut off by a level plane keep the angle of the whole', () => {
    const whole = ovalConeDevelopment({ bottom: { long: 210, wide: 170 }, top: { long: 0, wide: 0 }, high: 130 });
    const cut = ovalConeDevelopment({ bottom: { long: 210, wide: 170 }, top: { long: 105, wide: 85 }, high: 65 });
    near(cut.sector.value, whole.sector.value, 1e-7);
    near(cut.area.value, 0.75 * whole.area.value, 1e-8);
  });

  it('have an outline with the area of their triangles', () => {
    const cone = ovalConeDevelopment({
      bottom: { long: 235, wide: 195 },
      top: { long: 120, wide: 110 },
      high: 90,
      offset: 15,
    });
    const measured = outlineMeasures(cone.outline);
    assert.equal(measured.crosses, false);
    // The middle element stands upright on the origin.
    const count = cone.outline.length / 2;
    const foot = cone.outline[(count - 1) / 2];
    const head = cone.outline[cone.outline.length - 1 - (count - 1) / 2];
    near(1 + (foot?.x ?? Number.NaN), 1);
    near(1 + (foot?.y ?? Number.NaN), 1);
    near(1 + (head?.x ?? Number.NaN), 1);
    near(head?.y ?? Number.NaN, Math.hypot(235 / 2 - 120 / 2 - 15, 90), 1e-9);
    near(measured.area.value, cone.area.value, 1e-4);
  });
});

describe('Parts of oval cones', () => {
  const whole = { bottom: { long: 210, wide: 170 }, top: { long: 120, wide: 100 }, high: 100, offset: 15 };

  it('lie round the side toward the offset', () => {
    const strip = ovalConeDevelopment({ ...whole, wrap: 1 });
    near(strip.longestElement.value, Math.hypot(105 - 60 - 15, 100), 1e-4);
    near(strip.shortestElement.value, Math.hypot(105 - 60 - 15, 100), 1e-4);
    const all = ovalConeDevelopment(whole);
    near(all.longestElement.value, Math.hypot(105 - 60 + 15, 100), 1e-9);
  });

  it('are as long at their ends as the ovals are from cut to cut', () => {
    for (const wrap of [60, 90, 200, 300]) {
      // The ellipse's arc by a fine sum, from the middle of the long axis to both sides.
      const arc = ({ long, wide }: { long: number; wide: number }) => {
        const steps = 20_000;
        const turn = (wrap * Math.PI) / 180;
        let sum = 0;
        for (let index = 0; index < steps; index++) {
          const at = turn * ((index + 0.5) / steps - 0.5);
          sum += Math.hypot((long / 2) * Math.sin(at), (wide / 2) * Math.cos(at)) * (turn / steps);
        }
        return sum;
      };
      const part = ovalConeDevelopment({ ...whole, wrap });
      near(part.bottomLine.value, arc(whole.bottom), 1e-8);
      near(part.topLine.value, arc(whole.top), 1e-8);
    }
  });
});

describe('Sloped cuts', () => {
  it('stand level when the cut is square, and rise by the diameter at 45°', () => {
    const square = slopedCylinderCut({ girth: 300, angle: 0 });
    assert.ok(square.ordinates.every(({ up }) => up === 0));
    near(square.cutLine.value, 300, 1e-14);
    near(slopedCylinderCut({ girth: 300, angle: 45 }).rise.value, 300 / Math.PI);
  });

  it('have a cut line as long as the oval that the plane cuts, and ordinates from one side round to it again', () => {
    for (const angle of [10, 30, -30, 60]) {
      const cut = slopedCylinderCut({ girth: 300, angle, steps: 12 });
      const across = 300 / Math.PI;
      const cos = Math.cos((angle * Math.PI) / 180);
      near(cut.cutLine.value, ellipsePerimeter(across / cos, across).value, 1e-12);
      assert.equal(cut.ordinates.length, 13);
      near(cut.ordinates.at(-1)!.along, 300);
      near(cut.ordinates[3]!.along, 75);
      near(cut.ordinates[6]!.up, cut.rise.value);
      near(cut.ordinates[3]!.up, cut.rise.value / 2);
      assert.ok(Math.abs(cut.ordinates.at(-1)!.up) < 1e-9);
    }
  });
});

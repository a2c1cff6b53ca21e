import assert from 'node:assert/strict';
import fc from 'fast-check';
import { rollStiffness } from '../../../server/trade/edge/edge.ts';

/** Second moment of an arc of sheet and of a wire in it, summed strip by strip, over that of the sheet left flat. */
function summed(hollow: number, thickness: number, turned: number, held: boolean): number {
  const r = (hollow + thickness) / 2;
  const turn = (turned * Math.PI) / 180;
  const strips: { y: number; area: number }[] = [];
  for (let i = 0; i < 4000; i++) {
    const angle = (turn * (i + 0.5)) / 4000;
    strips.push({ y: r * (1 - Math.cos(angle)), area: (r * turn * thickness) / 4000 });
  }
  const wire: typeof strips = [];
  const own = hollow / 2;
  for (let i = 0; i < 4000; i++) {
    const y = own * (-1 + (i + 0.5) / 2000);
    wire.push({ y: r + y, area: (2 * Math.sqrt(own * own - y * y) * own) / 2000 });
  }
  const moment = (all: typeof strips) => {
    const area = all.reduce((sum, each) => sum + each.area, 0);
    const middle = all.reduce((sum, each) => sum + each.area * each.y, 0) / area;
    return all.reduce((sum, each) => sum + each.area * (each.y - middle) ** 2, 0);
  };
  const flat = (r * turn * thickness ** 3) / 12;
  return (held ? moment([...strips, ...wire]) : moment(strips) + moment(wire)) / flat;
}

describe('The stiffness of a rolled edge', () => {
  it('closed and hollow, is that of a thin tube, π·r³·t, beside the flat strip', () => {
    const tube = rollStiffness({ hollow: 6, thickness: 1, turned: 360, wired: false });
    assert.ok(Math.abs(tube.value - 6 * 3.5 ** 2) < 1e-9);
    assert.equal(tube.low, undefined);
  });

  it('is what its strips sum up to, the wire sliding or held', () => {
    const measure = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(measure(2, 8), measure(0.5, 2), measure(60, 360), (hollow, thickness, turned) => {
        const found = rollStiffness({ hollow, thickness, turned, wired: true });
        assert.ok(Math.abs(found.value / summed(hollow, thickness, turned, false) - 1) < 1e-3);
        assert.ok(Math.abs(found.high! / summed(hollow, thickness, turned, true) - 1) < 1e-3);
      }),
    );
  });

  it('grows with the hollow, and with a wire in it', () => {
    const of = (hollow: number, wired: boolean) => rollStiffness({ hollow, thickness: 1.2, wired }).value;
    assert.ok(of(6, false) > of(4, false));
    assert.ok(of(4, true) > of(4, false));
  });

  it('says what it cannot be', () => {
    assert.match(rollStiffness({ hollow: 0, thickness: 1, wired: true }).outside!, /the wire/);
    assert.match(rollStiffness({ hollow: 4, thickness: 1, turned: 400, wired: false }).outside!, /360/);
  });
});

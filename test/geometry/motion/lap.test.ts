import assert from 'node:assert/strict';
import fc from 'fast-check';
import { alongTo, apartFlat, type Flat, turnedFlat } from '../../../server/geometry/motion/lap.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const place = fc.tuple(number(-50, 50), number(-50, 50));

describe('plates cut across the line that they turn about', () => {
  it('an edge drawn about the line loses the arc that it has turned', () => {
    const [radius, steps] = [60, 2000];
    const arc = Array.from({ length: steps + 1 }, (_, i): Flat => {
      const at = ((i / steps) * Math.PI) / 2;
      return [radius * Math.cos(at), radius * Math.sin(at)];
    });
    // Beneath it by 2 mm, 40 mm of the arc up from its end.
    const end: Flat = turnedFlat([radius - 2, 0], 40 / radius);
    for (const bend of [0, 0.1, 0.3, 0.6]) {
      const lap = alongTo(arc, turnedFlat(end, -bend));
      assert.ok(Math.abs(lap - (40 - radius * bend)) < 1e-3, `${lap} at ${bend}`);
    }
  });

  it('the way along a straight line goes on beyond both its ends', () => {
    const line: Flat[] = [
      [5, 0],
      [5, 3],
      [5, 10],
    ];
    for (const y of [-4, 0, 2, 7, 10, 14]) assert.ok(Math.abs(alongTo(line, [8, y]) - y) < 1e-12);
  });

  it('two lines are as far apart as the nearest of many places on them, and nought where they cross', () => {
    const path = fc.array(place, { minLength: 2, maxLength: 5 });
    fc.assert(
      fc.property(path, path, (one, other) => {
        const found = apartFlat(one, other);
        const dense = (line: readonly Flat[]): Flat[] =>
          line.slice(1).flatMap((b, i) =>
            Array.from({ length: 41 }, (_, k): Flat => {
              const a = line[i]!;
              return [a[0] + ((b[0] - a[0]) * k) / 40, a[1] + ((b[1] - a[1]) * k) / 40];
            }),
          );
        const [p, q] = [dense(one), dense(other)];
        let least = Number.POSITIVE_INFINITY;
        for (const [x, y] of p) for (const [u, v] of q) least = Math.min(least, Math.hypot(x - u, y - v));
        assert.ok(found <= least + 1e-9);
        // Between two places that were looked at no line is longer than a fortieth of 142 mm.
        assert.ok(found >= least - 2 * 3.6);
      }),
      { numRuns: 200 },
    );
  });
});

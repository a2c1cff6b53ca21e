import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Path } from '../../../server/geometry/outline/path.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { Room } from '../../../server/output/documents/patterns/room.ts';

const size = fc.double({ min: 1, max: 120, noNaN: true });

/** A star round a middle, with straight sides and round ones. */
const outline = fc
  .array(fc.tuple(fc.double({ min: 5, max: 80, noNaN: true }), fc.constantFrom(0, 0.3, -0.2)), {
    minLength: 3,
    maxLength: 9,
  })
  .map(
    (corners): Path => ({
      closed: true,
      vertices: corners.map(([far, bulge], i) => {
        const angle = (2 * Math.PI * i) / corners.length;
        return { x: 100 + far * Math.cos(angle), y: 100 + far * Math.sin(angle), bulge };
      }),
    }),
  );

describe('the room for words on a pattern', () => {
  it('may hold every block that it has a free place for', () => {
    let free = 0;
    fc.assert(
      fc.property(outline, size, size, fc.constantFrom(0, 90, 37), (path, wide, high, turn) => {
        const room = atOnce(Room.of(path, []));
        const places = Array.from({ length: 400 }, (_, i) => ({
          x: 20 + 8 * (i % 20),
          y: 20 + 8 * Math.floor(i / 20),
        }));
        if (!places.some((place) => room.isFree({ ...place, wide, high, turn }))) return;
        free++;
        assert.ok(room.mayHold({ wide, high, turn }));
      }),
      { numRuns: 300 },
    );
    assert.ok(free > 20, `only ${free} had a place`);
  });

  it('holds no block that is longer across its corners than the outline', () => {
    const disc: Path = {
      closed: true,
      vertices: [
        { x: 0, y: 0, bulge: 1 },
        { x: 50, y: 0, bulge: 1 },
      ],
    };
    const room = atOnce(Room.of(disc, []));
    assert.ok(room.mayHold({ wide: 39, high: 29, turn: 0 }));
    assert.ok(!room.mayHold({ wide: 41, high: 31, turn: 0 }));
    assert.ok(!room.mayHold({ wide: 31, high: 41, turn: 90 }));
  });
});

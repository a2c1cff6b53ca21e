import fc from 'fast-check';
import { crossingOf, signedArea } from '../../../server/geometry/outline/measure.ts';
import type { Path, Vertex } from '../../../server/geometry/outline/path.ts';

/* Outlines that tests share. */

export const closed = (...vertices: Vertex[]): Path => ({ vertices, closed: true });

export const rectangle = (wide: number, high: number): Path =>
  closed({ x: 0, y: 0 }, { x: wide, y: 0 }, { x: wide, y: high }, { x: 0, y: high });

export const circle = (radius: number, x = 0, y = 0): Path =>
  closed({ x: x + radius, y, bulge: 1 }, { x: x - radius, y, bulge: 1 });

/** A slot along x, its ends half round. */
export const slot = (long: number, wide: number): Path =>
  closed(
    { x: wide / 2, y: 0 },
    { x: long - wide / 2, y: 0, bulge: 1 },
    { x: long - wide / 2, y: wide },
    { x: wide / 2, y: wide, bulge: 1 },
  );

/** A plate with a round bay of this radius in the middle of its top. */
export const bayed = (wide: number, high: number, radius: number): Path =>
  closed(
    { x: 0, y: 0 },
    { x: wide, y: 0 },
    { x: wide, y: high },
    { x: wide / 2 + radius, y: high, bulge: -1 },
    { x: wide / 2 - radius, y: high },
    { x: 0, y: high },
  );

/** Stars of lines and arcs about the origin that do not cross themselves, anticlockwise. */
export const outlines = (bulges: fc.Arbitrary<number>): fc.Arbitrary<Path> =>
  fc
    .array(
      fc.tuple(fc.double({ min: 30, max: 100, noNaN: true }), fc.double({ min: 0.5, max: 1, noNaN: true }), bulges),
      {
        minLength: 3,
        maxLength: 9,
      },
    )
    .map((rays): Path => {
      const whole = rays.reduce((sum, [, share]) => sum + share, 0);
      let angle = 0;
      const vertices = rays.map(([radius, share, bulge]): Vertex => {
        angle += (2 * Math.PI * share) / whole;
        const at = { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
        return bulge === 0 ? at : { ...at, bulge };
      });
      return { vertices, closed: true };
    })
    .filter((path) => signedArea(path) > 100 && crossingOf(path) === undefined);

/** Outlines without hollows: corners on a circle, their sides from chords to its own arcs; `flat` for chords alone. */
export const roundedOutlines = (flat = false): fc.Arbitrary<Path> =>
  fc
    .tuple(
      fc.double({ min: 30, max: 100, noNaN: true }),
      fc.array(
        fc.tuple(fc.double({ min: 0.5, max: 1, noNaN: true }), fc.double({ min: 0, max: flat ? 0 : 1, noNaN: true })),
        { minLength: 3, maxLength: 9 },
      ),
    )
    .map(([radius, sides]): Path => {
      const whole = sides.reduce((sum, [share]) => sum + share, 0);
      let angle = 0;
      const vertices = sides.map(([share, full]): Vertex => {
        const at = { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
        const turn = (2 * Math.PI * share) / whole;
        angle += turn;
        const bulge = full * Math.tan(turn / 4);
        return bulge === 0 ? at : { ...at, bulge };
      });
      return { vertices, closed: true };
    });

export const bent = fc.oneof(fc.constant(0), fc.double({ min: -0.6, max: 0.9, noNaN: true }));

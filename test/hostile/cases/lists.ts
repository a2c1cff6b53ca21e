import type { HostileCase } from '../case.ts';
import { many, pieceOf, STOCK, spec } from '../specs.ts';

/** Long, wide and many: lists, seams, sections. */
export const cases: readonly HostileCase[] = [
  {
    name: 'a seam of 10,000 rivets',
    files: spec(
      () =>
        `${STOCK}piece a\n  from plate\n  strip 1900 x 40 mm\n\npiece b\n  from plate\n  strip 1900 x 40 mm\n\nseam s\n  joins a, b\n  along a.top\n  rivets small, count 10000, inset 10 mm\n`,
    ),
  },
  { name: '200,000 commas', files: spec(() => pieceOf(`disc 90 mm${','.repeat(200_000)}`)) },
  {
    name: '10,000 pieces',
    files: spec(() => STOCK + many(10_000, (i) => `piece p${i}\n  from plate\n  disc ${i % 90} mm\n\n`)),
    budget: { seconds: 40 },
  },
];

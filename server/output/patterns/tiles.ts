import { flattened } from '../../trade/outline/flatten.ts';
import type { Plan } from './plan.ts';

/* A pattern larger than a page, cut into pages that lap over each other. */

export const PAPERS = ['a4', 'a3', 'letter', 'full'] as const;
export type PaperSize = (typeof PAPERS)[number];

/** Width and height of a page, mm. */
export const PAGE: Readonly<Record<Exclude<PaperSize, 'full'>, readonly [number, number]>> = {
  a4: [210, 297],
  a3: [297, 420],
  letter: [215.9, 279.4],
};

/** What is kept free round the window that a page shows of its pattern, mm: printers need 5, the bars stand below. */
export const FREE = { side: 10, top: 15, bottom: 31 } as const;
/** How far neighbouring pages lap, mm. */
export const LAP = 12;

export interface Window {
  readonly wide: number;
  readonly high: number;
}

export const windowOf = ([wide, high]: readonly [number, number]): Window => ({
  wide: wide - 2 * FREE.side,
  high: high - FREE.top - FREE.bottom,
});

export interface Tile {
  /** From 1, from the left and from the top. */
  readonly column: number;
  readonly row: number;
  /** The lower left corner of what the page shows, in the plan, mm. */
  readonly x: number;
  readonly y: number;
}

export interface Tiling {
  readonly plan: Plan;
  readonly columns: number;
  readonly rows: number;
  /** In reading order; pages that would be empty are left out. */
  readonly tiles: readonly Tile[];
  readonly left: number;
  readonly bottom: number;
}

export function tilesOf(plan: Plan, { wide, high }: Window): Tiling {
  const count = (size: number, window: number) => Math.max(1, Math.ceil((size - LAP - 1e-6) / (window - LAP)));
  const [columns, rows] = [count(plan.wide, wide), count(plan.high, high)];
  const left = (plan.wide - (columns * (wide - LAP) + LAP)) / 2;
  const bottom = (plan.high - (rows * (high - LAP) + LAP)) / 2;
  const tiles: Tile[] = [];
  const filled = fillOf(plan);
  for (let row = 1; row <= rows; row++) {
    for (let column = 1; column <= columns; column++) {
      const x = left + (column - 1) * (wide - LAP);
      const y = bottom + (rows - row) * (high - LAP);
      if (filled(x, y, wide, high)) tiles.push({ column, row, x, y });
    }
  }
  return { plan, columns, rows, tiles, left, bottom };
}

/** Whether anything is drawn or written in a rectangle of the plan. */
function fillOf(plan: Plan): (x: number, y: number, wide: number, high: number) => boolean {
  const points = plan.strokes.flatMap(({ path }) => {
    const corners = flattened(path, 0.5);
    if (path.closed && corners[0]) corners.push(corners[0]);
    // Every few mm, so that a straight line across a page is not missed.
    return corners.flatMap((to, i) => {
      const from = corners[i - 1];
      if (!from) return [to];
      const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 4));
      return Array.from({ length: steps }, (_, k) => ({
        x: from.x + ((to.x - from.x) * (k + 1)) / steps,
        y: from.y + ((to.y - from.y) * (k + 1)) / steps,
      }));
    });
  });
  const all = [...points, ...plan.texts];
  return (x, y, wide, high) => all.some((at) => at.x >= x && at.x <= x + wide && at.y >= y && at.y <= y + high);
}

/** Marks that two neighbouring pages share: laid over each other, the pages lie right. In the plan, mm. */
export function marksOf({ columns, rows, left, bottom }: Tiling, { wide, high }: Window): { x: number; y: number }[] {
  const [stepX, stepY] = [wide - LAP, high - LAP];
  const marks: { x: number; y: number }[] = [];
  for (let row = 0; row < rows; row++)
    for (let seam = 1; seam < columns; seam++)
      for (const share of [0.25, 0.75])
        marks.push({ x: left + seam * stepX + LAP / 2, y: bottom + (row + share) * stepY + LAP / 2 });
  for (let column = 0; column < columns; column++)
    for (let seam = 1; seam < rows; seam++)
      for (const share of [0.25, 0.75])
        marks.push({ x: left + (column + share) * stepX + LAP / 2, y: bottom + seam * stepY + LAP / 2 });
  return marks;
}

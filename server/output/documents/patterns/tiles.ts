import { flattened } from '../../../geometry/outline/chords.ts';
import type { Steps } from '../../../incremental/steps.ts';
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

/** So many columns and rows of sheets a plan goes over, with those that stay empty: nothing is drawn for it. */
function gridOf(plan: Plan, { wide, high }: Window): { readonly columns: number; readonly rows: number } {
  const count = (size: number, window: number) => Math.max(1, Math.ceil((size - LAP - 1e-6) / (window - LAP)));
  return { columns: count(plan.wide, wide), rows: count(plan.high, high) };
}

/** The fewest sheets a plan can take: its outline goes through every column and every row. */
export function leastSheets(plan: Plan, window: Window): number {
  const { columns, rows } = gridOf(plan, window);
  return Math.max(columns, rows);
}

/** Every sheet with something on it. For plans of a size that someone tapes together: see {@link leastSheets}. */
export function* tilesOf(plan: Plan, { wide, high }: Window): Steps<Tiling> {
  const { columns, rows } = gridOf(plan, { wide, high });
  const left = (plan.wide - (columns * (wide - LAP) + LAP)) / 2;
  const bottom = (plan.high - (rows * (high - LAP) + LAP)) / 2;
  const tiles: Tile[] = [];
  const filled = yield* filledOf(plan, { left, bottom, columns, rows }, { wide, high });
  for (let row = 1; row <= rows; row++) {
    for (let column = 1; column <= columns; column++) {
      const x = left + (column - 1) * (wide - LAP);
      const y = bottom + (rows - row) * (high - LAP);
      if (filled.has(row * columns + column)) tiles.push({ column, row, x, y });
    }
  }
  return { plan, columns, rows, tiles, left, bottom };
}

/** The sheets that anything is drawn or written on, each as `row * columns + column`. */
function* filledOf(
  plan: Plan,
  { left, bottom, columns, rows }: Pick<Tiling, 'left' | 'bottom' | 'columns' | 'rows'>,
  { wide, high }: Window,
): Steps<ReadonlySet<number>> {
  const filled = new Set<number>();
  const [stepX, stepY] = [wide - LAP, high - LAP];
  // Where pages lap a point lies on two of them.
  const see = (x: number, y: number) => {
    const [across, up] = [(x - left) / stepX, (y - bottom) / stepY];
    for (let i = Math.ceil((x - left - wide) / stepX); i <= across; i++)
      for (let j = Math.ceil((y - bottom - high) / stepY); j <= up; j++)
        if (i >= 0 && i < columns && j >= 0 && j < rows) filled.add((rows - j) * columns + i + 1);
  };
  for (const [i, { path }] of plan.strokes.entries()) {
    if (i % STROKES_AT_ONCE === STROKES_AT_ONCE - 1) yield undefined;
    const corners = flattened(path, 0.5);
    if (path.closed && corners[0]) corners.push(corners[0]);
    for (const [i, to] of corners.entries()) {
      const from = corners[i - 1] ?? to;
      // Every few mm, so that a straight line across a page is not missed.
      const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 4));
      for (let k = 1; k <= steps; k++)
        see(from.x + ((to.x - from.x) * k) / steps, from.y + ((to.y - from.y) * k) / steps);
    }
  }
  for (const { x, y } of plan.texts) see(x, y);
  return filled;
}

const STROKES_AT_ONCE = 100;

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

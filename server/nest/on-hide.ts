import type { Steps } from '../incremental/steps.ts';
import { LARGEST_HIDE } from '../trade/reckoning/bounds.ts';
import type { Blank, Placement } from './lay.ts';
import type { Point } from './shape.ts';

/*
 * Laying blanks on a hide, whose edge is not straight: by their bounding rectangles, on a grid. The largest first, each as
 * near to the hide's upper left as it goes. Nothing is random: the same blanks and hide always give the same layout.
 */

/** The outline of a hide and what is left out of it, mm, y down from its upper edge. */
export interface HideShape {
  readonly long: number;
  readonly wide: number;
  readonly rings: readonly (readonly Point[])[];
}

export interface LaidHides {
  /** What lies on each hide. */
  readonly hides: readonly (readonly Placement[])[];
  /** Copies that go on no hide, by blank. */
  readonly unplaced: ReadonlyMap<string, number>;
  /** The hide is too large, or its edge too finely drawn, for anything to be laid on it. */
  readonly cannot?: true;
}

type Wanted = Pick<Blank, 'id' | 'long' | 'wide' | 'copies' | 'grain' | 'mirrored'>;

/** Side of a cell of the grid, mm: what a blank may lie off the nearest place. */
const CELL = 5;
/** Cells of one hide. */
const MOST_CELLS = LARGEST_HIDE / CELL ** 2;
/** Cells of all hides together, which are kept as long as there may be room on them. */
const MOST_IN_ALL = 8 * MOST_CELLS;
/** More hides than this are not laid. */
const MOST_HIDES = 50;
/** Rows of cells that are gone through to keep clear of the edge: more than this is no edge, or no margin. */
const MOST_ROWS = 20_000_000;

/** Copy by copy. */
export function* layOnHides(
  blanks: readonly Wanted[],
  { shape, margin, kerf }: { shape: HideShape; margin: number; kerf: number },
): Steps<LaidHides> {
  const copies = blanks
    .flatMap((blank) => Array.from({ length: Math.min(blank.copies, 5000) }, (_, i) => ({ blank, copy: i + 1 })))
    .sort((a, b) => Math.max(b.blank.long, b.blank.wide) - Math.max(a.blank.long, a.blank.wide));
  const hides: Placement[][] = [];
  const grids: Grid[] = [];
  const unplaced = new Map<string, number>();
  const clear = yield* Grid.of(shape, margin);
  const most = clear ? Math.min(MOST_HIDES, Math.floor(MOST_IN_ALL / clear.cells)) : 0;
  /** By blank and way round, on which hide and from which column on there may still be room: what is taken stays so. */
  const room = new Map<string, { hide: number; column: number }>();
  for (const { blank, copy } of copies) {
    yield undefined;
    if (unplaced.has(blank.id)) {
      unplaced.set(blank.id, unplaced.get(blank.id)! + 1);
      continue;
    }
    // A grain is that of the hide, which runs along its back: along its long measure. `up` asks for a quarter turn.
    const turns = blank.grain === 'up' ? [true] : blank.grain === 'across' ? [false] : [false, true];
    let found: { hide: number; x: number; y: number; turned: boolean } | undefined;
    const first = Math.min(...turns.map((turned) => room.get(`${blank.id} ${turned}`)?.hide ?? 0));
    for (let hide = first; !found && hide < most; hide++) {
      const isNew = hide === grids.length;
      if (isNew) {
        grids.push(clear!.copy());
        hides.push([]);
      }
      const spots: { hide: number; x: number; y: number; turned: boolean }[] = [];
      for (const turned of turns) {
        const [long, wide] = turned ? [blank.wide, blank.long] : [blank.long, blank.wide];
        const key = `${blank.id} ${turned}`;
        const from = room.get(key);
        if (from && from.hide > hide) continue;
        const at = grids[hide]!.firstFor(long + kerf, wide + kerf, from?.hide === hide ? from.column : 0);
        room.set(key, at ? { hide, column: at.x / CELL } : { hide: hide + 1, column: 0 });
        if (at) spots.push({ ...at, hide, turned });
        yield undefined;
      }
      found = spots.sort((a, b) => a.x - b.x || a.y - b.y)[0];
      if (!found && isNew) {
        grids.pop();
        hides.pop();
        break;
      }
    }
    if (!found) {
      unplaced.set(blank.id, 1);
      continue;
    }
    const { hide, x, y, turned } = found;
    const [long, wide] = turned ? [blank.wide, blank.long] : [blank.long, blank.wide];
    grids[hide]!.take(x, y, long + kerf, wide + kerf);
    const flipped = blank.mirrored === true && copy % 2 === 0;
    hides[hide]!.push({ blank: blank.id, copy, x, y, turned, flipped, long, wide });
  }
  return { hides, unplaced, ...(clear ? {} : { cannot: true }) };
}

/** Rows of cells, or stretches of an edge, that are gone through before others may go first. */
const AT_ONCE = 20_000;

/** Cells that are free, with the sums that tell of a rectangle at once whether it is. */
class Grid {
  private constructor(
    private readonly columns: number,
    private readonly rows: number,
    private readonly taken: Uint8Array,
    private readonly sums = new Int32Array((columns + 1) * (rows + 1)),
  ) {}

  get cells(): number {
    return this.columns * this.rows;
  }

  /** The cells that lie whole in a hide, so far in from its edge; nothing where they would be too many. */
  static *of({ long, wide, rings }: HideShape, margin: number): Steps<Grid | undefined> {
    const [columns, rows] = [Math.ceil(long / CELL), Math.ceil(wide / CELL)];
    if (!(columns * rows > 0 && columns * rows <= MOST_CELLS)) return undefined;
    const crossings = yield* crossingsOf(rings, rows);
    if (!crossings) return undefined;
    const taken = new Uint8Array(columns * rows).fill(1);
    for (const [row, xs] of crossings.entries()) {
      // Inside between the first and the second, the third and the fourth …; a cell counts by its middle.
      for (let i = 0; i + 1 < xs.length; i += 2) {
        const [from, to] = [firstBeyond(xs[i]!), Math.min(columns, firstBeyond(xs[i + 1]!))];
        if (from < to) taken.fill(0, row * columns + from, row * columns + to);
      }
    }
    if (!(yield* keptClear(taken, { columns, rows, rings, margin }))) return undefined;
    const grid = new Grid(columns, rows, taken);
    grid.sum(0, 0);
    return grid;
  }

  copy(): Grid {
    return new Grid(this.columns, this.rows, this.taken.slice(), this.sums.slice());
  }

  /** The free rectangle of this size that lies furthest to the left, from a column on, and of those furthest up. */
  firstFor(long: number, wide: number, from: number): { x: number; y: number } | undefined {
    const [w, h] = [Math.ceil(long / CELL - 1e-9), Math.ceil(wide / CELL - 1e-9)];
    const across = this.columns + 1;
    for (let column = from; column + w <= this.columns; column++)
      for (let row = 0; row + h <= this.rows; row++) {
        const sum =
          this.sums[(row + h) * across + column + w]! -
          this.sums[row * across + column + w]! -
          this.sums[(row + h) * across + column]! +
          this.sums[row * across + column]!;
        if (sum === 0) return { x: column * CELL, y: row * CELL };
      }
    return undefined;
  }

  take(x: number, y: number, long: number, wide: number): void {
    const [from, to] = [Math.floor(x / CELL), Math.ceil((x + long) / CELL - 1e-9)];
    const first = Math.floor(y / CELL);
    for (let row = first; row < Math.ceil((y + wide) / CELL - 1e-9); row++)
      this.taken.fill(1, row * this.columns + from, row * this.columns + to);
    this.sum(from, first);
  }

  /** Sums anew what lies to the right of a column and below a row: all else is as it was. */
  private sum(fromColumn: number, fromRow: number): void {
    const { columns, rows, taken, sums } = this;
    const across = columns + 1;
    for (let row = fromRow; row < rows; row++) {
      const [above, here] = [row * across, (row + 1) * across];
      let inRow = sums[here + fromColumn]! - sums[above + fromColumn]!;
      for (let column = fromColumn; column < columns; column++) {
        inRow += taken[row * columns + column]!;
        sums[here + column + 1] = sums[above + column + 1]! + inRow;
      }
    }
  }
}

/** The first column whose middle lies beyond. */
const firstBeyond = (x: number): number => Math.max(0, Math.floor(x / CELL - 0.5) + 1);

/** Where the edges of a hide cross the middles of its rows of cells, from the left; nothing where it is more than can be waited for. */
function* crossingsOf(rings: HideShape['rings'], rows: number): Steps<number[][] | undefined> {
  const crossings = Array.from({ length: rows }, (): number[] => []);
  let count = 0;
  for (const ring of rings)
    for (const [i, [ax, ay]] of ring.entries()) {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      if (++count % AT_ONCE === 0) yield undefined;
      for (let row = Math.max(0, Math.floor(Math.min(ay, by) / CELL - 0.5)); row < rows; row++) {
        const y = (row + 0.5) * CELL;
        if (ay > y !== by > y) {
          if (++count > MOST_ROWS) return undefined;
          if (count % AT_ONCE === 0) yield undefined;
          crossings[row]!.push(ax + ((bx - ax) * (y - ay)) / (by - ay));
        } else if (y > Math.max(ay, by)) break;
      }
    }
  for (const row of crossings) row.sort((a, b) => a - b);
  return crossings;
}

interface Edges extends Pick<HideShape, 'rings'> {
  readonly columns: number;
  readonly rows: number;
  readonly margin: number;
}

/** Takes the cells that lie too near to an edge; false where that would be more than can be waited for. */
function* keptClear(taken: Uint8Array, { columns, rows, rings, margin }: Edges): Steps<boolean> {
  // A cell's corner is this far from its middle, and half a step to either side of a point of the edge is covered with it.
  const near = margin + (CELL * Math.SQRT2) / 2 + CELL / 2;
  const high = (2 * near) / CELL;
  let count = 0;
  let next = AT_ONCE;
  for (const ring of rings)
    for (const [i, [ax, ay]] of ring.entries()) {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / CELL));
      if (count + steps * high > MOST_ROWS) return false;
      for (let k = 0; k < steps; k++) {
        count += high;
        if (count > next) {
          next = count + AT_ONCE;
          yield undefined;
        }
        const [x, y] = [ax + ((bx - ax) * (k + 0.5)) / steps, ay + ((by - ay) * (k + 0.5)) / steps];
        for (let row = Math.max(0, Math.floor((y - near) / CELL)); row < rows && row * CELL <= y + near; row++) {
          const half = Math.sqrt(near ** 2 - ((row + 0.5) * CELL - y) ** 2);
          if (!(half >= 0)) continue;
          const from = Math.max(0, Math.ceil((x - half) / CELL - 0.5));
          const to = Math.min(columns, Math.floor((x + half) / CELL - 0.5) + 1);
          if (from < to) taken.fill(1, row * columns + from, row * columns + to);
        }
      }
    }
  return true;
}

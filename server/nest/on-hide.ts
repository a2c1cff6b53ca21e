import type { Steps } from '../model/steps.ts';
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
}

type Wanted = Pick<Blank, 'id' | 'long' | 'wide' | 'copies' | 'grain' | 'mirrored'>;

/** Side of a cell of the grid, mm: what a blank may lie off the nearest place. */
const CELL = 5;
/** More hides than this are not laid. */
const MOST_HIDES = 50;

/** Copy by copy. */
export function* layOnHides(
  blanks: readonly Wanted[],
  { shape, margin, kerf }: { shape: HideShape; margin: number; kerf: number },
): Steps<LaidHides> {
  const clear = Grid.of(shape, margin);
  const copies = blanks
    .flatMap((blank) => Array.from({ length: Math.min(blank.copies, 5000) }, (_, i) => ({ blank, copy: i + 1 })))
    .sort((a, b) => Math.max(b.blank.long, b.blank.wide) - Math.max(a.blank.long, a.blank.wide));
  const hides: Placement[][] = [];
  const grids: Grid[] = [];
  const unplaced = new Map<string, number>();
  for (const { blank, copy } of copies) {
    yield undefined;
    if (unplaced.has(blank.id)) {
      unplaced.set(blank.id, unplaced.get(blank.id)! + 1);
      continue;
    }
    // A grain is that of the hide, which runs along its back: along its long measure. `up` asks for a quarter turn.
    const turns = blank.grain === 'up' ? [true] : blank.grain === 'across' ? [false] : [false, true];
    let found: { hide: number; x: number; y: number; turned: boolean } | undefined;
    for (let hide = 0; !found && hide < MOST_HIDES; hide++) {
      const isNew = hide === grids.length;
      if (isNew) {
        grids.push(clear.copy());
        hides.push([]);
      }
      const spots = turns.flatMap((turned) => {
        const [long, wide] = turned ? [blank.wide, blank.long] : [blank.long, blank.wide];
        const at = grids[hide]!.firstFor(long + kerf, wide + kerf);
        return at ? [{ ...at, hide, turned }] : [];
      });
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
  return { hides, unplaced };
}

/** Cells that are free, with the sums that tell of a rectangle at once whether it is. */
class Grid {
  private sums: Int32Array;

  private constructor(
    private readonly columns: number,
    private readonly rows: number,
    private readonly taken: Uint8Array,
  ) {
    this.sums = this.summed();
  }

  /** The cells that lie whole in a hide, so far in from its edge. */
  static of({ long, wide, rings }: HideShape, margin: number): Grid {
    const [columns, rows] = [Math.ceil(long / CELL), Math.ceil(wide / CELL)];
    const taken = new Uint8Array(columns * rows);
    for (let row = 0; row < rows; row++) {
      const y = (row + 0.5) * CELL;
      const crossings = rings.flatMap((ring) =>
        ring.flatMap(([ax, ay], i) => {
          const [bx, by] = ring[(i + 1) % ring.length]!;
          return ay > y !== by > y ? [ax + ((bx - ax) * (y - ay)) / (by - ay)] : [];
        }),
      );
      for (let column = 0; column < columns; column++) {
        const x = (column + 0.5) * CELL;
        if (crossings.filter((each) => each < x).length % 2 === 0) taken[row * columns + column] = 1;
      }
    }
    // A cell's corner is this far from its middle.
    const reach = margin + (CELL * Math.SQRT2) / 2;
    for (const ring of rings)
      for (const [i, [ax, ay]] of ring.entries()) {
        const [bx, by] = ring[(i + 1) % ring.length]!;
        const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / CELL));
        for (let k = 0; k < steps; k++) {
          const [x, y] = [ax + ((bx - ax) * (k + 0.5)) / steps, ay + ((by - ay) * (k + 0.5)) / steps];
          // Half a step to either side of the point is covered with it.
          const near = reach + CELL / 2;
          for (let row = Math.max(0, Math.floor((y - near) / CELL)); row < rows && row * CELL <= y + near; row++)
            for (let c = Math.max(0, Math.floor((x - near) / CELL)); c < columns && c * CELL <= x + near; c++)
              if (Math.hypot((c + 0.5) * CELL - x, (row + 0.5) * CELL - y) <= near) taken[row * columns + c] = 1;
        }
      }
    return new Grid(columns, rows, taken);
  }

  copy(): Grid {
    return new Grid(this.columns, this.rows, this.taken.slice());
  }

  /** The free rectangle of this size that lies furthest to the left, and of those furthest up. */
  firstFor(long: number, wide: number): { x: number; y: number } | undefined {
    const [w, h] = [Math.ceil(long / CELL - 1e-9), Math.ceil(wide / CELL - 1e-9)];
    const across = this.columns + 1;
    for (let column = 0; column + w <= this.columns; column++)
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
    for (let row = Math.floor(y / CELL); row < Math.ceil((y + wide) / CELL - 1e-9); row++)
      this.taken.fill(1, row * this.columns + from, row * this.columns + to);
    this.sums = this.summed();
  }

  private summed(): Int32Array {
    const across = this.columns + 1;
    const sums = new Int32Array(across * (this.rows + 1));
    for (let row = 0; row < this.rows; row++) {
      let inRow = 0;
      for (let column = 0; column < this.columns; column++) {
        inRow += this.taken[row * this.columns + column]!;
        sums[(row + 1) * across + column + 1] = sums[row * across + column + 1]! + inRow;
      }
    }
    return sums;
  }
}

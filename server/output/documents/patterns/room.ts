import { flattened } from '../../../geometry/outline/chords.ts';
import type { Path } from '../../../geometry/outline/path.ts';
import { BoxIndex, isTall } from '../../../geometry/outline/span-index.ts';
import { manyByMany, type Steps } from '../../../incremental/steps.ts';
import { type Box, type Point, radians } from './paths.ts';

/** A rectangle about its middle, turned from x, degrees; mm. */
export interface Block {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly high: number;
  readonly turn: number;
}

/** What room a drawing still has for words: nothing written lies over a line or over other words. */
export class Room {
  private readonly taken = new Taken();
  /** Lines that were in the way of the last places tried, the newest first: what is next to a place is seldom free of them. */
  private readonly inTheWay: Chord[] = [];

  private constructor(
    private readonly outline: Chords,
    private readonly lines: Chords,
    /** By their boxes. */
    private readonly holes: { readonly points: readonly (readonly Point[])[]; readonly index: BoxIndex },
  ) {}

  /** What stands in a hole falls out with it. Drawings have tens of thousands of lines: path by path. */
  static *of(outline: Path, lines: readonly Path[], holes: readonly Path[] = []): Steps<Room> {
    const points = yield* manyByMany(holes, (hole) => flattened(hole, WITHIN));
    const index = new BoxIndex(yield* manyByMany(points, boxOfPoints));
    return new Room(yield* Chords.of([{ ...outline, closed: true }]), yield* Chords.of([outline, ...lines]), {
      points,
      index,
    });
  }

  /**
   * Whether the outline is as long along both diagonals of a block as these are: where it is not, no place in it holds the block, and
   * hundreds need not be tried.
   */
  mayHold(size: Omit<Block, 'x' | 'y'>): boolean {
    const [a, b, c, d] = cornersOf({ ...size, x: 0, y: 0 }).points;
    const long = Math.hypot(size.wide, size.high);
    return [
      [a!, c!],
      [b!, d!],
    ].every(
      ([from, to]) => this.outline.reachAlong((to!.x - from!.x) / long, (to!.y - from!.y) / long) > long - ROUNDED,
    );
  }

  take(block: Block): void {
    this.taken.add(cornersOf(block));
  }

  /** Whether a block is clear of everything and, if asked, inside the outline. */
  isFree(block: Block, inside = true): boolean {
    // Thousands of places are tried for one block: what was in the way of one is looked at before anything is made.
    const { x, y } = block;
    const [w, h] = [block.wide / 2, block.high / 2];
    const turn = radians(block.turn);
    // Turned back: as x runs along the block.
    const [cos, sin] = [Math.cos(turn), -Math.sin(turn)];
    const isCrossedBy = (a: Point, b: Point): boolean => {
      const [ax, ay] = [a.x - x, a.y - y];
      const [bx, by] = [b.x - x, b.y - y];
      return crosses(ax * cos - ay * sin, ax * sin + ay * cos, bx * cos - by * sin, bx * sin + by * cos, w, h);
    };
    for (const [i, [a, b]] of this.inTheWay.entries()) {
      if (!isCrossedBy(a, b)) continue;
      // What is in the way of many comes to stand first.
      if (i) this.inTheWay.unshift(...this.inTheWay.splice(i, 1));
      return false;
    }
    const corners = cornersOf(block);
    if (this.taken.overlaps(corners)) return false;
    const box = boxOfPoints(corners.points);
    if (this.holes.index.near(box).some((i) => isWithin(corners, this.holes.points[i]!))) return false;
    const isCrossed = this.lines.some(box, (a, b) => {
      if (!isCrossedBy(a, b)) return false;
      this.inTheWay.unshift([a, b]);
      if (this.inTheWay.length > REMEMBERED) this.inTheWay.pop();
      return true;
    });
    // The outline is one of the lines: where none crosses it, a block lies on one side of it with all its corners.
    return !isCrossed && (!inside || this.outline.winds(corners.points[0]!));
  }
}

/** How far chords may lie off their arcs, mm. */
const WITHIN = 0.2;
/** What a corner may be off, mm. */
const ROUNDED = 1e-6;
/** As many lines as stand about a word. */
const REMEMBERED = 12;
/** Chords side by side that are kept in one box: few enough to look at, and a drawing of curves has a tenth of the boxes. */
const IN_A_RUN = 16;
/** Boxes in one index: making it is a step. */
const IN_AN_INDEX = 8_000;

type Chord = readonly [Point, Point];

/** Straight lines one after the other. */
interface Run {
  readonly points: readonly Point[];
  /** The first and the last of its points. */
  readonly from: number;
  readonly to: number;
}

/** Lines as chords, by where they lie. */
class Chords {
  /** Whether a ray upwards meets fewer of them than one to the right, as among the teeth of a comb. */
  private looksUp: boolean | undefined;

  private constructor(private readonly parts: readonly { readonly runs: readonly Run[]; readonly index: BoxIndex }[]) {}

  static *of(paths: readonly Path[]): Steps<Chords> {
    const parts: { runs: Run[]; index: BoxIndex }[] = [];
    let runs: Run[] = [];
    let boxes: Box[] = [];
    const finish = () => {
      const index = new BoxIndex(boxes);
      if (boxes.length) parts.push({ runs, index });
      if (boxes.length > BoxIndex.FEW) index.indexed();
      [runs, boxes] = [[], []];
    };
    let count = 0;
    for (const path of paths) {
      const points = flattened(path, WITHIN);
      if (path.closed && points[0]) points.push(points[0]);
      for (let from = 0; from < points.length - 1; from += IN_A_RUN) {
        const to = Math.min(points.length - 1, from + IN_A_RUN);
        runs.push({ points, from, to });
        boxes.push(boxOfPoints(points, from, to));
        if (boxes.length === IN_AN_INDEX) {
          yield undefined;
          finish();
          yield undefined;
        } else if (++count % RUNS_AT_ONCE === 0) yield undefined;
      }
    }
    finish();
    return new Chords(parts);
  }

  /** Whether something holds for one of those that touch a box. */
  some(box: Box, holds: (a: Point, b: Point) => boolean): boolean {
    const [left, right] = [box.left - ROUNDED, box.right + ROUNDED];
    const [bottom, top] = [box.bottom - ROUNDED, box.top + ROUNDED];
    for (const { runs, index } of this.parts) {
      for (const i of index.near(box, ROUNDED)) {
        const { points, from, to } = runs[i]!;
        for (let j = from; j < to; j++) {
          const [a, b] = [points[j]!, points[j + 1]!];
          if ((a.x > right && b.x > right) || (a.x < left && b.x < left)) continue;
          if ((a.y > top && b.y > top) || (a.y < bottom && b.y < bottom)) continue;
          if (holds(a, b)) return true;
        }
      }
    }
    return false;
  }

  /** How far they reach along a way, mm. */
  reachAlong(dx: number, dy: number): number {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { runs } of this.parts)
      for (const { points, from, to } of runs)
        for (let i = from; i <= to; i++) {
          const { x, y } = points[i]!;
          const at = x * dx + y * dy;
          if (at < least) least = at;
          if (at > most) most = at;
        }
    return most - least;
  }

  /** Whether they, as closed outlines, have a point inside: a ray from it meets them an odd number of times. */
  winds({ x, y }: Point): boolean {
    this.looksUp ??= isTall(this.parts.flatMap(({ index }) => index.boxes));
    const ray = this.looksUp
      ? { left: x, right: x, bottom: y, top: Number.POSITIVE_INFINITY }
      : { left: x, right: Number.POSITIVE_INFINITY, bottom: y, top: y };
    let within = false;
    for (const { runs, index } of this.parts) {
      for (const i of index.near(ray)) {
        const { points, from, to } = runs[i]!;
        for (let j = from; j < to; j++) {
          const [a, b] = [points[j]!, points[j + 1]!];
          if (this.looksUp ? crossesRay(a.y, a.x, b.y, b.x, y, x) : crossesRay(a.x, a.y, b.x, b.y, x, y))
            within = !within;
        }
      }
    }
    return within;
  }
}

const RUNS_AT_ONCE = 500;

/** Blocks that are taken, by squares that they lie in: one asks thousands of times, and each time of few. */
class Taken {
  private readonly squares = new Map<number, Corners[]>();

  add(corners: Corners): void {
    for (const square of squaresOf(corners)) {
      const have = this.squares.get(square);
      if (have) have.push(corners);
      else this.squares.set(square, [corners]);
    }
  }

  overlaps(corners: Corners): boolean {
    if (!this.squares.size) return false;
    for (const square of squaresOf(corners))
      if (this.squares.get(square)?.some((other) => overlap(corners, other))) return true;
    return false;
  }
}

function* squaresOf({ points }: Corners): Generator<number> {
  const { left, right, bottom, top } = boxOfPoints(points);
  for (let i = Math.floor(left / SQUARE); i <= right / SQUARE; i++)
    for (let j = Math.floor(bottom / SQUARE); j <= top / SQUARE; j++) yield i * MOST_SQUARES + j;
}

/** More than lie one above the other on any sheet. */
const MOST_SQUARES = 1e6;
/** mm: a label is a few of them long. */
const SQUARE = 25;

function boxOfPoints(points: readonly Point[], from = 0, to = points.length - 1): Box {
  const first = points[from] ?? { x: 0, y: 0 };
  let [left, right, bottom, top] = [first.x, first.x, first.y, first.y];
  for (let i = from + 1; i <= to; i++) {
    const { x, y } = points[i]!;
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < bottom) bottom = y;
    if (y > top) top = y;
  }
  return { left, right, bottom, top };
}

/** Whether a line passes through the rectangle of these half measures about the origin. */
function crosses(ax: number, ay: number, bx: number, by: number, w: number, h: number): boolean {
  let [from, to] = [0, 1];
  for (const [at, way, half] of [
    [ax, bx - ax, w],
    [ay, by - ay, h],
  ] as const) {
    if (Math.abs(way) < 1e-12) {
      if (Math.abs(at) > half) return false;
      continue;
    }
    const [one, other] = [(-half - at) / way, (half - at) / way];
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
    if (from > to) return false;
  }
  return true;
}

/** A block by its corners, with the two ways that its sides run and how far it reaches from its middle. */
interface Corners {
  readonly block: Block;
  readonly points: readonly Point[];
  readonly ways: readonly [Point, Point];
  readonly reach: number;
}

function cornersOf(block: Block): Corners {
  const { x, y, wide, high, turn } = block;
  const [cos, sin] = [Math.cos(radians(turn)), Math.sin(radians(turn))];
  const [w, h] = [wide / 2, high / 2];
  const corner = (u: number, v: number): Point => ({ x: x + u * cos - v * sin, y: y + u * sin + v * cos });
  return {
    block,
    points: [corner(-w, -h), corner(w, -h), corner(w, h), corner(-w, h)],
    ways: [
      { x: cos, y: sin },
      { x: -sin, y: cos },
    ],
    reach: Math.hypot(w, h),
  };
}

function isWithin({ points }: Corners, outline: readonly Point[]): boolean {
  return points.every(({ x, y }) => {
    let within = false;
    for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
      const [a, b] = [outline[i]!, outline[j]!];
      if (crossesRay(a.x, a.y, b.x, b.y, x, y)) within = !within;
    }
    return within;
  });
}

/** Whether a line crosses the ray from a point to its right. */
const crossesRay = (ax: number, ay: number, bx: number, by: number, x: number, y: number): boolean =>
  ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax;

/** Two blocks lie over each other unless a side of one parts them. */
function overlap(one: Corners, other: Corners): boolean {
  const reach = one.reach + other.reach;
  const [dx, dy] = [one.block.x - other.block.x, one.block.y - other.block.y];
  if (dx * dx + dy * dy > reach * reach) return false;
  return !partedBy(one.ways, one, other) && !partedBy(other.ways, one, other);
}

function partedBy(ways: readonly Point[], one: Corners, other: Corners): boolean {
  return ways.some((way) => {
    const [a, b] = [along(one.points, way), along(other.points, way)];
    return !(a.least < b.most && b.least < a.most);
  });
}

/** How far some points reach along a way. */
function along(points: readonly Point[], way: Point): { least: number; most: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { x, y } of points) {
    const at = x * way.x + y * way.y;
    if (at < least) least = at;
    if (at > most) most = at;
  }
  return { least, most };
}

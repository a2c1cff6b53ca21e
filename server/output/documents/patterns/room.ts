import { flattened } from '../../../geometry/outline/chords.ts';
import type { Path } from '../../../geometry/outline/path.ts';
import { type Point, radians } from './paths.ts';

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
  private readonly segments: (readonly [Point, Point])[] = [];
  private readonly taken: Corners[] = [];
  private readonly outline: readonly Point[];
  private readonly holes: readonly (readonly Point[])[];

  /** What stands in a hole falls out with it. */
  constructor(outline: Path, lines: readonly Path[], holes: readonly Path[] = []) {
    this.outline = flattened(outline, 0.2);
    this.holes = holes.map((hole) => flattened(hole, 0.2));
    for (const path of [outline, ...lines]) {
      const points = flattened(path, 0.2);
      if (path.closed) points.push(points[0]!);
      for (let i = 1; i < points.length; i++) this.segments.push([points[i - 1]!, points[i]!]);
    }
  }

  take(block: Block): void {
    this.taken.push(cornersOf(block));
  }

  /** Whether a block is clear of everything and, if asked, inside the outline. */
  isFree(block: Block, inside = true): boolean {
    // Thousands of places are tried for one block: its corners are found once.
    const corners = cornersOf(block);
    if (inside && !isWithin(corners, this.outline)) return false;
    if (this.holes.some((hole) => isWithin(corners, hole))) return false;
    if (this.taken.some((other) => overlap(corners, other))) return false;
    const { reach, ways } = corners;
    const [w, h] = [block.wide / 2, block.high / 2];
    // Turned back: as x runs along the block.
    const [cos, sin] = [ways[0].x, -ways[0].y];
    return !this.segments.some(([a, b]) => {
      if (Math.min(a.x, b.x) > block.x + reach || Math.max(a.x, b.x) < block.x - reach) return false;
      if (Math.min(a.y, b.y) > block.y + reach || Math.max(a.y, b.y) < block.y - reach) return false;
      const [ax, ay] = [a.x - block.x, a.y - block.y];
      const [bx, by] = [b.x - block.x, b.y - block.y];
      return crosses(ax * cos - ay * sin, ax * sin + ay * cos, bx * cos - by * sin, bx * sin + by * cos, w, h);
    });
  }
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
      if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) within = !within;
    }
    return within;
  });
}

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

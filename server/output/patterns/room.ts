import { flattened } from '../../trade/outline/flatten.ts';
import type { Path } from '../../trade/outline/path.ts';
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
  private readonly blocks: Block[] = [];
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
    this.blocks.push(block);
  }

  /** Whether a block is clear of everything and, if asked, inside the outline. */
  isFree(block: Block, inside = true): boolean {
    if (inside && !isWithin(block, this.outline)) return false;
    if (this.holes.some((hole) => isWithin(block, hole))) return false;
    if (this.blocks.some((other) => overlap(block, other))) return false;
    const cos = Math.cos(radians(-block.turn));
    const sin = Math.sin(radians(-block.turn));
    const [w, h] = [block.wide / 2, block.high / 2];
    const reach = Math.hypot(w, h);
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

const cornersOf = ({ x, y, wide, high, turn }: Block): Point[] => {
  const [cos, sin] = [Math.cos(radians(turn)), Math.sin(radians(turn))];
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([i, j]) => {
    const [u, v] = [(i! * wide) / 2, (j! * high) / 2];
    return { x: x + u * cos - v * sin, y: y + u * sin + v * cos };
  });
};

function isWithin(block: Block, outline: readonly Point[]): boolean {
  return cornersOf(block).every(({ x, y }) => {
    let within = false;
    for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
      const [a, b] = [outline[i]!, outline[j]!];
      if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) within = !within;
    }
    return within;
  });
}

/** Two blocks lie over each other unless a side of one parts them. */
function overlap(one: Block, other: Block): boolean {
  const all = [cornersOf(one), cornersOf(other)] as const;
  return [one, other].every(({ turn }) =>
    [0, 90].every((more) => {
      const [cos, sin] = [Math.cos(radians(turn + more)), Math.sin(radians(turn + more))];
      const [a, b] = all.map((corners) => corners.map(({ x, y }) => x * cos + y * sin));
      return Math.min(...a!) < Math.max(...b!) && Math.min(...b!) < Math.max(...a!);
    }),
  );
}

import type { Steps } from '../../incremental/steps.ts';
import { apart, cross, dot, minus, plus, size, unit, type Vector } from '../surface/vector.ts';
import { after, type Motion, moved, turned, turnedAbout, undone } from './motion.ts';
import { type Nearest, nearestBetween } from './nearest.ts';
import type { Mesh, MeshTree } from './tree.ts';

/** A line about which something turns. */
export interface Axis {
  readonly point: Vector;
  /** Unit. */
  readonly along: Vector;
}

/** How far a point lies from a line, mm. */
const awayFrom = ({ point, along }: Axis, at: Vector): number => size(cross(minus(at, point), along));

/** Something that turns, and something that it could meet: both by the middle of their thickness, in a frame of their own. */
export interface Encounter {
  readonly still: MeshTree;
  readonly stillAt: Motion;
  readonly turning: MeshTree;
  readonly turningAt: Motion;
  /** How far apart the middles are where the faces touch: half of both thicknesses, mm. */
  readonly touching: number;
}

/** How near the faces come: where, at which angle, and which encounter of the list it is. */
export interface Closest {
  /** mm between the faces; below nought they run into each other. */
  readonly clear: number;
  readonly which: number;
  /** On the middle of what stands still, in the frame of both. */
  readonly at: Vector;
  /** rad */
  readonly angle: number;
}

/** What comes of turning from one angle as far as another. */
export interface Swept {
  /** The least room before metal meets metal, or at that angle; nothing where there is nothing to meet. */
  readonly least?: Closest;
  /** Where metal first meets metal; nothing where it goes all the way. */
  readonly stop?: Closest;
  readonly looks: number;
}

/**
 * Turns what can turn from an angle to another, rad, until it meets something. Steps are as long as the room that is left allows,
 * one degree at most and a quarter at least, and the angle of touching is found by halves to a fiftieth of a degree.
 *
 * Range: what is thinner than a quarter of a degree is wide there, with both its thicknesses, could be jumped over: 1 mm at 230 mm from
 * the axis. Who wants the stop alone is told of no room that is further than a step away. Source: no point moves further than its distance from the axis times the angle (derived).
 */
export function* sweptInSteps(
  axis: Axis,
  encounters: readonly Encounter[],
  from: number,
  to: number,
  wants: 'stop' | 'least' = 'least',
): Steps<Swept> {
  const reach = encounters.reduce((most, { turning, turningAt }) => {
    const back = undone(turningAt);
    const own = { point: moved(back, axis.point), along: turned(back, axis.along) };
    return Math.max(most, reachAbout(own, turning).away[1]);
  }, 1);
  const way = Math.sign(to - from);
  const pairs: (readonly [number, number] | undefined)[] = [];
  let looks = 0;
  let least: Closest | undefined;
  /** The closest at an angle, of what comes nearer than `under`. */
  const look = (angle: number, under: number): Closest | undefined => {
    looks++;
    const turn = turnedAbout(axis.point, axis.along, angle);
    let found: Closest | undefined;
    for (const [which, { still, stillAt, turning, turningAt, touching }] of encounters.entries()) {
      const within = touching + (found ? Math.min(found.clear, under) : under);
      const nearest: Nearest | undefined = nearestBetween(
        still,
        turning,
        after(undone(stillAt), after(turn, turningAt)),
        { within, first: pairs[which], slack: SLACK },
      );
      if (!nearest) continue;
      pairs[which] = nearest.pair;
      found = { clear: nearest.apart - touching, which, at: moved(stillAt, nearest.one), angle };
    }
    return found;
  };
  let before = from;
  for (let angle = from; ; ) {
    yield undefined;
    // What is further away than this is no news, and does not shorten the step either.
    const far = Math.max(wants === 'stop' ? 0 : (least?.clear ?? Number.POSITIVE_INFINITY), LONGEST * reach);
    const found = look(angle, far);
    if (found && !(found.clear >= (least?.clear ?? Number.POSITIVE_INFINITY))) least = found;
    if (found && found.clear <= 0) {
      let [free, meets, stop] = [before, angle, found];
      while (Math.abs(meets - free) > FINE) {
        yield undefined;
        const middle = (free + meets) / 2;
        const between = look(middle, 0);
        if (between && between.clear <= 0) [meets, stop] = [middle, between];
        else free = middle;
      }
      const touch = { ...stop, clear: Math.min(0, stop.clear) };
      return { least: touch, stop: touch, looks };
    }
    if (angle === to || way === 0) return { ...(least ? { least } : {}), looks };
    before = angle;
    const room = found ? found.clear / reach : LONGEST;
    const next = angle + way * Math.min(LONGEST, Math.max(SHORTEST, room));
    angle = way * (to - next) <= 0 ? to : next;
  }
}

const DEGREE = Math.PI / 180;
const LONGEST = DEGREE;
const SHORTEST = DEGREE / 4;
const FINE = DEGREE / 50;
/** To so much the room is told, mm. */
const SLACK = 0.02;

/** Where a mesh lies about a line: how far away from it, and how far along it, mm. */
export interface Reach {
  readonly away: readonly [least: number, most: number];
  readonly along: readonly [least: number, most: number];
}

/** Exact, of the triangles. */
export function reachAbout(axis: Axis, { positions, corners }: MeshTree): Reach {
  let [near, far, low, high] = [Infinity, 0, Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    const at: Vector = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    const [away, along] = [awayFrom(axis, at), dot(minus(at, axis.point), axis.along)];
    far = Math.max(far, away);
    low = Math.min(low, along);
    high = Math.max(high, along);
  }
  for (let i = 0; i < corners.length; i += 3) {
    const points = [0, 1, 2].map((k): Vector => {
      const at = 3 * corners[i + k]!;
      return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
    });
    near = Math.min(near, awayFromTriangle(axis, points));
  }
  return { away: [near, far], along: [low, high] };
}

/** The part of a mesh that lies further than so from a line: triangles that reach across are cut along it. */
export function clearOf({ positions, triangles }: Mesh, axis: Axis, radius: number): Mesh {
  const points: Vector[] = [];
  for (let i = 0; i < positions.length; i += 3) points.push([positions[i]!, positions[i + 1]!, positions[i + 2]!]);
  const kept: number[] = [];
  const open: (readonly [a: number, b: number, c: number])[] = [];
  for (let i = 0; i < triangles.length; i += 3) open.push([triangles[i]!, triangles[i + 1]!, triangles[i + 2]!]);
  const isOut = (i: number) => awayFrom(axis, points[i]!) >= radius;
  const between = (i: number, j: number, share: number) =>
    points.push(plus(points[i]!, minus(points[j]!, points[i]!), share)) - 1;
  for (let next = open.pop(); next; next = open.pop()) {
    const corners = next.map((i) => points[i]!);
    const [a, b, c] = next;
    if (awayFromTriangle(axis, corners) >= radius) {
      kept.push(a, b, c);
      continue;
    }
    // The longest side is halved until the line cannot run through unseen between the corners.
    const sides = [0, 1, 2].map((k) => apart(corners[k]!, corners[(k + 1) % 3]!));
    const k = sides.indexOf(Math.max(...sides));
    const out = next.map(isOut);
    const [p, q, r] = [next[k]!, next[(k + 1) % 3]!, next[(k + 2) % 3]!];
    if (sides[k]! > 2 * radius && !(out.some((each) => !each) && isAlong(axis, corners[k]!, corners[(k + 1) % 3]!))) {
      const middle = between(p, q, 0.5);
      open.push([p, middle, r], [middle, q, r]);
      continue;
    }
    // What is left of it is cut straight across.
    const rim = next.flatMap((from, i) => {
      const to = next[(i + 1) % 3]!;
      const own = out[i] ? [from] : [];
      return out[i] === out[(i + 1) % 3]
        ? own
        : [...own, between(from, to, crossingShare(axis, points[from]!, points[to]!, radius))];
    });
    for (let i = 2; i < rim.length; i++) kept.push(rim[0]!, rim[i - 1]!, rim[i]!);
  }
  return { positions: Float64Array.from(points.flat()), triangles: Uint32Array.from(kept) };
}

/** Whether a side runs nearly along the line: however long it is, its ends say how near it comes. */
const isAlong = ({ along }: Axis, from: Vector, to: Vector): boolean =>
  Math.abs(dot(unit(minus(to, from)), along)) > 0.999;

/** Where a side that begins on the one hand of so far away ends on the other. */
function crossingShare(axis: Axis, from: Vector, to: Vector, radius: number): number {
  const isOut = awayFrom(axis, from) >= radius;
  let [low, high] = [0, 1];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (awayFrom(axis, plus(from, minus(to, from), middle)) >= radius === isOut) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The least distance of a triangle from a line: seen along the line, of a triangle from a point. */
function awayFromTriangle({ point, along }: Axis, corners: readonly Vector[]): number {
  const right = unit(cross(Math.abs(along[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0], along));
  const up = cross(along, right);
  const flat = corners.map((corner) => {
    const from = minus(corner, point);
    return [dot(from, right), dot(from, up)] as const;
  });
  let least = Number.POSITIVE_INFINITY;
  let [left, rightward] = [false, false];
  for (const [i, [x, y]] of flat.entries()) {
    const [x2, y2] = flat[(i + 1) % 3]!;
    const [dx, dy] = [x2 - x, y2 - y];
    const long = dx * dx + dy * dy;
    const share = long > 0 ? Math.min(1, Math.max(0, -(x * dx + y * dy) / long)) : 0;
    least = Math.min(least, Math.hypot(x + share * dx, y + share * dy));
    const turn = x * y2 - y * x2;
    if (turn > 0) left = true;
    if (turn < 0) rightward = true;
  }
  // All round it on one side: the line goes through.
  return left === rightward ? least : 0;
}

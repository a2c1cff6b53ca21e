import { after, type Motion, moved, undone } from '../../geometry/motion/motion.ts';
import { crossingsBetween, nearestTo } from '../../geometry/motion/nearest.ts';
import { apart, dot, minus, plus, type Vector } from '../../geometry/surface/vector.ts';
import { Dear, pause, Recent, type Steps } from '../../incremental/steps.ts';
import { broughtTo } from '../figures/brought.ts';
import { NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import { gathered } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { HingeModel } from '../things/hinge.ts';
import type { PieceModel } from '../things/piece.ts';
import type { SeamModel } from '../things/seam.ts';
import { bodyName, frameOf } from './body.ts';
import { greatestOf, misfitsOf } from './misfit.ts';
import { groupOf, type PlacedBody, placedGroup, unitMotion } from './pose.ts';
import { type Row, rowOn } from './row.ts';
import { overlapOf } from './seat.ts';
import { meet, roomOf, type Solid, solidOf } from './solid.ts';

/*
 * Where the metal of one placed plate runs through that of another. Near a row that joins them they may lie in each other: what their
 * edges leave open there is the misfit of the seam.
 */

export interface Through {
  readonly one: PieceModel;
  readonly other: PieceModel;
  readonly names: readonly [string, string];
  /** How deep metal lies in metal, mm: half of both thicknesses, and how far the lesser part stands out on the other side. */
  readonly deep: number;
  /** Where, in the frame of the group. */
  readonly at: Vector;
}

/** Pairs whose metal runs through each other by more than a thickness, each told by the piece that comes first. */
export const throughs = gathered('piece', (piece, model): readonly Through[] => throughAt(piece, model));

/** More plates than this that hang together are not looked at: nobody builds one, and it would take long at every key. */
export const MOST_LOOKED_AT = 48;

function throughAt(piece: PieceModel, model: Model): readonly Through[] {
  const frame = frameOf(piece, '');
  const group = typeof frame === 'string' ? undefined : groupOf(model).get(frame.unit);
  if (!group || group.bodies.length < 2 || group.bodies.length > MOST_LOOKED_AT) return [];
  const { bodies } = placedGroup(model, group);
  return bodies.flatMap((one, i) => {
    if (one.body.piece !== piece) return [];
    const room = roomOf(one);
    return bodies.slice(i + 1).flatMap((other): Through[] => {
      const its = room && roomOf(other);
      if (!its || !meet(room, its) || lieOnEachOther(one, other)) return [];
      const found = throughBy(model, one, other);
      // Each pair is kept: who is asked again need not begin anew.
      pause();
      return found ? [found] : [];
    });
  });
}

/** Strips and combs are hammered down to the plate that they follow, and copies of one piece meet along its own edges. */
function lieOnEachOther({ body: { piece } }: PlacedBody, { body: { piece: other } }: PlacedBody): boolean {
  if (piece === other) return true;
  const follows = (own: PieceModel, neighbour: PieceModel) => {
    const form = own.form();
    const followed = form ? kindOf(form).follows(form) : NONE;
    return followed !== NONE && own.model.pieceOf(followed.neighbour) === neighbour;
  };
  return follows(piece, other) || follows(other, piece);
}

/** Where two plates are joined, and how far from there they may lie in each other. */
interface Joined {
  readonly points: readonly Vector[];
  readonly within: number;
}

function throughBy(model: Model, one: PlacedBody, other: PlacedBody): Through | undefined {
  const [a, b] = [solidOf(one), solidOf(other)];
  if (!a || !b) return undefined;
  const key = JSON.stringify([a.id, b.id, a.motion, b.motion, a.half, b.half]);
  const crossings = crossed.get(key, () => crossingsOf(a, b));
  if (!crossings.length) return undefined;
  // Dear, and seldom wanted: only where they do cross.
  const rows = [
    ...seamsJoining(one.body.piece, other.body.piece).map((seam) => joinedAlong(model, seam, one, other)),
    ...hingesJoining(model, one.body.piece, other.body.piece).map((hinge) => hungAlong(model, hinge, one, other)),
  ];
  // Where they are joined nobody has said: what they do there cannot be told from a fault.
  if (rows.some((row) => !row)) return undefined;
  const joined = rows.filter((row) => row !== undefined);
  const { found } = depths.get(`${key} ${JSON.stringify(joined)}`, () => deepestInSteps(a, b, crossings, joined));
  const [thin, thick] = [Math.min(a.half, b.half) * 2, Math.max(a.half, b.half) * 2];
  if (!found || !(thin > 0) || !(found.deep > thick + FACETS)) return undefined;
  return {
    one: one.body.piece,
    other: other.body.piece,
    names: [bodyName(one.body), bodyName(other.body)],
    ...found,
  };
}

/** What flat triangles in place of a curved plate may make of two that lie close, mm. */
const FACETS = 0.3;

type Found = Pick<Through, 'deep' | 'at'> | undefined;

/** A stretch where they cross, by its middle in the frame of the group. */
interface Stretch {
  readonly at: Vector;
  readonly long: number;
}

const crossed = new Recent<readonly Stretch[]>(1024);
const depths = new Dear<{ readonly found: Found }>(128);

const crossingsOf = (a: Solid, b: Solid): readonly Stretch[] =>
  crossingsBetween(a.tree, b.tree, after(undone(a.motion), b.motion)).map(({ from, to }) => ({
    at: moved(a.motion, plus(from, minus(to, from), 0.5)),
    long: apart(from, to),
  }));

function* deepestInSteps(
  a: Solid,
  b: Solid,
  all: readonly Stretch[],
  joined: readonly Joined[],
): Steps<{ readonly found: Found }> {
  const isFree = (at: Vector) =>
    joined.every(({ points, within }) => points.every((point) => apart(point, at) > within));
  const crossings = all.filter(({ at }) => isFree(at));
  if (!crossings.length) return { found: undefined };
  const long = crossings.reduce((sum, crossing) => sum + crossing.long, 0) || 1;
  const middle = crossings.reduce<Vector>((sum, crossing) => plus(sum, crossing.at, crossing.long / long), [0, 0, 0]);
  // A place where they do cross, nearest to the middle of all.
  const { at } = crossings.reduce((best, each) => (apart(each.at, middle) < apart(best.at, middle) ? each : best));
  const motion = after(undone(a.motion), b.motion);
  const lesser = Math.max(yield* depthInSteps(a, b, motion, isFree), yield* depthInSteps(b, a, undone(motion), isFree));
  return { found: { deep: a.half + b.half + lesser, at } };
}

/** How far the lesser part of the second plate stands out on its side of the first, mm. */
function* depthInSteps(first: Solid, second: Solid, motion: Motion, isFree: (at: Vector) => boolean): Steps<number> {
  const { normals } = first.tree;
  const { positions } = second.tree;
  let [outside, inside] = [0, 0];
  for (let i = 0; i < positions.length; i += 3) {
    if (i % AT_A_TIME === 0) yield undefined;
    const point = moved(motion, [positions[i]!, positions[i + 1]!, positions[i + 2]!]);
    const near = nearestTo(first.tree, point, DEEPEST);
    if (!near || !(near.apart > 0)) continue;
    const t = 3 * near.pair[0];
    const out = dot(minus(point, near.one), [normals[t]!, normals[t + 1]!, normals[t + 2]!]);
    // Beside the plate, not before or behind it.
    if (Math.abs(out) < SQUARE * near.apart || !isFree(moved(first.motion, point))) continue;
    if (out > 0) outside = Math.max(outside, out);
    else inside = Math.max(inside, -out);
  }
  return Math.min(outside, inside);
}
/** Numbers of vertices that are looked at between two stops. */
const AT_A_TIME = 300;
/** Deeper than this is deep enough, mm. */
const DEEPEST = 60;
/** Least cosine of what lies straight before a face; its edges see the rest. */
const SQUARE = 0.8;

/** The seams that join two pieces. */
function seamsJoining(one: PieceModel, other: PieceModel): readonly SeamModel[] {
  const its = new Set(seamsOf(other));
  return seamsOf(one).filter(
    (seam) =>
      its.has(seam) &&
      seam.stacks().some(({ layers }) => [one, other].every((piece) => layers.some((layer) => layer.piece === piece))),
  );
}

/** Each by the plates of its stacks. */
const seamsOf = broughtTo('seam', (seam) =>
  seam.stacks().flatMap(({ layers }) => layers.flatMap(({ piece }) => piece ?? [])),
);

const hingesJoining = (model: Model, one: PieceModel, other: PieceModel): readonly HingeModel[] =>
  model.hinges().filter((hinge) => [one, other].every((piece) => hinge.leaves().some((leaf) => leaf.piece === piece)));

/** Along the edges of both leaves, as far as the knuckles reach. */
function hungAlong(model: Model, hinge: HingeModel, one: PlacedBody, other: PlacedBody): Joined | undefined {
  const points = pointsOf(
    model,
    [one, other].flatMap(({ body: { piece, copy } }) =>
      hinge
        .leaves()
        .flatMap((leaf) => (leaf.piece === piece ? [rowOn({ ...leaf, line: hinge.line('joins')! }, copy)] : [])),
    ),
  );
  const thick = Math.max(one.body.piece.thickness() ?? 0, other.body.piece.thickness() ?? 0);
  return points.length ? { points, within: (hinge.barrel(thick) ?? thick) + thick + MARGIN / 2 } : undefined;
}

/** Stations of rows in the frame of their group. */
const pointsOf = (model: Model, rows: readonly (Row | string)[]): Vector[] =>
  rows.flatMap((row) => {
    const unit = typeof row === 'string' ? undefined : unitMotion(model, row.unit);
    if (typeof row === 'string' || !unit) return [];
    return Array.from({ length: STATIONS + 1 }, (_, i) => row.at(i / STATIONS, 0)).flatMap((station) =>
      station ? [moved(unit.motion, station.point)] : [],
    );
  });

/** The row of a seam where two of its plates stand, and how far from it they may lie in each other; nothing where no row is known. */
function joinedAlong(model: Model, seam: SeamModel, one: PlacedBody, other: PlacedBody): Joined | undefined {
  const points = pointsOf(
    model,
    [one, other].flatMap(({ body: { piece, copy } }) =>
      seam.along().flatMap((along) => (along.piece === piece ? [rowOn(along, copy)] : [])),
    ),
  );
  if (!points.length) return undefined;
  const between = points.slice(1).reduce((most, point, i) => Math.max(most, apart(points[i]!, point)), 0);
  const lap = overlapOf(seam) ?? 2 * (seam.rivetsLine() ? (seam.inset() ?? 0) : 0);
  const thick = [one, other].reduce((sum, { body }) => sum + (body.piece.thickness() ?? 0), 0);
  const gap = greatestOf(misfitsOf(seam));
  return { points, within: lap + thick + gap + Math.min(between, lap + MARGIN) / 2 };
}
const STATIONS = 48;
/** mm */
const MARGIN = 10;

import { cross, dot, minus, plus, size, type Vector } from '../../geometry/surface/vector.ts';
import { kindOf } from '../forms/index.ts';
import type { PieceModel } from '../things/piece.ts';
import type { Link, Meeting } from './link.ts';
import type { Misfit } from './misfit.ts';

/*
 * A thin sheet bends easily along its rulings and hardly in itself. So what two joined edges leave open has two parts: what bending
 * takes up, and what only the hammer does.
 */

/** How one of two pieces can be bent to meet the other. */
export interface Bent {
  readonly piece: PieceModel;
  /** Which way; round a closed row both, by turns. */
  readonly way: 'tighter' | 'flatter' | 'both';
}

/**
 * The piece that can be bent cold to the other's edge; nothing where neither can. The rows must be as long as each other, which the
 * caller judges. A plate that is only rolled or flat keeps how its edge turns in the sheet: it can follow any curve that turns more
 * (differential geometry: the curvature of a line on a surface is never less than its geodesic curvature, and bending keeps that).
 */
export function bentOf(link: Link, misfit: Misfit): Bent | undefined {
  const { one, other, meetings } = link;
  for (const [piece, own, goal] of [
    [other.piece, (each: Meeting) => each.other, (each: Meeting) => each.one],
    [one.piece, (each: Meeting) => each.one, (each: Meeting) => each.other],
  ] as const) {
    if (!isRolled(piece)) continue;
    const follows = neighbours(meetings, link.isClosed).every(([a, b, c]) => {
      const wanted = size(bendAt(goal(a).point, goal(b).point, goal(c).point));
      const { inward, normal } = own(b);
      const has = bendAt(own(a).point, own(b).point, own(c).point);
      const ahead = minus(own(c).point, own(a).point);
      const inSheet = Math.abs(dot(has, inward ?? unitAcross(normal, ahead)));
      return wanted >= inSheet * LEAST_SHARE - NO_BEND;
    });
    if (!follows) continue;
    const sign = piece === other.piece ? 1 : -1;
    return { piece, way: wayOf(misfit, sign) };
  }
  return undefined;
}

/** A plate that is flat, or rolled from the flat, stays as thick as it was and bends along straight lines. */
function isRolled(piece: PieceModel): boolean {
  const form = piece.form();
  return form !== undefined && kindOf(form).keepsThickness(form) && !piece.isWorked() && !piece.cutForm();
}

/** Curvatures from three stations are good to about so much. */
const LEAST_SHARE = 0.9;
/** Flatter than this is flat, 1/mm. */
const NO_BEND = 1e-4;

const unitAcross = (normal: Vector, ahead: Vector): Vector => {
  const across = cross(normal, ahead);
  return plus([0, 0, 0], across, 1 / (size(across) || 1));
};

function neighbours(all: readonly Meeting[], isClosed: boolean): (readonly [Meeting, Meeting, Meeting])[] {
  const n = all.length;
  const at = (i: number) => all[(i + n) % n]!;
  return all.flatMap((each, i) => (isClosed || (i > 0 && i < n - 1) ? [[at(i - 1), each, at(i + 1)] as const] : []));
}

/** Towards the middle of the circle through three points, as long as its curvature, 1/mm. */
function bendAt(a: Vector, b: Vector, c: Vector): Vector {
  const [to, from] = [minus(c, b), minus(b, a)];
  const [p, q, r] = [size(to), size(from), size(minus(c, a))];
  if (!(p * q * r > 0)) return [0, 0, 0];
  const turn = cross(from, to);
  // At right angles to the chord, in the plane of the three.
  const chord = minus(c, a);
  const inward = cross(turn, chord);
  const long = size(inward);
  return long > 0 ? plus([0, 0, 0], inward, (2 * size(turn)) / (p * q * r) / long) : [0, 0, 0];
}

/** `sign` is 1 for the second piece, which must come out where the first lies outside it. */
function wayOf({ gaps, isClosed }: Misfit, sign: 1 | -1): Bent['way'] {
  if (isClosed) return 'both';
  const mean = (of: (share: number) => boolean) => {
    const some = gaps.filter(({ share }) => of(share));
    return some.reduce((sum, { outside }) => sum + outside, 0) / (some.length || 1);
  };
  const [low, high] = [gaps[0]!.share, gaps.at(-1)!.share];
  const off = (share: number) => Math.abs((2 * (share - low)) / (high - low || 1) - 1);
  const stands = sign * (mean((share) => off(share) < 1 / 3) - mean((share) => off(share) > 2 / 3));
  return stands > 0 ? 'tighter' : 'flatter';
}

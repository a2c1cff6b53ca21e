import { say } from '../../../l10n/say.ts';
import type { Spot } from '../../geometry/surface/chart.ts';
import { cross, minus, size, unit, type Vector } from '../../geometry/surface/vector.ts';
import { directionOut } from '../../geometry/surface/walk.ts';
import { overlapNeeded } from '../../trade/joint/joint.ts';
import { dutyLimit } from '../../trade/usual/duty.ts';
import { rulebook } from '../figures/rulebook.ts';
import { ofThing } from '../per-spec.ts';
import { placeOfLine } from '../shapes/places.ts';
import { homeOf } from '../spec.ts';
import { JOINT_SIDES, type JointModel, type JointPair, type JointRivets, type JointSide } from '../things/joint.ts';
import type { PieceModel } from '../things/piece.ts';
import { besideEdge, endOf, onMiddle, type PlateEnd } from './plate-end.ts';

/* How far the plates of a joint lie over each other, and must at the least. It is asked before any of them has a place. */

/** What must be left at the ends of the range, mm, and who asks for it. */
export interface AskedLap {
  readonly value: number;
  readonly by: 'joint' | 'rules' | 'usual';
  readonly said: string;
}

/** Nothing where neither the joint, nor a rulebook, nor a duty asks for any. */
export function askedLap(joint: JointModel): AskedLap | undefined {
  const own = joint.saidLeast();
  if (own !== undefined) return { value: own, by: 'joint', said: 'as the joint asks' };
  const model = homeOf(joint);
  const book = rulebook(model);
  if (book?.overlap) return { value: book.overlap.value, by: 'rules', said: say`by ${book.title}` };
  const duty = model.duty();
  const row = duty && dutyLimit(duty, 'overlap-left');
  return row && { value: row.value, by: 'usual', said: say`usual for ${duty}` };
}

/** The overlap as assembled, mm; where it is not said, what the range needs. */
export interface JointLap {
  readonly value: number;
  readonly isSaid: boolean;
}

export const lapOf = ofThing('joint', undefined, lapFor, {
  same: (a, b) => a?.value === b?.value && a?.isSaid === b?.isSaid,
});

/** A pair is not bent further than this, degrees. */
export const FURTHEST = 120;

function lapFor(joint: JointModel): JointLap | undefined {
  const said = joint.saidLap();
  if (said !== undefined) return { value: said, isSaid: true };
  const least = askedLap(joint)?.value ?? dutyLimit('stage', 'overlap-left')!.value;
  const pairs = joint.pairs();
  const bend = Math.max(0, joint.range()?.to ?? 0) / (pairs.length || 1);
  const end = joint.pivots()[0]?.end;
  const needed = pairs.map((pair) => {
    const radius = reachOf(joint, pair);
    return radius === undefined
      ? undefined
      : overlapNeeded({ least, radius, bend: Math.min(bend, FURTHEST), end }).value;
  });
  const known = needed.filter((each) => each !== undefined);
  return known.length ? { value: Math.max(...known), isSaid: false } : undefined;
}

export const takenLap = (lap: number): string =>
  say`its overlap is not said: ${Math.round(lap * 10) / 10} mm is taken, what the bend needs`;

/** How far the middle of a pair's edge lies from the line that it turns about, mm, on the plate on which its pivots are measured. */
function reachOf(joint: JointModel, pair: JointPair): number | undefined {
  const at = measuredOn(pair);
  if (!at) return undefined;
  const spots = pivotSpots(joint, at, () => 0);
  if (typeof spots === 'string') return undefined;
  if (!spots.length) return 0;
  const line = lineThrough(
    at.end,
    spots.map(({ spot }) => spot),
  );
  const middle = at.end.chart.point(...onMiddle(at.end, 0));
  return size(cross(minus(middle, line.point), line.along));
}

/** A plate of a pair at the end where it meets the other. */
export interface MeetingPlate {
  readonly which: 'upper' | 'lower';
  readonly piece: PieceModel;
  readonly end: PlateEnd;
}

export function meetingPlate(pair: JointPair, which: 'upper' | 'lower'): MeetingPlate | undefined {
  const { piece } = pair[which];
  const chart = piece.chart();
  const end = chart && endOf(chart, which === 'upper' ? 'bottom' : 'top');
  return end && { which, piece, end };
}

export const underIn = ({ over }: JointPair): 'upper' | 'lower' => (over === 'upper' ? 'lower' : 'upper');

/** The plate on which the pivots are measured: the one that lies under, or the other where only that has sides. */
export function measuredOn(pair: JointPair): MeetingPlate | undefined {
  const [under, over] = [meetingPlate(pair, underIn(pair)), meetingPlate(pair, pair.over)];
  const hasSides = (plate: MeetingPlate | undefined) =>
    plate && JOINT_SIDES.every((side) => plate.end.chart.edges.has(side));
  return hasSides(under) || !hasSides(over) ? under : over;
}

/** A rivet of a joint on the plate on which it is measured. */
export interface MeasuredRivet {
  readonly rivets: JointRivets;
  readonly side?: JointSide;
  readonly spot: Spot;
}

/** Where the pivots of a pair lie, so far in from the end; or in words why that is not known. */
export const pivotSpots = (joint: JointModel, at: MeetingPlate, up: Up): readonly MeasuredRivet[] | string =>
  rivetSpots(joint.pivots(), at, up);

/** How far in from the end of a plate a rivet sits that is told by its side, mm. */
type Up = (rivets: Pick<JointRivets, 'end'>) => number;

/** On a plate of a pair: in the middle of the overlap, or as it says of the plate that lies under. */
export const upOn =
  (pair: JointPair, which: 'upper' | 'lower', lap: number): Up =>
  ({ end }) =>
    end === undefined ? lap / 2 : which === pair.over ? lap - end : end;

export function rivetSpots(lines: readonly JointRivets[], at: MeetingPlate, up: Up): MeasuredRivet[] | string {
  const found: MeasuredRivet[] = [];
  for (const rivets of lines) {
    const { line, sides, inset } = rivets;
    if (line.has('at')) {
      const place = placeOfLine(at.piece, line);
      if (place === undefined || typeof place === 'string')
        return say`a rivet has no place on “${at.piece.name}”${place ? say`: ${place}` : ''}`;
      found.push({ rivets, spot: place.spot });
      continue;
    }
    if (inset === undefined) return 'how far in its rivets sit is not said';
    for (const side of sides) {
      const spot = besideEdge(at.end, side, inset, up(rivets));
      if (typeof spot === 'string') return say`on “${at.piece.name}” a rivet has no place: ${spot}`;
      found.push({ rivets, side, spot });
    }
  }
  return found;
}

/** The line that plates turn about: through two pivots, or along the shank of a single one. In the frame of the piece. */
export function lineThrough(
  { chart }: PlateEnd,
  spots: readonly Spot[],
): { readonly point: Vector; readonly along: Vector } {
  const [one, other] = spots as readonly [Spot, Spot | undefined];
  const point = chart.point(...one);
  return { point, along: other ? unit(minus(chart.point(...other), point)) : directionOut(chart, one) };
}

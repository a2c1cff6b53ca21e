import { say } from '../../../l10n/say.ts';
import { leatherLength } from '../../trade/leather/strap.ts';
import { intervalOf } from '../../trade/reckoning/interval.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { holeFor, rivetLengthByVolume, softEdgeDistance } from '../../trade/rivet/rivet.ts';
import { stackOf } from '../../trade/rivet/row.ts';
import { leatherPlaces } from '../assembly/joint-rivets.ts';
import { type Pivoted, pivotedBy } from '../assembly/pivoted.ts';
import type { LineReading } from '../names/line-reading.ts';
import { gathered } from '../per-spec.ts';
import { JOINT_SIDES, type JointLeather, type JointModel, type JointPair, liesOn } from '../things/joint.ts';
import type { MaterialModel } from '../things/material.ts';
import type { PieceModel } from '../things/piece.ts';
import type { RivetModel } from '../things/rivet.ts';
import { compressed, thicknessAtEdge } from '../things/seam.ts';
import { jointsWith } from './joints-with.ts';

/* What a joint takes besides its plates: rivets, washers and leathers. */

/** Rivets of a joint that pass the same stack. */
export interface JointRivetUse {
  readonly joint: JointModel;
  readonly line: LineReading;
  readonly rivet: RivetModel;
  /** `pivots of upper and cop` */
  readonly at: string;
  readonly perJoint: number;
  readonly perBuild: number;
  readonly hasWasher: boolean;
  readonly stack?: Result;
  readonly needed?: Result;
}

export const jointRivets = gathered('joint', (joint): JointRivetUse[] => [
  ...pivotsSwungOn(joint),
  ...joint.locks().flatMap(({ line, rivet, count }) =>
    // How thick a bought part is nobody knows.
    rivet
      ? useOf(joint, line, rivet, 'lock', {
          perJoint: count,
          layers: [{ name: 'lock', thickness: undefined }],
          isWashered: false,
        })
      : [],
  ),
  ...[...joint.pivots(), ...joint.slides()].flatMap(({ line, rivet, sides }) =>
    rivet
      ? joint.pairs().map((pair) =>
          useOf(joint, line, rivet, say`${line.id} of ${pair.upper.piece.name} and ${pair.lower.piece.name}`, {
            perJoint: line.has('at') ? 1 : sides.length,
            layers: pairLayers(pair),
            isWashered: line.has('washer'),
          }),
        )
      : [],
  ),
  ...joint.leathers().flatMap(({ line, rivet, count, material }) =>
    rivet
      ? joint.plates().map(({ piece }) =>
          useOf(joint, line, rivet, say`leathers of ${piece.name}`, {
            perJoint: count,
            layers: leatherLayers(piece, material),
            isWashered: true,
          }),
        )
      : [],
  ),
]);

/** The pivots of what swings pass the plates of every joint that shares them. */
function pivotsSwungOn(joint: JointModel): JointRivetUse[] {
  const swinging = joint.swinging();
  if (!swinging || joint.pivotsOf() !== joint) return [];
  const { plate, on } = swinging;
  const others = onSamePivots(joint).flatMap((other) =>
    other.named.section === joint.named.section ? [] : other.swinging()!.plate.piece,
  );
  const names = [plate.piece, ...others, on.piece].map(({ name }) => name);
  const pivoted = pivotedBy(joint);
  return joint.pivots().flatMap(({ line, rivet, sides }) =>
    rivet
      ? useOf(joint, line, rivet, say`pivots of ${inWords(names)}`, {
          perJoint:
            typeof pivoted === 'string'
              ? sides.length || (line.has('side') ? 1 : JOINT_SIDES.length)
              : pivoted.pivots.filter(({ rivets }) => rivets.line === line).length,
          layers: [...pairLayers({ upper: on, lower: plate }), ...others.map(layerOf)],
          isWashered: line.has('washer'),
        })
      : [],
  );
}

/** What lies between the two plates of what swings at its pivots: those of other joints that share them, mm. A washer lies inside. */
export function besidesAt(joint: JointModel): number {
  const owner = joint.pivotsOf();
  const pivoted = pivotedBy(joint);
  if (!owner || typeof pivoted === 'string') return 0;
  const between = onSamePivots(owner).flatMap((other) => {
    const its = other.named.section === joint.named.section ? undefined : pivotedBy(other);
    const isNearer = typeof its === 'object' && roomOf(its) < roomOf(pivoted);
    return isNearer && its.pivots[0]!.isOutside === pivoted.pivots[0]!.isOutside ? [2 * its.plate.half] : [];
  });
  return addedUp(between);
}

const roomOf = ({ pivots }: Pivoted): number => Math.min(...pivots.map(({ room }) => room));

/** A joint that has pivots of its own, and all that share them. */
const onSamePivots = (owner: JointModel): JointModel[] =>
  jointsWith(owner.swinging()!.on.piece).filter(
    (other) => other.swinging() && other.pivotsOf()?.named.section === owner.named.section,
  );

const inWords = (names: readonly string[]): string => say`${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

interface Layer {
  readonly name: string;
  readonly thickness: Pick<Result, 'value' | 'low' | 'high'> | undefined;
}

/** Metal as formed, and the gap between that they are to keep. */
function pairLayers({ upper, lower }: Pick<JointPair, 'upper' | 'lower'>): Layer[] {
  const lying = liesOn(lower.piece, upper.piece) ? lower.piece : upper.piece;
  const line = lying.formLine();
  const gap = line?.is('lies') ? line.length('gap', 'gap') : undefined;
  return [layerOf(upper.piece), ...(gap ? [{ name: 'gap', thickness: { value: gap } }] : []), layerOf(lower.piece)];
}

const layerOf = (piece: PieceModel): Layer => ({ name: piece.name, thickness: thicknessAtEdge(piece) });

function leatherLayers(piece: PieceModel, leather: MaterialModel | undefined): Layer[] {
  const start = leather?.thickness();
  return [layerOf(piece), { name: 'leather', thickness: start && compressed(start) }];
}

function useOf(
  joint: JointModel,
  line: LineReading,
  rivet: RivetModel,
  at: string,
  {
    perJoint,
    layers,
    isWashered,
  }: { readonly perJoint: number; readonly layers: readonly Layer[]; readonly isWashered: boolean },
): JointRivetUse {
  const washer = isWashered ? rivet.washer() : undefined;
  const passed = layers.flatMap(({ name, thickness }) => (thickness ? [{ name, thickness, times: 1 }] : []));
  const stack = passed.length === layers.length ? stackOf(passed, washer?.thickness) : undefined;
  const shank = rivet.size()?.shank;
  return {
    joint,
    line,
    rivet,
    at,
    perJoint,
    perBuild: perJoint * joint.make(),
    hasWasher: washer !== undefined,
    ...(stack ? { stack } : {}),
    ...(stack && shank !== undefined ? { needed: neededFor(stack, shank, line.id !== 'leathers') } : {}),
  };
}

/** A rivet that things turn on is headed without swelling in its hole. */
function neededFor(stack: Result, shank: number, turns: boolean): Result {
  const hole = turns ? shank : holeFor(shank).value;
  const made = (value: number) => rivetLengthByVolume({ stack: value, shank, hole, head: 'domed' });
  const found = made(stack.value);
  const { low, high } = intervalOf(stack);
  return { ...found, low: made(low).value, high: made(high).value };
}

/** Inner leathers of one cut. */
export interface LeatherUse {
  readonly joint: JointModel;
  readonly leather: JointLeather;
  /** `elbow, leather` */
  readonly name: string;
  readonly perBuild: number;
  /** As cut, end to end; nothing where how the joint moves is not known. */
  readonly long?: Result;
  /** Its rivets from its upper end, mm. */
  readonly stations: readonly number[];
}

export const jointLeathers = gathered('joint', (joint): LeatherUse[] => {
  const places = leatherPlaces(joint);
  const all = joint.leathers();
  return all.map((leather, i) => {
    const own = places.filter((each) => each.leather === leather);
    const name = all.length > 1 ? say`${joint.name}, leather ${i + 1}` : say`${joint.name}, leather`;
    const perBuild = leather.count * joint.make();
    const longest = own.reduce<(typeof own)[number] | undefined>(
      (most, each) => (most && addedUp(most.steps) >= addedUp(each.steps) ? most : each),
      undefined,
    );
    const margin = softEdgeDistance(leather.rivet?.size()?.shank ?? 0).value || LEAST_MARGIN;
    if (!longest) return { joint, leather, name, perBuild, stations: [] };
    const stations = [margin];
    for (const step of longest.steps) stations.push(stations.at(-1)! + step);
    return {
      joint,
      leather,
      name,
      perBuild,
      stations,
      long: leatherLength({ run: addedUp(longest.steps), margin }),
    };
  });
});
const LEAST_MARGIN = 10;

const addedUp = (all: readonly number[]): number => all.reduce((sum, each) => sum + each, 0);

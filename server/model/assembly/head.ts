import { moved } from '../../geometry/motion/motion.ts';
import { nearestTo } from '../../geometry/motion/nearest.ts';
import { MeshTree } from '../../geometry/motion/tree.ts';
import { loftChart } from '../../geometry/surface/loft.ts';
import { cross, dot, minus, plus, size, type Vector } from '../../geometry/surface/vector.ts';
import { kept } from '../../incremental/memo.ts';
import { Dear } from '../../incremental/steps.ts';
import { HEAD_WORDS, type HeadMeasures, headShape } from '../../trade/fit/head.ts';
import { type Fit, fitsOf, girthsOf, levelOf } from '../figures/fit.ts';
import { perModel } from '../per-spec.ts';
import { meshed } from '../shapes/surface.ts';
import type { Model } from '../spec.ts';
import type { Figure } from '../values/figure.ts';
import { bodyName, directionIn, placeIn } from './body.ts';
import { planOf } from './plan.ts';
import { type PlacedBody, placedGroup } from './pose.ts';
import { type Shape, shapeOf } from './shape.ts';
import { solidOf } from './solid.ts';

/*
 * The head of a wearer where it stands in a helm, and how far the metal is from it. It stands upright on the axis of the piece that fits
 * it, its brow at the height of that piece's `fits` line.
 */

export interface HeadIn {
  readonly fit: Fit;
  /** Name of the piece that fits it. */
  readonly piece: string;
  readonly bodies: readonly PlacedBody[];
  /** Where the middle of the head at the brow is, in the frame of the group. */
  readonly at: Vector;
  readonly level: string;
  readonly said: boolean;
  readonly measures: HeadMeasures;
  /** All of them at their low ends and at their high ends: the same where all are measured. */
  readonly ends: readonly [HeadMeasures, HeadMeasures];
  readonly inputs: readonly string[];
  readonly estimated: readonly string[];
}

/** Every group that fits a head of which enough is known. */
export const headsIn = perModel((model: Model): (() => readonly HeadIn[]) =>
  kept(() =>
    planOf(model).groups.flatMap((planned): HeadIn[] => {
      if (planned.rootBy !== 'fits') return [];
      const { bodies } = placedGroup(model, planned);
      const worn = bodies.flatMap((placed) => {
        const fit = fitsOf(placed.body.piece).find(({ region }) => region === 'head');
        return fit ? [{ placed, fit }] : [];
      })[0];
      const head = worn && headFor(worn.placed, worn.fit);
      return head ? [{ ...head, bodies }] : [];
    }),
  ),
);

function headFor(placed: PlacedBody, fit: Fit): Omit<HeadIn, 'bodies'> | undefined {
  const { piece } = placed.body;
  const level = levelOf(piece, fit);
  const found = Object.entries(HEAD_WORDS).map(([key, words]) => [key, fit.wearer.measureOrEstimate(words)] as const);
  if (!level || 'why' in level || !found.every((each): each is [string, Figure] => each[1] !== undefined))
    return undefined;
  const section = girthsOf(piece)?.at(level.height);
  if (!section) return undefined;
  const { front, back } = section.section;
  const measured = (of: (figure: Figure) => number) =>
    Object.fromEntries(found.map(([key, figure]) => [key, of(figure)])) as unknown as HeadMeasures;
  return {
    fit,
    piece: piece.name,
    at: moved(placed.motion, [0, section.offset + (front - back) / 2, level.height]),
    level: level.words,
    said: level.said,
    measures: measured(({ value }) => value),
    ends: [measured(({ low, value }) => low ?? value), measured(({ high, value }) => high ?? value)],
    inputs: found.map(([, { name }]) => name),
    estimated: found.flatMap(([, { name, low }]) => (low === undefined ? [] : [name.replace(/\.estimate$/, '')])),
  };
}

/** How far the inner face of a placed plate is from the skin, at its vertices. */
export interface PlateRoom {
  readonly placed: PlacedBody;
  /** The same for the same mesh in the same place. */
  readonly key: string;
  readonly name: string;
  /** x, y, z in the frame of the group and the distance, mm; below nought within the head. */
  readonly points: readonly (readonly [number, number, number, number])[];
  /** The area that belongs to each, mm². */
  readonly areas: readonly number[];
}

export interface HeadRoom {
  readonly head: HeadIn;
  readonly plates: readonly PlateRoom[];
  readonly least: { readonly apart: number; readonly at: Vector; readonly piece: string };
  /** The least for heads at the ends of what is estimated. */
  readonly low: number;
  readonly high: number;
}

/** How much of the metal leaves less than so much over the liner, mm², and how much there is within reach of the head. */
export function areaUnder(
  { head, plates }: HeadRoom,
  wanted: number,
): { readonly under: number; readonly all: number } {
  let [under, all] = [0, 0];
  for (const { points, areas } of plates)
    for (const [i, point] of points.entries()) {
      if (point[3] >= OVER_HEAD) continue;
      all += areas[i]!;
      if (point[3] - head.fit.liner < wanted) under += areas[i]!;
    }
  return { under, all };
}
/** What is nearer than this lies over the head, mm. */
const OVER_HEAD = 80;

/** The clearance map of every head that is known. */
export const headRooms = perModel((model: Model): (() => readonly HeadRoom[]) =>
  kept(() => headsIn(model).flatMap((head) => roomRound(head) ?? [])),
);

/** What lies further off than this is told as that far, mm. */
const FAR = 200;

function roomRound(head: HeadIn): HeadRoom | undefined {
  const tree = headTree(head.measures);
  if (!tree) return undefined;
  const plates = head.bodies.flatMap((placed) => plateRoom(placed, head.at, head.measures, tree) ?? []);
  let [apart, at, piece]: [number, Vector, string | undefined] = [FAR, head.at, undefined];
  for (const { name, points } of plates)
    for (const [x, y, z, far] of points) if (far < apart) [apart, at, piece] = [far, [x, y, z], name];
  if (piece === undefined) return undefined;
  const others = head.estimated.length
    ? head.ends.flatMap((measures) => plates.map((plate) => leastTo(plate, head.at, measures)))
    : [];
  return {
    head,
    plates,
    least: { apart, at, piece },
    low: Math.min(apart, ...others),
    high: Math.max(apart, ...others),
  };
}

/** The last plates to which the least was looked for, by all that it hangs on. */
const leasts = new Dear<number>(128);

/** The least to one plate: most of its points need hardly be looked at. */
function leastTo({ points, key }: PlateRoom, at: Vector, measures: HeadMeasures): number {
  const tree = headTree(measures);
  if (!tree) return FAR;
  return leasts.get(`${key} ${JSON.stringify([at, measures])}`, function* () {
    let least = FAR;
    for (const [i, [x, y, z]] of points.entries()) {
      if (i % AT_A_TIME === 0) yield undefined;
      least = Math.min(least, signedDistance(tree, minus([x, y, z], at), Math.max(WITHIN, least)));
    }
    return least;
  });
}
/** What lies within a head is found however deep it is, mm. */
const WITHIN = 60;
const AT_A_TIME = 50;

/** The last heads, by their measures. */
const trees = new Dear<MeshTree | undefined>(12);

function headTree(measures: HeadMeasures): MeshTree | undefined {
  return trees.get(JSON.stringify(measures), function* () {
    const shape = headShape(measures);
    const chart = shape && loftChart(shape);
    if (!chart) return undefined;
    const { positions, triangles } = yield* meshed(chart, undefined, { vertices: 1200 });
    return new MeshTree(positions, triangles);
  });
}

/** The last plates, by all that their room hangs on: one that stays as it is, and where it is, is not measured again. */
const rooms = new Dear<PlateRoom['points']>(64);

function plateRoom(placed: PlacedBody, at: Vector, measures: HeadMeasures, tree: MeshTree): PlateRoom | undefined {
  const shape = shapeOf(placed.body.piece);
  const solid = solidOf(placed);
  if (!shape || !solid) return undefined;
  const key = `${solid.id} ${solid.half} ${JSON.stringify(solid.motion)}`;
  const points = rooms.get(`${key} ${JSON.stringify([at, measures])}`, function* () {
    const found: PlateRoom['points'][number][] = [];
    for (const [i, point] of inner(shape, placed, solid.half).entries()) {
      if (i % AT_A_TIME === 0) yield undefined;
      found.push([...point, signedDistance(tree, minus(point, at))]);
    }
    return found;
  });
  return { placed, key, name: bodyName(placed.body), points, areas: areasOf(shape) };
}

/** The vertices of a placed plate on its inner face. */
const inner = ({ positions, normals }: Shape, placed: PlacedBody, half: number): Vector[] =>
  Array.from({ length: positions.length / 3 }, (_, i) =>
    plus(placeIn(placed, vectorAt(positions, i)), directionIn(placed, vectorAt(normals, i)), -half),
  );

const vectorAt = (from: Float64Array, i: number): Vector => [from[3 * i]!, from[3 * i + 1]!, from[3 * i + 2]!];

/** A third of the triangles round each vertex. */
function areasOf({ positions, triangles }: Shape): number[] {
  const areas = new Array<number>(positions.length / 3).fill(0);
  const at = (i: number) => vectorAt(positions, i);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const area = size(cross(minus(at(b), at(a)), minus(at(c), at(a)))) / 6;
    for (const i of [a, b, c]) areas[i]! += area;
  }
  return areas;
}

/** Below nought within: told by the side of the nearest triangle on which the point lies. */
function signedDistance(tree: MeshTree, point: Vector, within = FAR): number {
  const found = nearestTo(tree, point, within);
  if (!found) return within;
  return dot(minus(point, found.one), vectorAt(tree.normals, found.pair[0])) < 0 ? -found.apart : found.apart;
}

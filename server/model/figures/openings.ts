import { inARow, say } from '../../../l10n/say.ts';
import { isCutOut } from '../../geometry/drawings/outline-in.ts';
import { contains, nearestOn } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import type { Chart } from '../../geometry/surface/chart.ts';
import { type FormPlace, type NearEdge, nearestEdge } from '../../geometry/surface/place.ts';
import { DEEP_EYES, fieldOfView, oneEyeView } from '../../trade/fit/view.ts';
import { metalOver, metalToBend, metalToEdge, reachTowards, rodThrough, webLeft } from '../../trade/hole/beside.ts';
import { bladeTeeth, punchForce, slopedCutAngle } from '../../trade/hole/punch.ts';
import { ends, type Interval, intervalOf, through } from '../../trade/reckoning/interval.ts';
import { plain, type Result } from '../../trade/reckoning/result.ts';
import { NONE } from '../forms/answers.ts';
import { OPPOSITE } from '../forms/form.ts';
import { type Form, kindOf } from '../forms/index.ts';
import type { LengthAt, LineReading } from '../names/line-reading.ts';
import { ownOutline, placeOfLine, placeOnOutline } from '../shapes/places.ts';
import type { Model } from '../spec.ts';
import { homeOf } from '../spec.ts';
import type { Opening, PieceModel, Pierced } from '../things/piece.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { fitOf } from './fit.ts';
import { bendCurves } from './turning.ts';

/* Openings: how hard they are to punch, what passes through them, what is seen, how much metal is left beside them. */

/** What an opening's figures are called by: its own name, or its kind and its line. */
export function openingName(opening: Pick<Opening | Pierced, 'line' | 'kind' | 'name'>): string {
  const { line, kind, name } = opening;
  return name?.text ?? `${kind}-${line.line.section.lines.indexOf(line.line) + 1}`;
}

export function addOpeningFigures(piece: PieceModel, set: FigureSet): void {
  for (const opening of piece.openings())
    set.part(openingName(opening), opening.line.place, (own) => {
      addPunch(piece, opening, own);
      addRod(opening, own);
      addEdgeDistance(piece, opening, own);
      addNeighbours(piece, opening, own);
      addView(piece, opening, own);
    });
  for (const { cutOut, ...pierced } of piece.pierced())
    if (cutOut && isCutOut(cutOut))
      set.part(openingName(pierced), pierced.line.place, (own) =>
        addEdgeDistance(piece, { ...pierced, ...cutOut }, own),
      );
  addSaw(piece, set);
}

function addPunch(piece: PieceModel, opening: Opening, set: FigureSet): void {
  const material = piece.material();
  const thickness = material?.thickness();
  const shear = material?.figures().get('shear');
  if (!thickness || !shear || material?.kind() !== 'sheet') return;
  const longer = Math.max(opening.long, opening.wide);
  const narrower = Math.min(opening.long, opening.wide);
  const perimeter = opening.round ? Math.PI * opening.long : 2 * (longer - narrower) + Math.PI * narrower;
  const made = punchForce({ perimeter, thickness: thickness.value, shear: shear.value });
  const sheet = opening.beforeForming ? intervalOf(thickness) : formedRange(set, intervalOf(thickness));
  const spread = through((t, τ) => perimeter * t * τ, sheet, intervalOf(shear));
  set.add(
    `${openingName(opening)}.punch-force`,
    opening.count > 1 ? 'force to punch one of them' : 'force to punch it',
    { ...made, ...ends(spread) },
    opening.line.place,
    [thickness.name, shear.name],
  );
}

/** The starting thickness, with all that forming may have made of it as its range. */
function formedRange(set: FigureSet, start: Interval): Interval {
  const least = set.get('thickness.least');
  const edge = set.get('thickness.edge');
  return {
    value: start.value,
    low: Math.min(start.low, least?.low ?? least?.value ?? start.low),
    high: Math.max(start.high, edge?.high ?? edge?.value ?? start.high),
  };
}

function addRod({ line, long, wide, round, ...opening }: Opening, set: FigureSet): void {
  set.add(
    `${openingName({ line, ...opening })}.rod`,
    'largest rod that passes',
    rodThrough({ long, wide, round }),
    line.place,
    [],
  );
}

type Sized = Pick<Opening | Pierced, 'line' | 'kind' | 'name'> & { readonly long: number; readonly wide: number };

function addEdgeDistance(piece: PieceModel, opening: Sized, set: FigureSet): void {
  const form = piece.form();
  if (!form) return;
  if (isMeasuredOver(form, piece)) {
    addDistanceOver(piece, opening, set);
    return;
  }
  addRowDistance(piece, opening, set);
}

/** The same where the edges lie as the measures of its line say. */
function addRowDistance(piece: PieceModel, opening: Sized, set: FigureSet): void {
  const near = distancesToEdges(piece.form(), opening.line, piece.edgeNames())
    .map(({ distance, edge }) => {
      const half = halfTowards(edge, opening);
      return { edge, distance, half, left: distance - half };
    })
    .sort((a, b) => a.left - b.left)[0];
  if (!near) return;
  set.add(
    `${openingName(opening)}.edge-distance`,
    say`metal left to ${near.edge}`,
    metalToEdge({ distance: near.distance, wide: 2 * near.half, edge: near.edge }),
    opening.line.place,
    [],
  );
}

/** Metal left between the holes of a pattern, and from an opening to the nearest bend. */
function addNeighbours(piece: PieceModel, opening: Sized, set: FigureSet): void {
  const { line, long } = opening;
  const pitch = line.length('pitch', 'pitch');
  if (pitch !== undefined)
    set.add(
      `${openingName(opening)}.web`,
      'metal left between two holes',
      webLeft({ pitch, diameter: long }),
      line.place,
      [],
    );
  const near = distancesToBends(piece, opening).sort((a, b) => a.left - b.left)[0];
  if (!near) return;
  set.add(
    `${openingName(opening)}.bend-distance`,
    say`metal left to the bend ${plain(near.curve.distance)} mm from ${near.edge}`,
    metalToBend({
      distance: Math.abs(near.distance - near.curve.distance),
      wide: 2 * near.half,
      curve: 2 * near.curve.half,
    }),
    line.place,
    [],
  );
}

/** Whether some edge lies nearer or further than the measures of its line say: everything but a plate or what rolls out to one. */
const isMeasuredOver = (form: Form, piece: PieceModel): boolean =>
  kindOf(form).square(form) === NONE || piece.cutForm() !== undefined;

/** The metal left to the nearest edge, straight there over the surface; along a row it is what its line says. */
function addDistanceOver(piece: PieceModel, opening: Sized, set: FigureSet): void {
  const place = placeOfLine(piece, opening.line);
  const chart = piece.chart();
  const outline = ownOutline(piece);
  const near =
    chart && typeof place === 'object'
      ? nearOver(piece, opening, chart, place)
      : outline && nearOutline(outline, opening);
  if (!near) {
    addRowDistance(piece, opening, set);
    return;
  }
  set.add(
    `${openingName(opening)}.edge-distance`,
    say`metal left to ${near.edge}`,
    metalOver(near),
    opening.line.place,
    [],
  );
}

/** The edge over the surface to which the least metal is left. */
function nearOver(piece: PieceModel, opening: Sized, chart: Chart, place: FormPlace) {
  const left = ({ distance, turn }: NearEdge) => distance - reachOf(opening, turn);
  const most = Math.hypot(opening.long, opening.wide) / 2;
  const near = nearestEdge(chart, place, piece.cutForm()?.stretches, left, most);
  return near && { ...near, reach: reachOf(opening, near.turn) };
}

/** How near an opening comes to the outline of its plate; nothing where its line says no place inside it. */
function nearOutline(outline: Path, opening: Sized): { edge: string; distance: number; reach: number } | undefined {
  const place = placeOnOutline(outline, opening.line);
  const nearest = place && contains(outline, place) ? nearestOn(outline, place) : undefined;
  if (!place || !nearest) return undefined;
  const turn = (Math.atan2(nearest.at.y - place.y, nearest.at.x - place.x) * 180) / Math.PI;
  return { edge: 'rim', distance: nearest.distance, reach: reachOf(opening, turn) };
}

const reachOf = ({ kind, long, wide }: Sized, turn: number): number =>
  reachTowards(turn, { long, wide, boxed: kind === 'pierce' });

/** How far an opening's middle lies from an edge, mm along the surface, and the words of its line that say so. */
export interface EdgeDistance {
  readonly distance: number;
  readonly edge: string;
  /** Where the line says it; nothing for the edge across, which follows from the form. */
  readonly said?: LengthAt;
}

export function distancesToEdges(form: Form | undefined, line: LineReading, edges: readonly string[]): EdgeDistance[] {
  const found: EdgeDistance[] = [];
  const square = form ? kindOf(form).square(form) : NONE;
  const { wide: width, high: height } = square === NONE ? { wide: undefined, high: undefined } : square;
  const add = (said: LengthAt, edge: string | undefined) => {
    const distance = line.lengthAt(said);
    if (distance === undefined || edge === undefined || !edges.includes(edge)) return;
    found.push({ distance, edge, said });
    const across = OPPOSITE[edge];
    const span = edge === 'top' || edge === 'bottom' ? height : width;
    if (across && span !== undefined) found.push({ distance: span - distance, edge: across });
  };
  if (line.has('along')) add({ slot: 'inset', qualifier: 'inset' }, line.text('edge', 'along'));
  if (line.has('at')) {
    if (!line.filled('way', 'at')) add({ slot: 'across', qualifier: 'at' }, line.text('line', 'at'));
    if (!line.filled('way2', 'at')) add({ slot: 'along', qualifier: 'at' }, line.text('line2', 'at'));
  }
  return found;
}

/** How far an opening reaches from its middle towards an edge, mm. */
const halfTowards = (edge: string, { long, wide }: Pick<Sized, 'long' | 'wide'>): number =>
  (edge === 'left' || edge === 'right' ? long : wide) / 2;

/** An opening beside a bend that is measured from the same edge. */
export interface BendDistance extends EdgeDistance {
  readonly curve: ReturnType<typeof bendCurves>[number];
  /** What the opening reaches towards it, mm. */
  readonly half: number;
  /** From the rim of the opening to where the metal begins to curve, mm; less than nothing within the curve. */
  readonly left: number;
}

export function distancesToBends(piece: PieceModel, opening: Pick<Sized, 'line' | 'long' | 'wide'>): BendDistance[] {
  const curves = bendCurves(piece);
  if (!curves.length) return [];
  return distancesToEdges(piece.form(), opening.line, piece.edgeNames()).flatMap((at) => {
    const half = halfTowards(at.edge, opening);
    return curves
      .filter(({ edge }) => edge === at.edge)
      .map((curve) => ({ ...at, curve, half, left: Math.abs(at.distance - curve.distance) - half - curve.half }));
  });
}

function addView(piece: PieceModel, opening: Opening, set: FigureSet): void {
  const seen = viewOf(piece, opening);
  if (!seen) return;
  const name = openingName(opening);
  const place = opening.line.place;
  const eye = seen.sides.length ? ', with the eye behind it' : ', with either eye';
  set.add(`${name}.view-wide`, say`seen across${eye}`, seen.total, place, seen.inputs);
  if (seen.both) set.add(`${name}.view-both`, 'seen across, with both eyes at once', seen.both, place, seen.inputs);
  set.add(`${name}.view-high`, 'seen up and down', seen.high, place, seen.inputs);
}

/** What is seen through a slot over a face. */
export interface View {
  /** Across: with either eye, or with the eye of its side. The low end is for deep-set eyes. */
  readonly total: Result;
  /** With both eyes at once; nothing for a slot in front of one eye. */
  readonly both?: Result;
  readonly high: Result;
  /** The sides that it serves; none for a slot in front of both eyes. */
  readonly sides: readonly ('left' | 'right')[];
  /** How far outward of straight ahead the eye of its side sees, degrees. */
  readonly outward: Interval;
  readonly inputs: readonly string[];
}

/** The view through a slot of a piece that fits a head or a face; nothing where a measure for it is missing. */
export function viewOf(piece: PieceModel, opening: Opening): View | undefined {
  const fit = fitOf(piece);
  const thickness = piece.thickness();
  if (opening.kind !== 'slot' || !fit || thickness === undefined) return undefined;
  if (fit.region !== 'head' && fit.region !== 'face') return undefined;
  const eyes = fit.measure('eye distance');
  const distance = fit.liner + fit.ease + thickness;
  if (!eyes || !(distance > 0)) return undefined;
  const note = say`The eye is taken to lie at the brow: liner, ease and plate away, ${Math.round(distance * 10) / 10} mm. The low end is for eyes ${DEEP_EYES} mm deeper (common practice, no source).`;
  const ranged = (of: (x: number) => Result): Result => {
    const at = of(distance);
    const deep = of(distance + DEEP_EYES).value;
    return {
      ...at,
      low: Math.min(at.value, deep),
      high: Math.max(at.value, deep),
      note: inARow(note, at.note),
    };
  };
  const front = (x: number) => fieldOfView({ wide: opening.long, high: opening.wide, eyes: eyes.value, distance: x });
  const high = ranged((x) => front(x).high);
  const inputs = [eyes.name, piece.material()?.thickness()?.name].filter((each) => each !== undefined);
  const aside = besideMiddle(piece, opening.line);
  if (!aside)
    return {
      total: ranged((x) => front(x).total),
      both: ranged((x) => front(x).both),
      high,
      sides: [],
      outward: STRAIGHT_AHEAD,
      inputs,
    };
  const one = (x: number) => oneEyeView({ wide: opening.long, eyes: eyes.value, distance: x, offset: aside.offset });
  const outward = [one(distance).outward.value, one(distance + DEEP_EYES).outward.value] as const;
  return {
    total: ranged((x) => one(x).total),
    high,
    sides: aside.sides,
    outward: { value: outward[0], low: Math.min(...outward), high: Math.max(...outward) },
    inputs,
  };
}

const STRAIGHT_AHEAD: Interval = { value: 0, low: 0, high: 0 };

/** How far a slot lies from the middle of the face, and on which side: on both for a piece that is made in pairs. */
function besideMiddle(
  piece: PieceModel,
  line: LineReading,
): { offset: number; sides: readonly ('left' | 'right')[] } | undefined {
  for (const [slot, way, from] of [
    ['across', 'way', 'line'],
    ['along', 'way2', 'line2'],
  ] as const) {
    const offset = line.length(slot, 'at');
    if (offset === undefined || !(offset > 0) || line.text(from, 'at') !== 'middle') continue;
    const side = line.text(way, 'at');
    if (side === 'left' || side === 'right') return { offset, sides: piece.mirrored() ? ['left', 'right'] : [side] };
    if (side === undefined && piece.mirrored()) return { offset, sides: ['left', 'right'] };
  }
  return undefined;
}

function addSaw(piece: PieceModel, set: FigureSet): void {
  const thickness = piece.material()?.thickness();
  const line = sawnLine(piece);
  if (!line || !thickness || piece.material()?.kind() !== 'sheet') return;
  set.add('blade-teeth', 'teeth that the saw needs', bladeTeeth({ thickness: thickness.value }), line.place, [
    thickness.name,
  ]);
  const tpi = finestBlade(homeOf(piece));
  if (tpi === undefined) return;
  const tilt = slopedCutAngle({ thickness: thickness.value, tpi });
  set.add(
    'saw-tilt',
    'steepest angle of the shop’s finest blade to the sheet',
    {
      ...tilt,
      note: tilt.note ?? 'Hold the saw no steeper than this, 90° being square, or clamp the sheet between two others.',
    },
    line.place,
    [thickness.name],
  );
}

/** The line of a piece for which a saw is taken: a slot, pierced work, or an outline. */
export function sawnLine(piece: PieceModel): LineReading | undefined {
  return piece.line('slot') ?? piece.line('pierce') ?? (ownOutline(piece) ? piece.formLine() : undefined);
}

/** Teeth to the inch of the shop's finest blade. */
export function finestBlade(model: Model): number | undefined {
  const all = model.shopLinesOf('blade').flatMap((line) => line.measures('teeth', 'teeth') ?? []);
  return all.length ? Math.max(...all) : undefined;
}

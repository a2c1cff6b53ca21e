import type { LineById, PieceLine } from '../../../grammar/typed-line.ts';
import { say } from '../../../l10n/say.ts';
import { girthOf } from '../../geometry/surface/section.ts';
import {
  clearanceAcross,
  clearanceBetween,
  clearanceRound,
  insideRound,
  passRoom,
  rolledInto,
} from '../../trade/fit/clearance.ts';
import { ends, intervalOf, through } from '../../trade/reckoning/interval.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { NONE, NOT_KNOWN } from '../forms/answers.ts';
import type { Girths } from '../forms/form.ts';
import { kindOf } from '../forms/index.ts';
import type { LineReading } from '../names/line-reading.ts';
import { homeOf } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { WearerModel } from '../things/wearer.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';
import { show } from '../values/show.ts';

/** Whom a piece fits and with what between: one of its `fits` lines. */
export interface Fit {
  readonly line: LineReading<LineById<PieceLine, 'fits'>>;
  readonly wearer: WearerModel;
  readonly region: string;
  readonly liner: number;
  readonly ease: number;
  /** What its figures are called by after `clearance`: nothing where it is the only line. */
  readonly suffix: string;
  measure(words: string): Figure | undefined;
}

/** All of them, in the order of the spec. */
export function fitsOf(piece: PieceModel): readonly Fit[] {
  const lines = piece.all('fits');
  const seen = new Map<string, number>();
  return lines.flatMap((line): Fit[] => {
    const named = line.named('wearer');
    if (named?.kind !== 'wearer') return [];
    const wearer = homeOf(piece).wearerOf(named);
    const region = line.text('region') ?? 'head';
    const nth = (seen.get(region) ?? 0) + 1;
    seen.set(region, nth);
    return [
      {
        line,
        wearer,
        region,
        liner: Math.max(0, line.length('liner', 'liner') ?? 0),
        ease: Math.max(0, line.length('ease', 'ease') ?? 0),
        suffix: lines.length < 2 ? '' : `.${inName(region)}${nth > 1 ? `-${nth}` : ''}`,
        measure: (words) => wearer.measure(words),
      },
    ];
  });
}

/** The first of them, by which a piece stands where it is worn: that of the head or the face where there is one. */
export function fitOf(piece: PieceModel): Fit | undefined {
  const all = fitsOf(piece);
  return all.find(({ region }) => isOnHead(region)) ?? all[0];
}

/** `upper-arm` */
const inName = (words: string): string => words.replaceAll(' ', '-');

const isOnHead = (region: string): boolean => region === 'head' || region === 'face';

/** Where on a piece a part of the body is. */
export interface FitLevel {
  /** In the form's own frame, mm. */
  readonly height: number;
  /** `along bottom`, `at 40 mm`, `at its narrowest, 0 mm up`. */
  readonly words: string;
  readonly said: boolean;
}

/** Why there is none where its line says one. */
export type NoLevel = { readonly why: string };

/** Where a line is at its tightest by itself: the parts that narrow between two that are thicker. */
const NARROW: ReadonlySet<string> = new Set(['neck', 'waist', 'wrist', 'ankle']);

/** Whether a line says its height itself. */
export const saysLevel = ({ line }: Pick<Fit, 'line'>): boolean => line.has('at') || line.has('along');

export function levelOf(piece: PieceModel, fit: Pick<Fit, 'line' | 'region'>): FitLevel | NoLevel | undefined {
  const girths = girthsOf(piece);
  const { line } = fit;
  if (!girths) return undefined;
  const units = piece.model.units();
  const [low, up] = [girths.heights[0]!, girths.heights.at(-1)!];
  const zero = zeroOf(piece, girths);
  const told = (height: number) => show(height - zero, 'mm', units);
  if (!saysLevel(fit)) {
    const { widest, narrowest } = extremesOf(girths);
    const isNarrow = NARROW.has(fit.region) && !girths.tip;
    const at = isNarrow ? narrowest : widest;
    return (
      at && {
        height: at.height,
        words: say`at its ${isNarrow ? say`narrowest` : say`widest`}, ${told(at.height)} up`,
        said: false,
      }
    );
  }
  const edge = line.text('edge', 'along');
  if (edge !== undefined) {
    const height = heightOfEdge(piece, edge);
    return height === undefined
      ? { why: say`it has no edge “${edge}”` }
      : { height: Math.min(up, Math.max(low, height)), words: `along ${edge}`, said: true };
  }
  const height = line.length('height', 'at');
  if (height === undefined) return undefined;
  const at = height + zero;
  if (at < low - 1e-6 || at > up + 1e-6) return { why: say`it reaches from ${told(low)} to ${told(up)} up` };
  return { height: Math.min(up, Math.max(low, at)), words: say`at ${show(height, 'mm', units)}`, said: true };
}

/** From where heights are told: a form counts as its levels do, every other one from its lowest place. */
const zeroOf = (piece: PieceModel, { heights }: Girths): number => (piece.formLine()?.id === 'form' ? 0 : heights[0]!);

/** How high an edge lies, in the mean. */
function heightOfEdge(piece: PieceModel, edge: string): number | undefined {
  const chart = piece.plainChart();
  if (!chart) return undefined;
  const spots = (piece.cutForm()?.stretches ?? [])
    .filter(({ name, of }) => name === edge || of === edge)
    .flatMap(({ at }) => Array.from({ length: 17 }, (_, i) => at(i / 16)));
  const track = chart.edges.get(edge) ?? [];
  const all = spots.length ? spots : track;
  return all.length ? all.reduce((sum, [u, v]) => sum + chart.point(u, v)[2], 0) / all.length : undefined;
}

interface Round {
  readonly height: number;
  readonly girth: number;
}

/** Looks between two levels of a form. */
const BETWEEN = 8;

/** Where a form is widest and where narrowest, from one height to another. */
function extremesOf(
  girths: Girths,
  from = Number.NEGATIVE_INFINITY,
  to = Number.POSITIVE_INFINITY,
): { readonly widest?: Round; readonly narrowest?: Round } {
  const { heights } = girths;
  let [widest, narrowest]: (Round | undefined)[] = [];
  const look = (height: number) => {
    const section = girths.at(height)?.section;
    if (!section) return;
    const girth = girthOf(section);
    if (!widest || girth > widest.girth + SAME) widest = { height, girth };
    if (!narrowest || girth < narrowest.girth - SAME) narrowest = { height, girth };
  };
  const [low, up] = [Math.max(from, heights[0]!), Math.min(to, heights.at(-1)!)];
  look(low);
  for (const [i, below] of heights.entries()) {
    const above = heights[i + 1] ?? below;
    for (let k = 0; k < BETWEEN; k++) {
      const height = below + ((above - below) * k) / BETWEEN;
      if (height > low && height < up) look(height);
    }
  }
  look(up);
  return { ...(widest ? { widest } : {}), ...(narrowest ? { narrowest } : {}) };
}
const SAME = 1e-6;

/** What a fitted piece leaves between itself and its wearer. */
export function addFit(piece: PieceModel, set: FigureSet): void {
  const girths = girthsOf(piece);
  const form = piece.form();
  const thickness = piece.material()?.thickness();
  if (!form || !thickness || !girths) return;
  const worn: Worn = { piece, girths, thickness, place: form.line.place };
  const found = fitsOf(piece).flatMap((fit) => addFitAt(worn, fit, set) ?? []);
  addBetween(worn, found, set);
}

interface Worn {
  readonly piece: PieceModel;
  readonly girths: Girths;
  readonly thickness: Figure;
  readonly place: Figure['place'];
}

interface Found {
  readonly fit: Fit;
  readonly level: FitLevel;
  readonly body: Figure;
  readonly room: Figure;
}

/** What one `fits` line comes to, at its own height. */
function addFitAt(worn: Worn, fit: Fit, set: FigureSet): Found | undefined {
  const { piece, girths, thickness, place } = worn;
  const level = levelOf(piece, fit);
  if (!level || 'why' in level) return undefined;
  const section = girths.at(level.height)?.section;
  const made = section && insideAt(worn, level.height);
  if (!section || !made) return undefined;
  const where = level.words;
  const inside = set.add(`inside-round${fit.suffix}`, say`way round inside, ${where}`, made, place, [thickness.name]);
  if (!inside) return undefined;
  const at = fit.line.place;
  // A cop lies on a joint, it does not go round it: only a helm's dome goes round what it fits.
  const goesRound = fit.region === 'head' || girths.wraps;
  const body = goesRound ? roundMeasure(fit) : undefined;
  const title = fit.suffix
    ? say`room all round the ${fit.region} besides the liner`
    : 'room all round besides the liner';
  const room =
    body &&
    set.add(`clearance${fit.suffix}`, title, roomRound(worn, fit, level, inside, body), at, [inside.name, body.name]);
  const wide = { front: section.front + section.back, side: 2 * section.wide };
  for (const [suffix, words, ways, across] of crossMeasures(wide, girths, fit.region)) {
    const measure = fit.measure(words);
    if (measure)
      set.add(
        `clearance${fit.suffix}.${suffix}`,
        say`${ways}, besides the liner`,
        clearanceAcross({ inside: across - thickness.value, body: measure.value, liner: fit.liner }),
        at,
        [measure.name, thickness.name],
      );
  }
  addPasses(worn, fit, level, set);
  return body && room && { fit, level, body, room };
}

/** The way round inside a form at a height; nothing where it has closed over. */
function insideAt({ piece, girths, thickness }: Worn, height: number): Result | undefined {
  const section = girths.at(height)?.section;
  if (!section) return undefined;
  const [middle, roll] = [girthOf(section), rollAt(piece, girths, height)];
  const made = insideRound({ middle, thickness: thickness.value, roll });
  // What the thickness leaves open: nothing where the measures are of the inside, twice as much where they are of the outside.
  const by = piece.side() === 'inside' ? 0 : piece.side() === 'outside' ? 2 : 1;
  const spread = through((t) => made.value - by * Math.PI * (t - thickness.value), intervalOf(thickness));
  return { ...made, ...ends(spread) };
}

/** How far the rolled edge at a height stands into the form, mm. */
function rollAt(piece: PieceModel, girths: Girths, height: number): number {
  const thickness = piece.thickness() ?? 0;
  let most = 0;
  for (const work of piece.edgeWorks()) {
    if (work.kind !== 'rolled' || work.outward || work.stretch || work.hollow === undefined) continue;
    const end =
      work.edge === 'top' ? girths.heights.at(-1)! : ENDS_BELOW.has(work.edge) ? girths.heights[0]! : undefined;
    const roll = rolledInto({ hollow: work.hollow, thickness });
    if (end !== undefined && Math.abs(height - end) < roll + thickness) most = Math.max(most, roll);
  }
  return most;
}
const ENDS_BELOW: ReadonlySet<string> = new Set(['bottom', 'rim']);

/** Room all round, with what an unsaid height leaves open. */
function roomRound(worn: Worn, fit: Fit, level: FitLevel, inside: Figure, body: Figure): Result {
  const { girths } = worn;
  const { liner } = fit;
  const of = (round: number, own: number) => clearanceRound({ inside: round, body: own, liner }).value;
  const made = clearanceRound({ inside: inside.value, body: body.value, liner });
  const spread = through(of, intervalOf(inside), intervalOf(body));
  if (level.said || girths.tip) return { ...made, ...ends(spread) };
  const { narrowest, widest } = extremesOf(girths);
  const rounds = [narrowest, widest].flatMap((each) => (each && insideAt(worn, each.height)) ?? []);
  const rooms = rounds.map(({ value }) => of(value, body.value));
  const [low, high] = [Math.min(spread.low, ...rooms), Math.max(spread.high, ...rooms)];
  if (high - low < 0.05) return made;
  return {
    ...made,
    low,
    high,
    note: say`Nothing says at which height the ${fit.region} is: taken ${level.words}. The ends are for the narrowest and the widest. ${made.note ?? ''}`.trim(),
  };
}

/** Room between two heights that are both known, and the least of all of them. */
function addBetween(worn: Worn, found: readonly Found[], set: FigureSet): void {
  if (found.length < 2) return;
  const { piece } = worn;
  const order = [...found].sort((a, b) => a.level.height - b.level.height);
  const station = ({ fit, level, body }: Found) => ({ height: level.height, body: body.value, liner: fit.liner });
  const rooms: { room: Pick<Figure, 'value' | 'low' | 'high' | 'name'>; where: string; made: Result }[] = order.map(
    ({ room, level }) => ({ room, where: level.words, made: room }),
  );
  for (const [i, low] of order.entries()) {
    const up = order[i + 1];
    const between =
      up &&
      low.level.height < up.level.height &&
      clearanceBetween(station(low), station(up), (height) => insideAt(worn, height)?.value);
    if (!up || !between || between.room.value > Math.min(low.room.value, up.room.value) - 0.05) continue;
    const zero = zeroOf(piece, worn.girths);
    const where = say`at ${show(between.height - zero, 'mm', piece.model.units(), { decimals: 0 })}, between ${low.fit.region} and ${up.fit.region}`;
    const name = `clearance.${inName(low.fit.region)}-to-${inName(up.fit.region)}`;
    const made = set.add(name, say`least room all round ${where}, besides the liner`, between.room, up.fit.line.place, [
      low.body.name,
      up.body.name,
      worn.thickness.name,
    ]);
    if (made) rooms.push({ room: made, where, made: between.room });
  }
  const least = rooms.reduce((a, b) => (b.room.value < a.room.value ? b : a));
  set.add(
    'clearance',
    say`room all round at the tightest height, ${least.where}, besides the liner`,
    least.made,
    worn.place,
    [least.room.name],
  );
}

/** What must go through a closed piece before it sits where it is worn, the furthest out last. */
const PASSES: Readonly<Record<string, readonly string[]>> = {
  head: ['head'],
  neck: ['head'],
  hand: ['hand'],
  wrist: ['hand'],
  forearm: ['wrist', 'hand'],
  elbow: ['forearm', 'wrist', 'hand'],
  'upper arm': ['elbow', 'forearm', 'wrist', 'hand'],
  ankle: ['foot'],
  calf: ['ankle', 'foot'],
  knee: ['calf', 'ankle', 'foot'],
  thigh: ['knee', 'calf', 'ankle', 'foot'],
};

/** All that ever must. */
export const PARTS: readonly string[] = [...new Set(Object.values(PASSES).flat())];

/** Whether what lies beyond goes through the narrowest place of a closed piece: `head-passes`, `hand-passes` and so on. */
function addPasses(worn: Worn, fit: Fit, level: FitLevel, set: FigureSet): void {
  const { girths, thickness } = worn;
  if (!girths.closed || (girths.tip && fit.region !== 'head')) return;
  const parts = (PASSES[fit.region] ?? []).flatMap((part) => {
    const measure = fit.wearer.measureOrEstimate(`${part} round`);
    return measure ? [{ part, measure }] : [];
  });
  const most = parts.reduce<(typeof parts)[number] | undefined>(
    (large, each) => (large && large.measure.value >= each.measure.value ? large : each),
    undefined,
  );
  // A head goes in from below as far as its brow, everything else through from end to end.
  const { narrowest } = extremesOf(girths, undefined, fit.region === 'head' ? level.height : undefined);
  if (!most || !narrowest) return;
  const narrow = [narrowest.height, girths.heights[0]!, ...(fit.region === 'head' ? [] : [girths.heights.at(-1)!])]
    .flatMap((height) => {
      const inside = insideAt(worn, height);
      return inside ? [{ height, inside }] : [];
    })
    .reduce<{ height: number; inside: Result } | undefined>(
      (least, each) => (least && least.inside.value <= each.inside.value ? least : each),
      undefined,
    );
  if (!narrow) return;
  const { part, measure } = most;
  const of = (opening: number, own: number) => passRoom({ opening, part: own, what: part }).value;
  const at = fit.line.place;
  set.add(
    `${inName(part)}-passes`,
    say`room round the ${part} where it must pass`,
    {
      ...passRoom({ opening: narrow.inside.value, part: measure.value, what: part }),
      ...ends(through(of, intervalOf(narrow.inside), intervalOf(measure))),
    },
    at,
    [measure.name, thickness.name],
  );
}

/** The measure round the part of the body: of a joint, straight or bent, the larger. */
function roundMeasure(fit: Fit): Figure | undefined {
  return [`${fit.region} round`, `bent ${fit.region} round`]
    .flatMap((words) => fit.measure(words) ?? [])
    .reduce<Figure | undefined>((most, each) => (most && most.value >= each.value ? most : each), undefined);
}

const ACROSS: Readonly<Record<string, readonly [deep: string | undefined, broad: string]>> = {
  head: ['head length', 'head breadth'],
  chest: ['chest depth', 'chest breadth'],
  hip: [undefined, 'hip breadth'],
};

function crossMeasures(
  wide: { readonly front: number; readonly side: number },
  { closed }: Girths,
  region: string,
): readonly (readonly [suffix: string, words: string, ways: string, across: number])[] {
  const [deep, broad] = ACROSS[region] ?? [];
  if (!closed || !broad) return [];
  return [
    ...(deep ? [['front-back', deep, 'room at the front and at the back', wide.front] as const] : []),
    ['side', broad, 'room at each side', wide.side],
  ];
}

/** What a form goes round with; nothing for one that goes round nothing, or of which it is not known. */
export function girthsOf(piece: PieceModel): Girths | undefined {
  const form = piece.form();
  const girths = form ? kindOf(form).girths(form) : NOT_KNOWN;
  return girths === NOT_KNOWN || girths === NONE ? undefined : girths;
}

/** Whether a form goes all the way round, by itself or with its other parts. */
export const isClosedRound = (piece: PieceModel): boolean => girthsOf(piece)?.closed ?? false;

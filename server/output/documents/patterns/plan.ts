import { boxOfPath, lengthOfPath } from '../../../geometry/outline/measure.ts';
import type { Path } from '../../../geometry/outline/path.ts';
import { around } from '../../../geometry/outline/span.ts';
import { manyByMany, Recent, type Steps } from '../../../incremental/steps.ts';
import {
  along,
  asCircle,
  beside,
  line,
  moved,
  type Point,
  radians,
  type Station,
  turned,
  turnedPoint,
} from './paths.ts';
import { type Layer, LINES, type LineKind, type Pattern, type PatternLabel, type PatternLine } from './pattern.ts';
import { type Block, Room } from './room.ts';

/**
 * A pattern with every word in its place, mm, its lower left corner at the origin. All writers draw the same plan, so a
 * letter stands in the same place on paper and on a cutter's screen.
 */
export interface Plan {
  readonly pattern: Pattern;
  readonly wide: number;
  readonly high: number;
  readonly strokes: readonly Stroke[];
  readonly texts: readonly Text[];
  /** The outline's own box in the plan. */
  readonly outline: Path;
}

export interface Stroke {
  readonly kind: LineKind | 'cross' | 'grain';
  readonly layer: Layer;
  readonly path: Path;
}

export interface Text {
  readonly text: string;
  /** The middle of its baseline, or its start. */
  readonly x: number;
  readonly y: number;
  readonly anchor: 'middle' | 'start';
  /** Height of the type, mm. */
  readonly size: number;
  /** Degrees from x. */
  readonly turn: number;
  readonly bold: boolean;
}

/** Room that an average letter takes, in heights of the type: generous, so that what is reckoned to fit does. */
const LETTER = 0.58;
/** A bold one, in the widest of the usual typefaces, beside that. */
const BOLD = 1.15;
const STEP = 1.32;
const PAD = 1;

export const textWidth = (text: string, size: number): number => [...text].length * LETTER * size;

export interface PlanOptions {
  /** Turned a quarter, where that saves paper. */
  readonly turned?: boolean;
  /** These words in the place of the heading, and nothing beside the outline: others lie there. */
  readonly inside?: string;
  /** The widest that words beside the drawing may run, mm. */
  readonly widest?: number;
}

/** One try after the other to find a place for the words. */
export function* planInSteps(
  original: Pattern,
  { turned: quarter = false, inside, widest = 180 }: PlanOptions = {},
): Steps<Plan> {
  const pattern = quarter ? yield* quarterTurned(original) : original;
  const all = (yield* manyByMany(pattern.lines, ({ path }) => boxOfPath(path))).reduce(around);
  const [dx, dy] = [-all.left, -all.bottom];
  const lines = yield* manyByMany(
    pattern.lines,
    ({ kind, path }): PatternLine => ({ kind, path: moved(path, dx, dy) }),
  );
  const outline = lines.find(({ kind }) => kind === 'outline')!.path;
  const strokes: Stroke[] = [];
  for (const [i, { kind, path }] of lines.entries()) {
    if (i % LINES_AT_ONCE === LINES_AT_ONCE - 1) yield undefined;
    strokes.push({ kind, layer: LINES[kind], path });
    if (kind === 'hole' || kind === 'rivet' || kind === 'later') strokes.push(...crossOf(path, kind));
  }
  const inner = lines.find(({ kind }) => kind === 'finished')?.path ?? outline;
  yield undefined;
  const room = yield* Room.of(
    inner,
    strokes.map(({ path }) => path),
    lines.flatMap(({ kind, path }) => (kind === 'opening' ? [path] : [])),
  );
  const texts: Text[] = [];
  const unplaced: string[] = [];
  for (const label of [...pattern.labels].sort((a, b) => RANK[a.what] - RANK[b.what])) {
    yield undefined;
    const text = yield* placed(shifted(label, dx, dy), room);
    if (text) texts.push(text);
    else if (label.text.includes(':') || label.what === 'hole' || label.what === 'line') unplaced.push(label.text);
  }
  const whole = (yield* manyByMany(lines, ({ path }) => boxOfPath(path))).reduce(around);
  if (pattern.grain !== undefined) strokes.push(...(yield* grainMark(pattern.grain, room, whole, texts)));
  const heading = inside === undefined ? headingOf(pattern) : [{ text: inside, size: 5.5, bold: true }];
  const rest = [
    ...pattern.notes,
    ...(unplaced.length ? [`Not lettered for want of room: ${unplaced.join('; ')}.`] : []),
  ];
  const { right, top } = whole;
  // All of it inside the outline where there is room, so that the template carries its own words.
  for (const wide of inside === undefined ? [110, 90, 75] : []) {
    const block = [...heading, ...wrapped(rest, 2.7, wide)];
    const spot = yield* spotFor(block, room, whole);
    if (spot) return { pattern, wide: right, high: top, strokes, texts: [...texts, ...setIn(block, spot)], outline };
  }
  for (const short of [heading, heading.slice(0, 2), heading.slice(0, 1)]) {
    const spot = yield* spotFor(short, room, whole);
    if (!spot) continue;
    texts.push(...setIn(short, spot));
    break;
  }
  if (inside !== undefined) return { pattern, wide: right, high: top, strokes, texts, outline };
  const heads = headingLine(pattern);
  const headed = Math.max(...heads.map(({ text, size }) => textWidth(text, size)));
  const wide = Math.min(Math.max(right, 95, headed), widest);
  const caption = [...heads, ...wrapped(rest, 2.7, wide)];
  const high = caption.reduce((sum, { size }) => sum + size * STEP, 0) + 3;
  const up = (path: Path) => moved(path, 0, high);
  let y = high - 3;
  const below = caption.map(({ text, size, bold }): Text => {
    y -= size * STEP;
    return { text, size, bold, x: 0, y: y + size * 0.3, anchor: 'start', turn: 0 };
  });
  const widestLine = Math.max(...caption.map(({ text, size }) => textWidth(text, size)));
  return {
    pattern,
    wide: Math.max(right, Math.min(widestLine, wide)),
    high: top + high,
    strokes: yield* manyByMany(strokes, (stroke) => ({ ...stroke, path: up(stroke.path) })),
    texts: [...texts.map((text) => ({ ...text, y: text.y + high })), ...below],
    outline: up(outline),
  };
}

const LINES_AT_ONCE = 200;

// ---- words ---------------------------------------------------------------------------------------------------------

interface Words {
  readonly text: string;
  readonly size: number;
  readonly bold: boolean;
}

function howMany({ count, turned: over, once }: Pick<Pattern, 'count' | 'turned' | 'once'>): string {
  if (once) return 'Cut 1 for all builds';
  if (!over) return count === 1 ? 'Cut 1 for each build' : `Cut ${count} for each build`;
  return `Cut ${count + over} for each build: ${count} as drawn, ${over} turned over`;
}

const headingOf = (pattern: Pattern): Words[] => [
  { text: pattern.piece, size: 5.5, bold: true },
  { text: howMany(pattern), size: 3.2, bold: false },
  { text: `${pattern.material}, ${pattern.size}`, size: 3.2, bold: false },
];

const headingLine = (pattern: Pattern): Words[] => [
  { text: pattern.piece, size: 4, bold: true },
  { text: `${howMany(pattern)} · ${pattern.material}, ${pattern.size}`, size: 3, bold: false },
];

/** Notes in lines that are no wider than this, mm. */
export function wrapped(notes: readonly string[], size: number, wide: number): Words[] {
  const most = Math.min(Math.max(20, Math.floor(wide / (LETTER * size)) || 0), LONGEST_ROW);
  return notes.flatMap((note) => {
    const lines: string[] = [];
    let row = '';
    for (const word of note.split(/\s+/).flatMap((each) => pieces(each, most))) {
      if (row && row.length + 1 + word.length > most) {
        lines.push(row);
        row = '';
      }
      row = row ? `${row} ${word}` : word;
    }
    if (row) lines.push(row);
    return lines.map((text) => ({ text, size, bold: false }));
  });
}

/** Letters in a row, however wide the piece: nobody reads further. */
const LONGEST_ROW = 1000;

/** A word that is longer than a row, cut up. */
function pieces(word: string, most: number): string[] {
  if (word.length <= most) return word ? [word] : [];
  const letters = [...word];
  return Array.from({ length: Math.ceil(letters.length / most) }, (_, i) =>
    letters.slice(i * most, (i + 1) * most).join(''),
  );
}

interface Spot extends Block {
  readonly scale: number;
}

/** The place nearest the middle where a block of lines is clear of everything, smaller where it must be. */
function* spotFor(lines: readonly Words[], room: Room, box: { right: number; top: number }): Steps<Spot | undefined> {
  const wide = Math.max(...lines.map(({ text, size, bold }) => textWidth(text, size) * (bold ? BOLD : 1)));
  const high = lines.reduce((sum, { size }) => sum + size * STEP, 0);
  const isLong = lines.length > 3;
  for (const scale of isLong ? [1, 0.9] : [1, 0.8, 0.62]) {
    for (const turn of box.right >= box.top ? [0, 90] : isLong ? [0] : [0, 90]) {
      const size = { wide: wide * scale + 2 * PAD, high: high * scale + 2 * PAD };
      const [w, h] = turn ? [size.high, size.wide] : [size.wide, size.high];
      // Written out: thousands of places are tried.
      const found = yield* freeOf(() => gridAbout(box, w, h), room, { wide: size.wide, high: size.high, turn });
      if (found) return { ...size, x: found.x, y: found.y, turn, scale };
      yield undefined;
    }
  }
  return undefined;
}

/** The first of these places where a block is clear of everything. */
function* freeOf(spots: () => readonly Point[], room: Room, size: Omit<Block, 'x' | 'y'>): Steps<Point | undefined> {
  if (!room.mayHold(size)) return undefined;
  const { wide, high, turn } = size;
  let tried = 0;
  for (const { x, y } of spots()) {
    if (++tried % SPOTS_AT_ONCE === 0) yield undefined;
    if (room.isFree({ x, y, wide, high, turn })) return { x, y };
  }
  return undefined;
}

const SPOTS_AT_ONCE = 50;

/** Places all over a box for what is so large, those nearest its middle first. */
function gridAbout({ right, top }: { right: number; top: number }, w: number, h: number): readonly Point[] {
  if (right < w || top < h) return [];
  // Of pieces alike, words as long are tried in the same places.
  return grids.get(`${right} ${top} ${w} ${h}`, () => gridIn(right, top, w, h));
}

const grids = new Recent<readonly Point[]>(64);

function gridIn(right: number, top: number, w: number, h: number): Point[] {
  const [freeX, freeY] = [right - w, top - h];
  const steps = 24;
  const spots: (Point & { off: number })[] = [];
  for (let i = 0; i <= steps; i++) {
    for (let j = 0; j <= steps; j++) {
      const [x, y] = [w / 2 + (freeX * i) / steps, h / 2 + (freeY * j) / steps];
      spots.push({ x, y, off: Math.hypot(x - right / 2, y - top / 2) });
    }
  }
  return spots.sort((a, b) => a.off - b.off);
}

function setIn(lines: readonly Words[], spot: Spot): Text[] {
  const high = lines.reduce((sum, { size }) => sum + size * STEP, 0) * spot.scale;
  let down = high / 2;
  return lines.map(({ text, size, bold }) => {
    const height = size * spot.scale;
    down -= height * STEP;
    const at = turnedPoint({ x: 0, y: down + height * 0.32 }, spot.turn);
    const isBlock = lines.length > 3;
    const start = isBlock ? turnedPoint({ x: -spot.wide / 2 + PAD, y: 0 }, spot.turn) : { x: 0, y: 0 };
    return {
      text,
      size: height,
      bold,
      turn: spot.turn,
      anchor: isBlock ? 'start' : 'middle',
      x: spot.x + at.x + start.x,
      y: spot.y + at.y + start.y,
    };
  });
}

// ---- labels --------------------------------------------------------------------------------------------------------

const RANK: Readonly<Record<PatternLabel['what'], number>> = { seam: 0, edge: 1, line: 2, hole: 3, end: 4, guide: 5 };
const SIZES: Readonly<Record<PatternLabel['what'], readonly number[]>> = {
  seam: [4.5, 3.5, 2.6],
  edge: [2.8, 2.3],
  line: [2.6, 2.2],
  hole: [2.6, 2.2],
  end: [2.2, 1.9],
  guide: [2.2, 1.9],
};

const LABELS_AT_ONCE = 8;

/** Where a label fits, and its room is taken; nothing where it fits nowhere. */
function* placed(label: PatternLabel, room: Room): Steps<Text | undefined> {
  let tried = 0;
  for (const size of SIZES[label.what]) {
    const [wide, high] = [textWidth(label.text, size) + 0.8, size * 1.25];
    for (const { x, y, turn } of 'along' in label ? alongside(label, wide, high) : about(label, wide, high)) {
      if (++tried % LABELS_AT_ONCE === 0) yield undefined;
      const block = { x, y, turn, wide, high };
      if (!room.isFree(block)) continue;
      room.take(block);
      const drop = turnedPoint({ x: 0, y: -size * 0.34 }, turn);
      return {
        text: label.text,
        size,
        turn,
        x: x + drop.x,
        y: y + drop.y,
        anchor: 'middle',
        bold: label.what === 'seam',
      };
    }
  }
  return undefined;
}

function* alongside(label: Extract<PatternLabel, { along: Path }>, wide: number, high: number): Generator<Station> {
  const length = lengthOfPath(label.along);
  if (length < wide * 0.8 && label.what === 'edge' && length < 12) return;
  // A line may have tens of thousands of points: each place of it is looked for once.
  const places = new Map<number, Station>();
  for (const inset of [1.2, 2.5, 4.5, 7, 10, 14, 20]) {
    for (const share of [0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85]) {
      const on = places.get(share) ?? along(label.along, length * share);
      places.set(share, on);
      const by = inset + high / 2;
      const at = beside(on, label.side === 'left' ? by : -by);
      yield { ...at, turn: readable(on.turn) };
      if (label.what === 'line') yield { ...beside(on, -by), turn: readable(on.turn) };
    }
  }
}

function* about(label: Extract<PatternLabel, { clear: number }>, wide: number, high: number): Generator<Station> {
  for (const out of [0.6, 2, 4, 7, 11, 16]) {
    for (const angle of [90, 270, 0, 180, 45, 135, 225, 315]) {
      const [cos, sin] = [Math.cos(radians(angle)), Math.sin(radians(angle))];
      const by = label.clear + out;
      yield { x: label.x + cos * (by + wide / 2), y: label.y + sin * (by + high / 2), turn: 0 };
    }
  }
}

/** Never upside down: words read from below or from the right. */
function readable(turn: number): number {
  const turn360 = ((turn % 360) + 360) % 360;
  const upright = turn360 > 90.5 && turn360 <= 270.5 ? turn360 - 180 : turn360;
  return upright > 180 ? upright - 360 : upright;
}

// ---- marks ---------------------------------------------------------------------------------------------------------

/** A cross in the middle of a round hole, to set the punch on. */
function crossOf(path: Path, kind: LineKind): Stroke[] {
  const round = asCircle(path);
  if (!round) return [];
  const reach = round.radius + 1;
  const { x, y } = round.centre;
  const layer = LINES[kind] === 'drill' ? 'mark' : LINES[kind];
  return [
    { kind: 'cross', layer, path: line({ x: x - reach, y }, { x: x + reach, y }) },
    { kind: 'cross', layer, path: line({ x, y: y - reach }, { x, y: y + reach }) },
  ];
}

function* grainMark(grain: number, room: Room, box: { right: number; top: number }, texts: Text[]): Steps<Stroke[]> {
  for (const long of [50, 35, 22, 14]) {
    const block = { wide: long + 2, high: 6, turn: grain };
    const [w, h] = grain ? [6, long + 2] : [long + 2, 6];
    const spot = yield* freeOf(() => [...gridAbout(box, w, h)].reverse(), room, block);
    if (!spot) continue;
    room.take({ ...block, ...spot });
    const put = (x: number, y: number): Point => {
      const at = turnedPoint({ x, y: y - 1.2 }, grain);
      return { x: spot.x + at.x, y: spot.y + at.y };
    };
    const half = long / 2;
    const shaft = line(put(-half, 0), put(half, 0));
    const heads = [-1, 1].flatMap((end) =>
      [-1, 1].map((side) => line(put(end * half, 0), put(end * (half - 2.5), side * 1.2))),
    );
    const at = put(0, 1);
    texts.push({ text: 'grain', size: 2.4, x: at.x, y: at.y, turn: grain, anchor: 'middle', bold: false });
    return [shaft, ...heads].map((path): Stroke => ({ kind: 'grain', layer: 'mark', path }));
  }
  return [];
}

// ---- turned --------------------------------------------------------------------------------------------------------

function* quarterTurned(pattern: Pattern): Steps<Pattern> {
  return {
    ...pattern,
    lines: yield* manyByMany(pattern.lines, ({ kind, path }) => ({ kind, path: turned(path, 90) })),
    labels: pattern.labels.map((label) =>
      'along' in label ? { ...label, along: turned(label.along, 90) } : { ...label, ...turnedPoint(label, 90) },
    ),
    ...(pattern.grain === undefined ? {} : { grain: (pattern.grain + 90) % 180 }),
  };
}

const shifted = (label: PatternLabel, dx: number, dy: number): PatternLabel =>
  'along' in label ? { ...label, along: moved(label.along, dx, dy) } : { ...label, x: label.x + dx, y: label.y + dy };

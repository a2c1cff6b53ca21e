import type { Blank, LaidSheet, Placement } from '../../nest/lay.ts';
import { type Point, rings } from '../../nest/shape.ts';

/**
 * A sheet with its blanks as a drawing of plain marks, in points, y downward. The HTML and the PDF draw the same marks,
 * so a letter stands in the same place in both.
 */
export interface Drawing {
  readonly title: string;
  /** The drawing in words, for who cannot see it. */
  readonly description: string;
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

export type Style =
  | 'sheet'
  | 'sheet-edge'
  | 'hatch'
  | 'leftover'
  | 'margin'
  | 'blank'
  | 'flipped'
  | 'leader'
  | 'dimension'
  | 'mark'
  | 'name';

export type Mark =
  | { readonly kind: 'path'; readonly style: Style; readonly d: string }
  | {
      readonly kind: 'text';
      readonly style: Style;
      readonly text: string;
      readonly x: number;
      /** The baseline. */
      readonly y: number;
      readonly size: number;
      readonly anchor: 'start' | 'middle' | 'end';
      /** Reads upward. */
      readonly upward?: boolean;
    };

export interface DrawnBlank extends Pick<Blank, 'id' | 'label' | 'long' | 'wide' | 'shape'> {
  readonly mark: string;
  readonly sizeText: string;
}

const WIDEST = 500;
const HIGHEST = 300;
/** Never larger than life. */
const LIFE = 72 / 25.4;
const HATCH = 7;
const TEXT = 8;
const LEAST_TEXT = 4.8;
/** Room an average letter takes, in ems: generous, so that what is reckoned to fit does. */
const LETTER = 0.6;
const TOP = 16;
const LEFT = 16;

const n = (value: number) => {
  const text = value.toFixed(2).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};
const move = (x: number, y: number) => `M${n(x)} ${n(y)}`;
const line = (x1: number, y1: number, x2: number, y2: number) => `${move(x1, y1)}L${n(x2)} ${n(y2)}`;
const box = (x: number, y: number, w: number, h: number) =>
  `${move(x, y)}L${n(x + w)} ${n(y)}L${n(x + w)} ${n(y + h)}L${n(x)} ${n(y + h)}Z`;

/** A blank's rings where they lie on the sheet, mm, y downward from the sheet's corner. */
function laidRings(blank: Pick<Blank, 'long' | 'wide' | 'shape'>, placed: Placement): Point[][] {
  return rings(blank.shape, blank.long, blank.wide).map((ring) =>
    ring.map(([x, y]): Point => {
      const across = placed.flipped ? blank.long - x : x;
      // Drawn with its up upward; a quarter turn brings its up to the left.
      const [px, py] = placed.turned ? [blank.wide - y, blank.long - across] : [across, blank.wide - y];
      return [placed.x + px, placed.y + py];
    }),
  );
}

/** Diagonal lines over a rectangle, cut off at its sides. */
function hatch(x: number, y: number, w: number, h: number): string {
  let d = '';
  for (let at = HATCH; at < w + h; at += HATCH) {
    const [x1, y1] = at <= h ? [x, y + at] : [x + at - h, y + h];
    const [x2, y2] = at <= w ? [x + at, y] : [x + w, y + at - w];
    d += line(x1, y1, x2, y2);
  }
  return d;
}

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

function inside([x, y]: Point, ring: readonly Point[]): boolean {
  let within = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [xi, yi] = ring[i]!;
    const [xj, yj] = ring[j]!;
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) within = !within;
  }
  return within;
}

function distance([x, y]: Point, ring: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[j]!;
    const [bx, by] = ring[i]!;
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return least;
}

/** Few enough points for a label's place. */
function thinned(ring: readonly Point[]): readonly Point[] {
  const every = Math.ceil(ring.length / 64);
  return every > 1 ? ring.filter((_, i) => i % every === 0) : ring;
}

/** Where a label has most room in an outline, points. */
function roomiest(outlines: readonly (readonly Point[])[]): Spot {
  const outer = outlines[0] ?? [];
  const xs = outer.map((p) => p[0]);
  const ys = outer.map((p) => p[1]);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const GRID = 14;
  let best: Spot = { x: (left + right) / 2, y: (top + bottom) / 2, w: 0, h: 0 };
  let most = 0;
  for (let i = 1; i < GRID; i++) {
    for (let j = 1; j < GRID; j++) {
      const at: Point = [left + ((right - left) * i) / GRID, top + ((bottom - top) * j) / GRID];
      if (!inside(at, outer) || outlines.slice(1).some((hole) => inside(at, hole))) continue;
      const clear = Math.min(...outlines.map((ring) => distance(at, ring)));
      if (clear > most + 1e-6) {
        most = clear;
        best = { x: at[0], y: at[1], w: clear * 1.6, h: clear * 1.2 };
      }
    }
  }
  return best;
}

function spotOf(blank: DrawnBlank, placed: Placement, outlines: readonly (readonly Point[])[], scale: number): Spot {
  const middle = { x: LEFT + (placed.x + placed.long / 2) * scale, y: TOP + (placed.y + placed.wide / 2) * scale };
  const [w, h] = [placed.long * scale, placed.wide * scale];
  switch (blank.shape.kind) {
    case 'rectangle':
      return { ...middle, w: w - 1.6, h: h - 1.6 };
    case 'round':
    case 'oval':
      return { ...middle, w: w * 0.8 - 2, h: h * 0.55 - 2 };
    default:
      return roomiest(outlines.map(thinned));
  }
}

interface Line {
  readonly text: string;
  readonly style: Style;
  readonly share: number;
}

/** The label's lines, largest that fit; nothing when not even the mark does. */
function label(spot: Spot, mark: string, piece: string, size: string): Mark[] | undefined {
  const choices: readonly (readonly Line[])[] = [
    [
      { text: mark, style: 'mark', share: 1 },
      { text: piece, style: 'name', share: 0.85 },
      { text: size, style: 'name', share: 0.85 },
    ],
    [
      { text: mark, style: 'mark', share: 1 },
      { text: size, style: 'name', share: 0.85 },
    ],
    [{ text: mark, style: 'mark', share: 1 }],
  ];
  for (const lines of choices) {
    // A line alone needs no room for another one below it.
    const step = lines.length > 1 ? 1.25 : 1;
    const wholeHeight = lines.reduce((sum, l) => sum + l.share * step, 0);
    const wholeWidth = Math.max(...lines.map((l) => [...l.text].length * LETTER * l.share));
    for (const upward of [false, true]) {
      const [w, h] = upward ? [spot.h, spot.w] : [spot.w, spot.h];
      const fits = Math.min(TEXT, h / wholeHeight, w / wholeWidth);
      const least = lines.length > 1 ? 6 : LEAST_TEXT;
      if (fits < least) continue;
      let down = (-wholeHeight * fits) / 2;
      return lines.map((l): Mark => {
        const size = l.share * fits;
        const base = down + size * (step === 1 ? 0.86 : 0.98);
        down += l.share * step * fits;
        return {
          kind: 'text',
          style: l.style,
          text: l.text,
          x: upward ? spot.x + base : spot.x,
          y: upward ? spot.y : spot.y + base,
          size,
          anchor: 'middle',
          ...(upward ? { upward } : {}),
        };
      });
    }
  }
  return undefined;
}

type Laid = { readonly placed: Placement; readonly blank: DrawnBlank };

/** Like blanks that lie a kerf apart, together. */
function groups(laid: readonly Laid[], kerf: number): Laid[][] {
  const left = new Set(laid);
  const found: Laid[][] = [];
  for (const start of laid) {
    if (!left.delete(start)) continue;
    const group = [start];
    for (const { placed: p, blank } of group) {
      for (const other of left) {
        const q = other.placed;
        const gap = kerf + 1;
        const near =
          q.x <= p.x + p.long + gap &&
          p.x <= q.x + q.long + gap &&
          q.y <= p.y + p.wide + gap &&
          p.y <= q.y + q.wide + gap;
        if (!near || other.blank !== blank || q.flipped !== p.flipped) continue;
        left.delete(other);
        group.push(other);
      }
    }
    found.push(group);
  }
  return found;
}

export interface DrawSheet {
  readonly title: string;
  readonly sheet: LaidSheet;
  readonly margin: number;
  readonly kerf: number;
  readonly grain: boolean;
  readonly longText: string;
  readonly wideText: string;
  readonly leftoverText: string;
  readonly blanks: ReadonlyMap<string, DrawnBlank>;
}

export function drawSheet(ask: DrawSheet): Drawing {
  const { sheet } = ask;
  const scale = Math.min((WIDEST - LEFT) / sheet.long, HIGHEST / sheet.wide, LIFE);
  const [w, h] = [sheet.long * scale, sheet.wide * scale];
  const marks: Mark[] = [];
  const labels: Mark[] = [];
  const unlabelled: { placed: Placement; blank: DrawnBlank }[] = [];
  const path = (style: Style, d: string) => marks.push({ kind: 'path', style, d });

  path('sheet', box(LEFT, TOP, w, h));
  path('hatch', hatch(LEFT, TOP, (sheet.leftover ? sheet.leftover.x : sheet.long) * scale, h));
  if (sheet.leftover) {
    const left = LEFT + sheet.leftover.x * scale;
    const across = sheet.leftover.long * scale;
    path('leftover', line(left, TOP, left, TOP + h));
    const room: Spot = { x: left + across / 2, y: TOP + h / 2, w: across - 6, h: h - 6 };
    labels.push(
      ...(label(room, 'left over', ask.leftoverText, '') ?? []).filter((m) => m.kind === 'text' && m.text !== ''),
    );
  }
  if (ask.margin > 0) {
    const edge = ask.margin * scale;
    if (edge > 1.5) path('margin', box(LEFT + edge, TOP + edge, w - 2 * edge, h - 2 * edge));
  }
  const names: string[] = [];
  for (const placed of sheet.placements) {
    const blank = ask.blanks.get(placed.blank);
    if (!blank) continue;
    const outlines = laidRings(blank, placed).map((ring) =>
      ring.map(([x, y]): Point => [LEFT + x * scale, TOP + y * scale]),
    );
    const d = outlines
      .map((ring) => `${ring.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('')}Z`)
      .join('');
    path(placed.flipped ? 'flipped' : 'blank', d);
    const spot = spotOf(blank, placed, outlines, scale);
    const mark = `${blank.mark}${placed.copy}`;
    names.push(mark);
    const text = label(spot, mark, blank.label, blank.sizeText);
    if (text) labels.push(...text);
    else unlabelled.push({ placed, blank });
  }
  path('sheet-edge', box(LEFT, TOP, w, h));

  // Blanks too small for a letter get it below the sheet, with a line to the blank; like ones side by side share it.
  const rows: { end: number }[] = [];
  const STEP = 10;
  const leaders: Mark[] = [];
  const outside = groups(unlabelled, ask.kerf).map((group) => {
    const lowest = group.reduce((a, b) => (b.placed.y + b.placed.wide > a.placed.y + a.placed.wide ? b : a));
    const { placed, blank } = lowest;
    return {
      text: group.length === 1 ? `${blank.mark}${placed.copy}` : `${group.length} × ${blank.mark}`,
      x: LEFT + (placed.x + placed.long / 2) * scale,
      y: TOP + (placed.y + placed.wide / 2) * scale,
    };
  });
  for (const out of outside.sort((a, b) => a.x - b.x || a.y - b.y)) {
    const wide = out.text.length * LETTER * 6.5 + 4;
    let row = rows.findIndex((r) => r.end + wide / 2 <= out.x);
    if (row < 0 && rows.length < 6) row = rows.push({ end: LEFT - wide }) - 1;
    if (row < 0) row = rows.reduce((least, r, i) => (r.end < rows[least]!.end ? i : least), 0);
    const x = Math.max(out.x, rows[row]!.end + wide / 2, LEFT + wide / 2);
    rows[row]!.end = x + wide / 2;
    const y = TOP + h + 12 + row * STEP;
    leaders.push({ kind: 'path', style: 'leader', d: line(out.x, out.y, x, y - 6) });
    labels.push({ kind: 'text', style: 'mark', text: out.text, x, y, size: 6.5, anchor: 'middle' });
  }
  marks.push(...leaders);
  marks.push(...labels);

  const dimension = (text: string, x: number, y: number, upward: boolean): Mark => ({
    kind: 'text',
    style: 'dimension',
    text,
    x,
    y,
    size: 7.5,
    anchor: 'middle',
    ...(upward ? { upward } : {}),
  });
  const half = ([...ask.longText].length * LETTER * 7.5) / 2 + 4;
  const center = LEFT + w / 2;
  if (w > 2 * half) {
    path('dimension', line(LEFT, TOP - 6, center - half, TOP - 6) + line(center + half, TOP - 6, LEFT + w, TOP - 6));
    path('dimension', line(LEFT, TOP - 10, LEFT, TOP - 2) + line(LEFT + w, TOP - 10, LEFT + w, TOP - 2));
  }
  marks.push(dimension(ask.longText, center, TOP - 3.5, false));
  const halfUp = ([...ask.wideText].length * LETTER * 7.5) / 2 + 4;
  const side = TOP + h / 2;
  if (h > 2 * halfUp) {
    path('dimension', line(LEFT - 6, TOP, LEFT - 6, side - halfUp) + line(LEFT - 6, side + halfUp, LEFT - 6, TOP + h));
    path('dimension', line(LEFT - 10, TOP, LEFT - 2, TOP) + line(LEFT - 10, TOP + h, LEFT - 2, TOP + h));
  }
  marks.push(dimension(ask.wideText, LEFT - 3.5, side, true));

  const below = rows.length > 0 ? 8 + rows.length * STEP : 4;
  const widest = Math.max(LEFT + w, ...rows.map((r) => r.end));
  let height = TOP + h + below;
  if (ask.grain) {
    const y = TOP + h + below + 6;
    path(
      'dimension',
      `${line(LEFT, y, LEFT + 40, y)}${line(LEFT, y, LEFT + 5, y - 2.5)}${line(LEFT, y, LEFT + 5, y + 2.5)}${line(LEFT + 40, y, LEFT + 35, y - 2.5)}${line(LEFT + 40, y, LEFT + 35, y + 2.5)}`,
    );
    marks.push({
      kind: 'text',
      style: 'dimension',
      text: 'grain',
      x: LEFT + 45,
      y: y + 2.5,
      size: 7.5,
      anchor: 'start',
    });
    height += 12;
  }
  return {
    title: ask.title,
    description: `${ask.longText} by ${ask.wideText}, with ${names.length === 1 ? 'one blank' : `${names.length} blanks`}: ${names.join(', ')}.`,
    width: widest + 2,
    height,
    marks,
  };
}

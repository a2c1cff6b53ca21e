import {
  appendBezierCurve,
  type Color,
  clip,
  closePath,
  degrees,
  endPath,
  lineTo,
  moveTo,
  type PDFOperator,
  type PDFPage,
  PrintScaling,
  popGraphicsState,
  pushGraphicsState,
  rectangle,
  rgb,
  setDashPattern,
  setLineWidth,
  setStrokingColor,
  stroke,
} from '@cantoo/pdf-lib';
import type { Path } from '../../geometry/outline/path.ts';
import { centreOf, radiusOf, spansOf, sweepOf } from '../../geometry/outline/span.ts';
import { atOnce, type Runner, type Steps, share } from '../../incremental/steps.ts';
import { isInches } from '../../model/values/show.ts';
import { coverOf, type Spread } from '../documents/patterns/cover.ts';
import type { Patterns } from '../documents/patterns/pattern.ts';
import { type Plan, planInSteps, type Stroke, type Text } from '../documents/patterns/plan.ts';
import { type Laid, packed } from '../documents/patterns/sheet.ts';
import {
  FREE,
  leastSheets,
  marksOf,
  PAGE,
  type PaperSize,
  type Tile,
  type Tiling,
  tilesOf,
  type Window,
  windowOf,
} from '../documents/patterns/tiles.ts';
import { type Face, type FontBytes, type OpenPdf, openPdf, savedPdf, setPaper } from './pdf.ts';

/** Points to a millimetre. */
const K = 72 / 25.4;

/** A page of a PDF may be 200 in (14 400 points) long: a longer pattern goes over several of them. */
const LONGEST = 5000;
/** Kept free inside a window, so that no line at its edge is cut in half, mm. */
const EDGE = 1;
/** More sheets than anyone tapes together. */
const MOST_SHEETS = 240;

/** The file, and the pieces that it holds no pattern of although they have one. */
export interface PatternsPdf {
  readonly bytes: Uint8Array;
  readonly leftOut: Patterns['missing'];
}

/**
 * Patterns as PDF at 1:1: a cover with the map of the sheets, then the sheets. Small pieces share a sheet, large ones go
 * over several; `full` gives each piece one page of its own size. Same patterns, same fonts: same bytes.
 */
export async function writePatternsPdf(
  given: Patterns,
  paper: PaperSize,
  fonts: FontBytes,
  run: Runner = atOnce,
): Promise<PatternsPdf> {
  const full = paper === 'full';
  const coverSize = full ? (isInches(given.units) ? 'letter' : 'a4') : paper;
  const page = full ? undefined : PAGE[paper];
  const { sheets, spreads, patterns, places, leftOut } = await run(share(0, 0.7, sheetsOf(given, page)));
  const opened = await openPdf({ sort: 'Patterns', title: given.title, date: given.date }, fonts, run);
  opened.pdf.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const window = page ? windowOf(page) : { wide: LONGEST, high: LONGEST };
  const cover = coverOf({ patterns, size: coverSize, spreads: full ? [] : spreads, window, sheets: places, full });
  await run(share(0.7, 0.75, setPaper(opened, cover)));
  await run(share(0.75, 1, draw(opened, patterns, sheets)));
  return { bytes: await savedPdf(opened), leftOut };
}

function* draw(opened: OpenPdf, patterns: Patterns, sheets: readonly Sheet[]): Steps<void> {
  for (const [i, sheet] of sheets.entries()) {
    yield* new SheetPage(opened, patterns, sheet, i + 1, sheets.length).draw();
    yield (i + 1) / sheets.length;
  }
}

/** One page: what it shows, and where. */
interface Sheet {
  readonly size: readonly [number, number];
  readonly laid: readonly Laid[];
  readonly tile?: { readonly tile: Tile; readonly tiling: Tiling; readonly first: number };
}

/** What goes on which page. */
interface Sheets {
  readonly sheets: Sheet[];
  readonly spreads: Spread[];
  /** Those that are drawn, and what is left out. */
  readonly patterns: Patterns;
  /** Where each piece is found. */
  readonly places: ReadonlyMap<string, string>;
  readonly leftOut: Patterns['missing'];
}

function* sheetsOf(given: Patterns, page: readonly [number, number] | undefined): Steps<Sheets> {
  const sheets: Sheet[] = [];
  const spreads: Spread[] = [];
  const places = new Map<string, string>();
  const leftOut: { piece: string; reason: string }[] = [];
  const small: Plan[] = [];
  const add = function* (plan: Plan, size: readonly [number, number]): Steps<void> {
    const { piece } = plan.pattern;
    const least = leastSheets(plan, windowOf(size));
    const tiling = least > MOST_SHEETS ? undefined : yield* tilesOf(plan, windowOf(size));
    const count = tiling?.tiles.length ?? least;
    if (!tiling || count > MOST_SHEETS) {
      const known = tiling ? count : `${count} or more`;
      leftOut.push({ piece, reason: `it would take ${known} sheets, and ${MOST_SHEETS} are the most: ${OTHERWISE}` });
      return;
    }
    const first = sheets.length + 1;
    if (tiling.tiles.length > 1) spreads.push({ tiling, first });
    for (const tile of tiling.tiles) {
      sheets.push({
        size,
        laid: [{ plan, x: -tile.x, y: -tile.y }],
        ...(tiling.tiles.length > 1 ? { tile: { tile, tiling, first } } : {}),
      });
    }
    places.set(piece, tiling.tiles.length > 1 ? `${first} to ${sheets.length}` : String(first));
  };
  const large: Plan[] = [];
  for (const [done, pattern] of given.patterns.entries()) {
    yield done / given.patterns.length;
    const plan = yield* planInSteps(pattern);
    if (!page) {
      const size = (length: number, free: number) => Math.min(LONGEST, Math.max(length + free, 200));
      yield* add(plan, [size(plan.wide, 2 * FREE.side + 4), size(plan.high, FREE.top + FREE.bottom + 4)]);
      continue;
    }
    const window = windowOf(page);
    const fits = [plan];
    for (const turned of [false, true]) {
      fits.push(yield* planInSteps(pattern, { turned, widest: window.wide }));
    }
    const fitting = fits.find(({ wide, high }) => wide <= window.wide - 2 * EDGE && high <= window.high - 2 * EDGE);
    if (fitting) small.push(fitting);
    else large.push(yield* fewest([fits[1]!, fits[2]!], window));
  }
  if (page) {
    const window = windowOf(page);
    for (const laid of yield* packed(small, window.wide - 2 * EDGE, window.high - 2 * EDGE)) {
      sheets.push({ size: page, laid: laid.map((each) => ({ ...each, x: each.x + EDGE, y: each.y + EDGE })) });
      for (const { plan } of laid) places.set(plan.pattern.piece, String(sheets.length));
    }
    for (const plan of large) yield* add(plan, page);
  }
  const drawn = given.patterns.filter(({ piece }) => places.has(piece));
  const missing = [...given.missing, ...leftOut];
  return { sheets, spreads, places, leftOut, patterns: { ...given, patterns: drawn, missing } };
}

const OTHERWISE = 'ask for full pages, or for a DXF';

/** The way of laying a pattern that takes fewest sheets. */
function* fewest(plans: readonly Plan[], window: Window): Steps<Plan> {
  const counts: number[] = [];
  for (const plan of plans) {
    const least = leastSheets(plan, window);
    counts.push(least > MOST_SHEETS ? least : (yield* tilesOf(plan, window)).tiles.length);
  }
  return plans[counts.indexOf(Math.min(...counts))]!;
}

// ---- one page ------------------------------------------------------------------------------------------------------

const ink = rgb(0, 0, 0);
const soft = rgb(0.35, 0.385, 0.415);
const copper = rgb(0.58, 0.278, 0.11);
const blue = rgb(0.13, 0.3, 0.48);
const red = rgb(0.627, 0.11, 0.11);

interface Look {
  readonly color: Color;
  /** mm */
  readonly width: number;
  readonly dash?: readonly number[];
}

const LOOK: Readonly<Record<Stroke['kind'], Look>> = {
  outline: { color: ink, width: 0.4 },
  opening: { color: ink, width: 0.4 },
  hole: { color: red, width: 0.3 },
  bend: { color: copper, width: 0.3, dash: [7, 2] },
  fold: { color: copper, width: 0.25, dash: [4, 1.5] },
  crease: { color: copper, width: 0.3, dash: [7, 1.5, 1.5, 1.5] },
  finished: { color: ink, width: 0.15 },
  later: { color: blue, width: 0.25, dash: [1.4, 0.9] },
  rivet: { color: blue, width: 0.25, dash: [1.1, 0.7] },
  centre: { color: soft, width: 0.13, dash: [8, 1.5, 1, 1.5] },
  match: { color: ink, width: 0.3 },
  guide: { color: blue, width: 0.18 },
  cross: { color: soft, width: 0.13 },
  grain: { color: soft, width: 0.25 },
  sheet: { color: soft, width: 0.25 },
};

/** Roughly: an arc is a few curves. */
const operatorsOf = ({ vertices }: Path): number => 6 + vertices.reduce((sum, { bulge }) => sum + (bulge ? 6 : 1), 0);
const IN_A_STREAM = 2_000;

class SheetPage {
  private readonly page: PDFPage;
  private readonly window: Window;

  constructor(
    private readonly opened: OpenPdf,
    private readonly patterns: Patterns,
    private readonly sheet: Sheet,
    private readonly number: number,
    private readonly count: number,
  ) {
    const [wide, high] = sheet.size;
    this.page = opened.pdf.addPage([wide * K, high * K]);
    this.window = windowOf(sheet.size);
  }

  *draw(): Steps<void> {
    const { laid } = this.sheet;
    const { wide, high } = this.window;
    this.page.pushOperators(
      pushGraphicsState(),
      rectangle(FREE.side * K, FREE.bottom * K, wide * K, high * K),
      clip(),
      endPath(),
    );
    let operators = 0;
    for (const each of laid) {
      for (const { kind, path } of each.plan.strokes) {
        yield undefined;
        operators += operatorsOf(path);
        if (operators > IN_A_STREAM) {
          operators = 0;
          // Begins a stream of its own: each is squeezed in one go.
          this.page.resetPosition();
        }
        this.stroke(path, LOOK[kind], each.x, each.y);
      }
      for (const text of each.plan.texts) {
        yield undefined;
        this.text(text, each.x, each.y);
      }
    }
    this.page.pushOperators(popGraphicsState());
    this.registration();
    this.head();
    this.foot();
  }

  /** From the window's corner, mm, to the page, points. */
  private at(x: number, y: number): readonly [number, number] {
    return [(FREE.side + x) * K, (FREE.bottom + y) * K];
  }

  private stroke(path: Path, look: Look, dx = 0, dy = 0): void {
    const spans = spansOf(path);
    const first = spans[0];
    if (!first) return;
    const operators: PDFOperator[] = [
      pushGraphicsState(),
      setStrokingColor(look.color),
      setLineWidth(look.width * K),
      setDashPattern(
        (look.dash ?? []).map((each) => each * K),
        0,
      ),
      moveTo(...this.at(first.from.x + dx, first.from.y + dy)),
    ];
    for (const span of spans) {
      if (span.bulge === 0) {
        operators.push(lineTo(...this.at(span.to.x + dx, span.to.y + dy)));
        continue;
      }
      const [centre, radius, sweep] = [centreOf(span), radiusOf(span), sweepOf(span)];
      const start = Math.atan2(span.from.y - centre.y, span.from.x - centre.x);
      // A curve for every 30° lies within a millionth of the radius.
      const steps = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 6)));
      const reach = (4 / 3) * Math.tan(sweep / steps / 4);
      for (let k = 0; k < steps; k++) {
        const [a, b] = [start + (sweep * k) / steps, start + (sweep * (k + 1)) / steps];
        const on = (angle: number, ahead: number) =>
          this.at(
            centre.x + dx + radius * (Math.cos(angle) - ahead * Math.sin(angle)),
            centre.y + dy + radius * (Math.sin(angle) + ahead * Math.cos(angle)),
          );
        operators.push(appendBezierCurve(...on(a, reach), ...on(b, -reach), ...on(b, 0)));
      }
    }
    if (path.closed) operators.push(closePath());
    this.page.pushOperators(...operators, stroke(), popGraphicsState());
  }

  private text(text: Text, dx: number, dy: number): void {
    const face = text.bold ? this.opened.bold : this.opened.regular;
    const prepared = face.text(text.text);
    const size = text.size * K;
    const back = text.anchor === 'middle' ? face.width(prepared, size) / 2 : 0;
    const angle = (text.turn * Math.PI) / 180;
    const [x, y] = this.at(text.x + dx, text.y + dy);
    this.page.drawText(prepared, {
      x: x - back * Math.cos(angle),
      y: y - back * Math.sin(angle),
      size,
      font: face.font,
      color: ink,
      rotate: degrees(text.turn),
    });
  }

  /** Words in the margins, from the page's corner, mm. */
  private say(text: string, x: number, y: number, size: number, face: Face, color: Color = soft, turn = 0): void {
    this.page.drawText(face.text(text), {
      x: x * K,
      y: y * K,
      size: size * K,
      font: face.font,
      color,
      rotate: degrees(turn),
    });
  }

  private line(x1: number, y1: number, x2: number, y2: number, width: number, color: Color): void {
    this.page.drawLine({ start: { x: x1 * K, y: y1 * K }, end: { x: x2 * K, y: y2 * K }, thickness: width * K, color });
  }

  private registration(): void {
    const { tile } = this.sheet;
    if (!tile) return;
    const { wide, high } = this.window;
    const { tiling, first } = tile;
    for (const mark of marksOf(tiling, this.window)) {
      const [x, y] = [mark.x - tile.tile.x, mark.y - tile.tile.y];
      if (x < 3 || y < 3 || x > wide - 3 || y > high - 3) continue;
      const look = { color: ink, width: 0.2 };
      this.stroke(
        {
          vertices: [
            { x: x - 4, y },
            { x: x + 4, y },
          ],
          closed: false,
        },
        look,
      );
      this.stroke(
        {
          vertices: [
            { x, y: y - 4 },
            { x, y: y + 4 },
          ],
          closed: false,
        },
        look,
      );
      this.stroke(
        {
          vertices: [
            { x: x - 2, y, bulge: 1 },
            { x: x + 2, y, bulge: 1 },
          ],
          closed: true,
        },
        look,
      );
    }
    const numberAt = (column: number, row: number) => {
      const index = tiling.tiles.findIndex((each) => each.column === column && each.row === row);
      return index < 0 ? undefined : first + index;
    };
    const { column, row } = tile.tile;
    const [left, right] = [FREE.side, FREE.side + wide];
    const [bottom, top] = [FREE.bottom, FREE.bottom + high];
    const frame = { color: soft, width: 0.13, dash: [2, 1.5] } as const;
    const side = (x1: number, y1: number, x2: number, y2: number) =>
      this.stroke(
        {
          vertices: [
            { x: x1, y: y1 },
            { x: x2, y: y2 },
          ],
          closed: false,
        },
        frame,
      );
    const { regular } = this.opened;
    const next = (column: number, row: number, label: (sheet: number) => void, draw: () => void) => {
      const sheet = numberAt(column, row);
      if (sheet === undefined) return;
      draw();
      label(sheet);
    };
    next(
      column - 1,
      row,
      (sheet) => this.say(`sheet ${sheet}`, left - 1.5, bottom + high / 2 - 6, 2.6, regular, soft, 90),
      () => side(0, 0, 0, high),
    );
    next(
      column + 1,
      row,
      (sheet) => this.say(`sheet ${sheet}`, right + 3.6, bottom + high / 2 - 6, 2.6, regular, soft, 90),
      () => side(wide, 0, wide, high),
    );
    next(
      column,
      row - 1,
      (sheet) => this.say(`sheet ${sheet}`, left + wide / 2 - 6, top + 1.2, 2.6, regular),
      () => side(0, high, wide, high),
    );
    next(
      column,
      row + 1,
      (sheet) => this.say(`sheet ${sheet}`, left + wide / 2 - 6, bottom - 3.2, 2.6, regular),
      () => side(0, 0, wide, 0),
    );
  }

  private head(): void {
    const [wide, high] = this.sheet.size;
    const { regular, bold } = this.opened;
    const { tile, laid } = this.sheet;
    const names = laid.map(({ plan }) => plan.pattern.piece).join(', ');
    const where = tile
      ? ` · row ${tile.tile.row} of ${tile.tiling.rows}, column ${tile.tile.column} of ${tile.tiling.columns}`
      : '';
    const right = `${this.patterns.file} · ${this.patterns.version} · ${this.patterns.date} · sheet ${this.number} of ${this.count}`;
    const used = regular.width(regular.text(right), 2.6 * K) / K;
    const room = (wide - 2 * FREE.side - used - 6) * K;
    const y = high - 9.5;
    this.say(regular.text(right), wide - FREE.side - used, y, 2.6, regular);
    this.say(bold.clip(`${names}${where}`, 3.4 * K, Math.max(room, 30 * K)), FREE.side, y, 3.4, bold, ink);
  }

  /** The two bars to prove the scale by, and what the paper is not. */
  private foot(): void {
    const { regular, bold } = this.opened;
    const x = FREE.side;
    const bar = (y: number, length: number, step: number, label: string) => {
      this.line(x, y, x + length, y, 0.3, ink);
      for (let i = 0; i * step <= length + 1e-6; i++) {
        const isEnd = i === 0 || Math.abs(i * step - length) < 1e-6;
        this.line(x + i * step, y, x + i * step, y + (isEnd ? 4 : 2), isEnd ? 0.3 : 0.18, ink);
      }
      this.say(label, x + 2, y + 2.6, 2.6, bold, ink);
    };
    if (isInches(this.patterns.units)) bar(18, 76.2, 12.7, '3 in');
    else bar(18, 100, 10, '100 mm');
    bar(10, 101.6, 25.4, '4 in');
    const words = [
      'Print at 100 %. Measure both bars before you cut.',
      'Seen from outside. Not a statement that any piece protects.',
      this.patterns.title,
    ];
    const room = (this.sheet.size[0] - 2 * FREE.side - 108) * K;
    for (const [i, text] of words.entries())
      this.say(regular.clip(text, 2.5 * K, room), x + 108, 19 - i * 4, 2.5, regular);
  }
}

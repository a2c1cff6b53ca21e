import { type Color, degrees, LineCapStyle, PDFDocument, type PDFFont, type PDFPage, rgb } from '@cantoo/pdf-lib';
import * as fontkit from 'fontkit';
import { atOnce, oneByOne, type Runner, type Steps } from '../../incremental/steps.ts';
import type { Drawing, Style } from '../documents/drawing.ts';
import { type Column, linesOf, type Notice, type Paper, type Table } from '../documents/paper.ts';
import { printable } from './escape.ts';

/** The two faces a paper is set in, as TrueType bytes. */
export interface FontBytes {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

const SIZES = { a4: [595.28, 841.89], a3: [841.89, 1190.55], letter: [612, 792] } as const;
const SIDE = 42;
const HEAD = 52;
const FOOT = 50;

const ink = rgb(0.114, 0.133, 0.149);
const soft = rgb(0.35, 0.385, 0.415);
const rule = rgb(0.79, 0.81, 0.825);
const pale = rgb(0.953, 0.945, 0.925);
const copper = rgb(0.58, 0.278, 0.11);
const red = rgb(0.627, 0.11, 0.11);
const white = rgb(1, 1, 1);

/** What stands in for a letter that the face does not have. */
const STAND_IN = '\ufffd';
/** Signs of ours that the face lacks, in words or nearest signs. */
const NEAREST: Readonly<Record<string, string>> = {
  '√': 'sqrt ',
  '→': 'to',
  '≥': '>=',
  '≤': '<=',
  '≈': '~',
  '⌀': 'Ø',
  '∞': 'infinite',
  '☐': '[ ]',
  '✓': 'yes',
  '∙': '·',
  '⋅': '·',
};

/** A typeface in a document, and what it can say. */
export class Face {
  private readonly has: ReadonlySet<number>;
  private readonly widths = new Map<string, number>();
  /** Set once a letter had to be replaced, so that the paper can say so. */
  replaced = false;
  constructor(readonly font: PDFFont) {
    this.has = new Set(font.getCharacterSet());
  }

  /** The text in letters that the face has. */
  text(raw: string): string {
    let out = '';
    for (const letter of printable(raw)) {
      const code = letter.codePointAt(0)!;
      if (/\s/.test(letter)) out += ' ';
      // Joiners and variation marks carry no shape of their own.
      else if (code === 0x200d || code === 0x200b || (code >= 0xfe00 && code <= 0xfe0f)) continue;
      else if (this.has.has(code)) out += letter;
      else if (NEAREST[letter] !== undefined) out += NEAREST[letter];
      else {
        out += STAND_IN;
        this.replaced = true;
      }
      if (letter === STAND_IN) this.replaced = true;
    }
    return out;
  }

  /** Width of prepared text, in points: letter by letter, since the faces are set without kerning. */
  width(text: string, size: number): number {
    let sum = 0;
    for (const letter of text) {
      let one = this.widths.get(letter);
      if (one === undefined) {
        one = this.font.widthOfTextAtSize(letter, 1000) / 1000;
        this.widths.set(letter, one);
      }
      sum += one;
    }
    return sum * size;
  }

  /** Lines no wider than `room`; a word that is wider by itself is broken. */
  wrap(raw: string, size: number, room: number): string[] {
    const lines: string[] = [];
    const space = this.width(' ', size);
    let line = '';
    let used = 0;
    const put = () => {
      if (line !== '') lines.push(line);
      line = '';
    };
    for (const word of this.text(raw)
      .split(' ')
      .filter((w) => w !== '')) {
      const wide = this.width(word, size);
      if (line !== '' && used + space + wide <= room) {
        line = `${line} ${word}`;
        used += space + wide;
        continue;
      }
      put();
      let rest = word;
      let left = wide;
      while (left > room && rest !== '') {
        const cut = this.breakAt(rest, size, room);
        lines.push(rest.slice(0, cut));
        left -= this.width(rest.slice(0, cut), size);
        rest = rest.slice(cut);
      }
      line = rest;
      used = left;
    }
    put();
    return lines.length > 0 ? lines : [''];
  }

  /** One line, cut off with dots where it is too long. */
  clip(raw: string, size: number, room: number): string {
    const whole = this.text(raw);
    if (this.width(whole, size) <= room) return whole;
    return `${whole.slice(0, this.fitting(whole, size, room - this.width('…', size)))}…`;
  }

  /** How much of a text is no wider than `room`, never half a letter. However long the text, only that is looked at. */
  private fitting(text: string, size: number, room: number): number {
    let at = 0;
    let used = 0;
    for (const letter of text) {
      used += this.width(letter, size);
      if (used > room) break;
      at += letter.length;
    }
    return at;
  }

  private breakAt(word: string, size: number, room: number): number {
    const low = Math.max(1, this.fitting(word, size, room));
    // Never between the halves of one letter, and rather after a hyphen or slash.
    const natural =
      Math.max(word.lastIndexOf('-', low - 1), word.lastIndexOf('/', low - 1), word.lastIndexOf('_', low - 1)) + 1;
    if (natural > low / 2) return natural;
    const code = word.charCodeAt(low - 1);
    return code >= 0xd800 && code <= 0xdbff ? Math.max(low - 1, 2) : low;
  }
}

interface Piece {
  readonly text: string;
  readonly face: Face;
  readonly size: number;
  readonly color: Color;
}

class Sheet {
  private page: PDFPage;
  private y = 0;
  readonly pages: PDFPage[] = [];
  private readonly wide: number;
  private readonly high: number;

  constructor(
    private readonly pdf: PDFDocument,
    private readonly paper: Paper,
    readonly regular: Face,
    readonly bold: Face,
  ) {
    [this.wide, this.high] = SIZES[paper.size];
    this.page = this.fresh();
  }

  private get room(): number {
    return this.wide - 2 * SIDE;
  }
  private get left(): number {
    return this.y - FOOT;
  }
  private get whole(): number {
    return this.high - HEAD - FOOT;
  }

  private fresh(): PDFPage {
    this.page = this.pdf.addPage([this.wide, this.high]);
    this.pages.push(this.page);
    this.y = this.high - HEAD;
    return this.page;
  }

  /** A new page unless this much still fits; what no page could hold starts where it is. */
  private need(height: number): void {
    if (this.left < height && this.left < this.whole - 1) this.fresh();
  }

  private put(piece: Piece, x: number, y: number): void {
    if (piece.text === '') return;
    this.page.drawText(piece.text, { x, y, size: piece.size, font: piece.face.font, color: piece.color });
  }

  private rect(x: number, y: number, width: number, height: number, color: Color): void {
    this.page.drawRectangle({ x, y, width, height, color });
  }

  private across(y: number, thickness: number, color: Color, x = SIDE, width = this.room): void {
    this.page.drawLine({ start: { x, y }, end: { x: x + width, y }, thickness, color });
  }

  title(): void {
    this.y = this.high - 40;
    this.rect(SIDE, this.y, this.room, 4.5, ink);
    this.y -= 15;
    this.put(
      { text: this.bold.text(this.paper.sort.toUpperCase()), face: this.bold, size: 8, color: copper },
      SIDE,
      this.y,
    );
    for (const text of shortened(this.bold.wrap(this.paper.title, 20, this.room), 6)) {
      this.y -= 23;
      this.put({ text, face: this.bold, size: 20, color: ink }, SIDE, this.y);
    }
    this.y -= 9;
    this.across(this.y, 0.8, ink);
    this.y -= 12;
  }

  heading(text: string, level: 2 | 3, following: number): void {
    const size = level === 2 ? 13 : 10.5;
    const lines = this.bold.wrap(text, size, this.room);
    const height = lines.length * size * 1.25 + (level === 2 ? 24 : 14);
    this.need(height + following);
    this.y -= level === 2 ? 12 : 8;
    for (const line of lines) {
      this.need(size * 1.3);
      this.y -= size * 1.15;
      this.put({ text: line, face: this.bold, size, color: ink }, SIDE, this.y);
    }
    if (level === 2) {
      this.y -= 5;
      this.across(this.y, 1.4, copper);
    }
    this.y -= 7;
  }

  *text(text: string, quiet: boolean): Steps<void> {
    for (const line of this.regular.wrap(text, 9, this.room)) {
      yield undefined;
      this.need(12);
      this.y -= 11.5;
      this.put({ text: line, face: this.regular, size: 9, color: quiet ? soft : ink }, SIDE, this.y);
    }
    this.y -= 8;
  }

  facts(facts: readonly { readonly name: string; readonly value: string }[]): void {
    const columns = 3;
    const gap = 14;
    const wide = (this.room - gap * (columns - 1)) / columns;
    for (let i = 0; i < facts.length; i += columns) {
      const set = facts.slice(i, i + columns).map((f) => ({
        name: this.regular.wrap(f.name, 7.5, wide),
        value: this.bold.wrap(f.value, 9, wide),
      }));
      const height = Math.max(...set.map((f) => f.name.length * 9.5 + f.value.length * 11.5)) + 5;
      this.need(Math.min(height, this.whole));
      let deepest = this.y;
      for (const [at, fact] of set.entries()) {
        const x = SIDE + at * (wide + gap);
        let y = this.y;
        for (const text of fact.name) {
          y -= 9.5;
          this.put({ text, face: this.regular, size: 7.5, color: soft }, x, y);
        }
        for (const text of fact.value) {
          y -= 11.5;
          if (y < FOOT) break;
          this.put({ text, face: this.bold, size: 9, color: ink }, x, y);
        }
        deepest = Math.min(deepest, y);
      }
      this.y = deepest - 5;
    }
    this.y -= 5;
  }

  *notice(block: Notice): Steps<void> {
    const color = block.tone === 'stop' ? red : block.tone === 'caution' ? copper : soft;
    const room = this.room - 26;
    const lines: { readonly pieces: readonly Piece[]; readonly bullet: boolean }[] = [];
    const title = this.bold.wrap(block.title, 10, room).map((text) => ({
      pieces: [{ text, face: this.bold, size: 10, color: block.tone === 'stop' ? red : ink }],
      bullet: false,
    }));
    for (const line of title) lines.push(line);
    const bullets = block.tone !== 'statement';
    for (const item of block.items) {
      yield undefined;
      const lead = item.title ? `${item.title}.` : '';
      for (const [i, pieces] of this.run(lead, item.text, 9, bullets ? room - 10 : room).entries())
        lines.push({ pieces, bullet: bullets && i === 0 });
    }
    const STEP = 12;
    let at = 0;
    this.need(Math.min(this.whole, Math.min(lines.length, 4) * STEP + 14));
    while (at < lines.length) {
      yield undefined;
      const fits = Math.max(1, Math.floor((this.left - 14) / STEP));
      const part = lines.slice(at, at + fits);
      const height = part.length * STEP + 10;
      if (block.tone !== 'statement') this.rect(SIDE, this.y - height, this.room, height, pale);
      this.rect(SIDE, this.y - height, 4, height, color);
      let y = this.y - 5;
      for (const [i, line] of part.entries()) {
        y -= STEP;
        const inset = bullets && at + i >= title.length ? 10 : 0;
        if (line.bullet) this.put({ text: '·', face: this.bold, size: 11, color }, SIDE + 14, y + 2.5);
        let x = SIDE + 14 + inset;
        for (const piece of line.pieces) {
          this.put(piece, x, y + 2.5);
          x += piece.face.width(piece.text, piece.size);
        }
      }
      this.y -= height + 8;
      at += part.length;
      if (at < lines.length) this.fresh();
    }
  }

  /** Wraps a bold lead and the plain text after it as one paragraph. */
  private run(lead: string, text: string, size: number, room: number): Piece[][] {
    const words = [
      ...this.words(lead, this.bold, size, room).map((word) => ({ word, face: this.bold })),
      ...this.words(text, this.regular, size, room).map((word) => ({ word, face: this.regular })),
    ];
    const lines: Piece[][] = [[]];
    let used = 0;
    const space = this.regular.width(' ', size);
    for (const { word, face } of words) {
      const width = face.width(word, size);
      if (used > 0 && used + space + width > room) {
        lines.push([]);
        used = 0;
      }
      const gap = used > 0 ? ' ' : '';
      const line = lines.at(-1)!;
      const before = line.at(-1);
      // Words of one face are set in one go: every run of letters costs as much as a line of them.
      if (before?.face === face) line[line.length - 1] = { ...before, text: `${before.text}${gap}${word}` };
      else line.push({ text: `${gap}${word}`, face, size, color: ink });
      used += width + (gap ? space : 0);
    }
    return lines;
  }

  private words(text: string, face: Face, size: number, room: number): string[] {
    return face
      .text(text)
      .split(' ')
      .filter((w) => w !== '')
      .flatMap((w) => (face.width(w, size) > room ? face.wrap(w, size, room) : [w]));
  }

  *drawing(drawing: Drawing, caption: string): Steps<void> {
    const lines = this.regular.wrap(caption, 8, this.room);
    const below = lines.length * 10 + 12;
    let scale = Math.min(1, this.room / drawing.width, (this.whole - 40) / drawing.height);
    // A drawing a little too high for what is left of the page is drawn a little smaller.
    const squeezed = (this.left - below) / drawing.height;
    if (squeezed < scale && squeezed >= scale * SQUEEZE) scale = squeezed;
    this.need(Math.min(this.whole, drawing.height * scale + below));
    const top = this.y;
    for (const [i, mark] of drawing.marks.entries()) {
      yield undefined;
      // Begins a stream of its own: each is squeezed in one go.
      if (i % MARKS_IN_A_STREAM === MARKS_IN_A_STREAM - 1) this.page.resetPosition();
      if (mark.kind === 'path') {
        const look = LOOK[mark.style];
        this.page.drawSvgPath(mark.d, {
          x: SIDE,
          y: top,
          scale,
          ...(look.fill ? { color: look.fill } : {}),
          ...(look.stroke ? { borderColor: look.stroke, borderWidth: (look.width ?? 0.6) / scale } : {}),
          ...(look.dash ? { borderDashArray: [...look.dash], borderLineCap: LineCapStyle.Butt } : {}),
        });
        continue;
      }
      const face = mark.style === 'mark' ? this.bold : this.regular;
      const text = face.text(mark.text);
      const size = mark.size * scale;
      const width = face.width(text, size);
      const back = mark.anchor === 'middle' ? width / 2 : mark.anchor === 'end' ? width : 0;
      const [x, y] = [SIDE + mark.x * scale, top - mark.y * scale];
      this.page.drawText(text, {
        x: mark.upward ? x : x - back,
        y: mark.upward ? y - back : y,
        size,
        font: face.font,
        color: LOOK[mark.style].stroke ?? ink,
        ...(mark.upward ? { rotate: degrees(90) } : {}),
      });
    }
    this.y = top - drawing.height * scale - 3;
    for (const text of lines) {
      this.y -= 10;
      this.put({ text, face: this.regular, size: 8, color: soft }, SIDE, this.y);
    }
    this.y -= 9;
  }

  *table(block: Table): Steps<void> {
    const TICK = block.tick ? 40 : 0;
    const PAD = 4;
    const size = 8.5;
    const small = 7.2;
    const LINE = block.dense ? 9.6 : 10.4;
    const EXTRA = block.dense ? 3.4 : 6.5;
    const TICKBOX = block.dense ? 7.6 : 9.5;
    const gaps = gapsOf(block.columns);
    const widths = yield* this.columnWidths(block, this.room - TICK, PAD, size, small);
    const starts = widths.map((_, i) => SIDE + TICK + widths.slice(0, i).reduce((a, b) => a + b, 0) + gaps[i]!);
    const inner = (i: number) => widths[i]! - gaps[i]! - 2 * PAD;

    const heads = block.columns.map((c, i) => this.bold.wrap(c.title, 7.5, inner(i)));
    const tickHead = block.tick ? this.bold.wrap(block.tick, 7.5, TICK - 4) : [];
    const headLines = Math.max(tickHead.length, ...heads.map((h) => h.length));
    const headHeight = headLines * 9 + 8;
    const caption = this.regular.wrap(block.caption, 8.5, this.room);

    const header = () => {
      const bottom = this.y - headHeight;
      const lay = (lines: readonly string[], x: number, width: number, right: boolean) => {
        for (const [n, text] of lines.entries()) {
          const y = bottom + 5.5 + (lines.length - 1 - n) * 9;
          const shift = right ? width - this.bold.width(text, 7.5) : 0;
          this.put({ text, face: this.bold, size: 7.5, color: ink }, x + shift, y);
        }
      };
      lay(tickHead, SIDE, TICK - 4, false);
      for (const [i, lines] of heads.entries())
        lay(lines, starts[i]! + PAD, inner(i), block.columns[i]?.align === 'right');
      this.y = bottom;
      this.across(this.y, 1.1, ink);
    };

    const prepared = yield* oneByOne(
      [
        ...block.rows.map((cells) => ({ cells, foot: false })),
        ...(block.foot ? [{ cells: block.foot, foot: true }] : []),
      ],
      ({ cells, foot }) => ({
        foot,
        cells: cells.map((cell, i): Piece[] =>
          linesOf(cell).flatMap((line, n) => {
            const strong = foot || (n === 0 && block.columns[i]?.head);
            const face = strong && n === 0 ? this.bold : this.regular;
            const at = n === 0 ? size : small;
            return face
              .wrap(line, at, inner(i))
              .map((text): Piece => ({ text, face, size: at, color: n === 0 ? ink : soft }));
          }),
        ),
      }),
    );

    const heightOf = (cells: readonly (readonly Piece[])[]) =>
      Math.max(1, ...cells.map((c) => c.length)) * LINE + EXTRA;
    const first = prepared[0] ? Math.min(heightOf(prepared[0].cells), 160) : 0;
    this.need(caption.length * 11 + headHeight + first + 6);
    for (const text of caption) {
      this.y -= 11;
      this.put({ text, face: this.regular, size: 8.5, color: soft }, SIDE, this.y);
    }
    this.y -= 2;
    header();

    for (const row of prepared) {
      let cells = row.cells;
      let begun = false;
      for (;;) {
        yield undefined;
        const height = heightOf(cells);
        if (height > this.left && (height <= this.whole - headHeight || this.left < 5 * LINE)) {
          this.fresh();
          header();
        }
        const room = Math.max(1, Math.floor((this.left - EXTRA) / LINE));
        const now = cells.map((c) => c.slice(0, room));
        const later = cells.map((c) => c.slice(room));
        const part = heightOf(now);
        if (row.foot) this.across(this.y, 1.1, ink);
        if (block.tick && !row.foot && !begun) {
          const y = this.y - EXTRA / 2 - TICKBOX - (LINE - TICKBOX) / 2;
          this.page.drawRectangle({
            x: SIDE + 2,
            y,
            width: TICKBOX,
            height: TICKBOX,
            borderColor: ink,
            borderWidth: 0.8,
          });
        }
        for (const [i, pieces] of now.entries()) {
          for (const [n, piece] of pieces.entries()) {
            const shift = block.columns[i]?.align === 'right' ? inner(i) - piece.face.width(piece.text, piece.size) : 0;
            this.put(piece, starts[i]! + PAD + shift, this.y - EXTRA / 2 - 8.3 - n * LINE);
          }
        }
        this.y -= part;
        if (!row.foot) this.across(this.y, 0.5, rule);
        if (later.every((c) => c.length === 0)) break;
        cells = later;
        begun = true;
        this.fresh();
        header();
      }
    }
    this.y -= 14;
  }

  /** Each column gets what its longest word needs, then a share of the rest by what it would like. */
  private *columnWidths(block: Table, room: number, pad: number, size: number, small: number): Steps<number[]> {
    const gaps = gapsOf(block.columns);
    const all = block.foot ? [...block.rows, block.foot] : block.rows;
    const sizes: { readonly least: number; readonly wish: number }[] = [];
    for (const [i, column] of block.columns.entries()) {
      let least = 0;
      let wish = 0;
      const see = (face: Face, text: string, at: number, whole: boolean) => {
        const plain = face.text(text);
        const full = face.width(plain, at);
        wish = Math.max(wish, full);
        // A figure is never parted from its unit: right-hand columns keep their first line whole where that is short.
        if (whole && full < 90) least = Math.max(least, full);
        else for (const word of plain.split(' ')) least = Math.max(least, face.width(word, at));
      };
      see(this.bold, column.title, 7.5, false);
      for (const cells of all) {
        yield undefined;
        for (const [n, line] of linesOf(cells[i] ?? '').entries())
          see(n === 0 ? this.bold : this.regular, line, n === 0 ? size : small, n === 0 && column.align === 'right');
      }
      const around = 2 * pad + gaps[i]! + 0.5;
      sizes.push({ least: Math.min(least, room * 0.3) + around, wish: Math.min(wish, room * 0.6) + around });
    }
    const least = sizes.reduce((sum, s) => sum + s.least, 0);
    if (least >= room) return sizes.map((s) => (s.least / least) * room);
    const wanted = sizes.reduce((sum, s) => sum + Math.max(0, s.wish - s.least), 0);
    const spare = room - least;
    if (wanted <= spare) return sizes.map((s) => Math.max(s.wish, s.least) + (spare - wanted) / sizes.length);
    return sizes.map((s) => s.least + (Math.max(0, s.wish - s.least) / wanted) * spare);
  }

  /** Heads and feet, once it is known how many pages there are. */
  *frame(): Steps<void> {
    const sort = `${this.paper.sort}: `;
    for (const [i, page] of this.pages.entries()) {
      yield undefined;
      this.page = page;
      const pageText = `page ${i + 1} of ${this.pages.length}`;
      const y = 26;
      this.across(y + 12, 0.6, rule);
      this.put({ text: this.regular.text(this.paper.foot), face: this.regular, size: 7.5, color: soft }, SIDE, y);
      const end = `${this.regular.text(this.paper.date)}   ·   ${pageText}`;
      this.put(
        { text: end, face: this.regular, size: 7.5, color: soft },
        this.wide - SIDE - this.regular.width(end, 7.5),
        y,
      );
      if (i > 0) {
        const text = this.regular.clip(`${sort}${this.paper.title}`, 8, this.room);
        const top = this.high - 34;
        this.put({ text, face: this.regular, size: 8, color: soft }, SIDE, top);
        this.across(top - 5, 0.6, rule);
      }
    }
  }
}

const LOOK: Readonly<
  Record<
    Style,
    { readonly fill?: Color; readonly stroke?: Color; readonly width?: number; readonly dash?: readonly number[] }
  >
> = {
  sheet: { fill: white },
  'sheet-edge': { stroke: ink, width: 1.1 },
  hatch: { stroke: rgb(0.8, 0.75, 0.68), width: 0.4 },
  leftover: { stroke: copper, width: 0.8, dash: [4, 2.5] },
  margin: { stroke: rgb(0.55, 0.585, 0.61), width: 0.4, dash: [1.5, 2] },
  blank: { fill: white, stroke: ink, width: 0.7 },
  flipped: { fill: rgb(0.953, 0.89, 0.84), stroke: ink, width: 0.7 },
  leader: { stroke: copper, width: 0.4 },
  dimension: { stroke: soft, width: 0.5 },
  mark: { stroke: ink },
  name: { stroke: soft },
};

const MARKS_IN_A_STREAM = 200;

/** The most a drawing shrinks to stay on the page it starts on. */
const SQUEEZE = 0.6;

/** So many lines at most, the last with dots where more were to come. */
const shortened = (lines: readonly string[], most: number): readonly string[] =>
  lines.length <= most ? lines : [...lines.slice(0, most - 1), `${lines[most - 1]!.slice(0, -1)}…`];

/** How much of what follows a heading has to stand on the same page with it. */
const FOLLOWING = { drawing: 0, table: 90, notice: 50, text: 24, facts: 150, heading: 60 } as const;

/** Air before a column that begins at the left where the one before it ends at the right. */
function gapsOf(columns: readonly Column[]): number[] {
  return columns.map((c, i) => (c.align !== 'right' && columns[i - 1]?.align === 'right' ? 8 : 0));
}

/** A document with its typefaces, before anything stands in it. */
export interface OpenPdf {
  readonly pdf: PDFDocument;
  readonly regular: Face;
  readonly bold: Face;
}

/** Nothing but a place where others may go first. */
function* stop(): Steps<void> {
  yield undefined;
}

/** Opens a document; the day is the only time in it, so that the same paper gives the same bytes. */
export async function openPdf(
  { sort, title, date }: Pick<Paper, 'sort' | 'title' | 'date'>,
  fonts: FontBytes,
  run: Runner = atOnce,
): Promise<OpenPdf> {
  // Its program has just been loaded, and a typeface takes some ten milliseconds to read.
  await run(stop());
  const pdf = await PDFDocument.create({ updateMetadata: false });
  pdf.registerFontkit(fontkit);
  // Ligatures and kerning off: what is copied out is what was put in, and a line is as wide as its letters.
  const features = { liga: false, clig: false, dlig: false, kern: false };
  const regular = new Face(
    await pdf.embedFont(fonts.regular, { subset: true, customName: 'PlanishRegular', features }),
  );
  await run(stop());
  const bold = new Face(await pdf.embedFont(fonts.bold, { subset: true, customName: 'PlanishBold', features }));
  await run(stop());
  const day = new Date(`${/^\d{4}-\d{2}-\d{2}/.exec(date)?.[0] ?? '2000-01-01'}T00:00:00Z`);
  const stamp = Number.isNaN(day.getTime()) ? new Date(Date.UTC(2000, 0, 1)) : day;
  pdf.setTitle(`${sort}: ${printable(title)}`, { showInWindowTitleBar: true });
  pdf.setProducer('Planish');
  pdf.setCreator('Planish');
  pdf.setCreationDate(stamp);
  pdf.setModificationDate(stamp);
  pdf.setLanguage('en');
  return { pdf, regular, bold };
}

/** A paper as a PDF, A4, or Letter where the build is shown in inches. Same paper, same fonts: same bytes. */
export async function writePdf(paper: Paper, fonts: FontBytes, run: Runner = atOnce): Promise<Uint8Array> {
  const opened = await openPdf(paper, fonts, run);
  await run(setPaper(opened, paper));
  return savedPdf(opened);
}

/** The bytes of a document. Every page is squeezed by itself, and others go first between two of them. */
export const savedPdf = ({ pdf }: OpenPdf): Promise<Uint8Array> => pdf.save({ objectsPerTick: 1 });

/** Sets a paper on pages of its own at the end of a document. */
export function* setPaper({ pdf, regular, bold }: OpenPdf, paper: Paper): Steps<void> {
  const sheet = new Sheet(pdf, paper, regular, bold);
  sheet.title();
  for (const [i, block] of paper.blocks.entries()) {
    const next = paper.blocks[i + 1];
    yield i / paper.blocks.length;
    switch (block.kind) {
      case 'heading':
        sheet.heading(
          block.text,
          block.level,
          next?.kind === 'drawing'
            ? Math.min(next.drawing.height * SQUEEZE + 40, 420)
            : next
              ? FOLLOWING[next.kind]
              : 0,
        );
        break;
      case 'text':
        yield* sheet.text(block.text, block.quiet ?? false);
        break;
      case 'facts':
        sheet.facts(block.facts);
        break;
      case 'notice':
        yield* sheet.notice(block);
        break;
      case 'table':
        yield* sheet.table(block);
        break;
      case 'drawing':
        yield* sheet.drawing(block.drawing, block.caption);
        break;
    }
  }
  if (regular.replaced || bold.replaced) {
    yield* sheet.text(
      `${STAND_IN} stands for a letter that the type of this PDF does not have. The HTML paper shows every letter.`,
      true,
    );
  }
  yield* sheet.frame();
}

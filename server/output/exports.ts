import type { Problem } from '../checks/check.ts';
import { mapped, type Runner, type Steps } from '../incremental/steps.ts';
import type { Model } from '../model/spec.ts';
import type { BuildSheet } from './documents/build-sheet.ts';
import { buildSheetInSteps } from './documents/build-sheet-of.ts';
import { buildSheetPaper } from './documents/build-sheet-paper.ts';
import type { CutList, Job } from './documents/cut-list.ts';
import { cutListInSteps } from './documents/cut-list-of.ts';
import { type OrderList, orderListOf } from './documents/order-list.ts';
import { orderListPaper } from './documents/order-list-paper.ts';
import type { Paper } from './documents/paper.ts';
import {
  LAYOUT_FORMATS,
  type LayoutFormat,
  layoutsInSteps,
  type SheetLayouts,
  writeLayout,
} from './documents/patterns/layouts.ts';
import type { Patterns } from './documents/patterns/pattern.ts';
import { patternsInSteps } from './documents/patterns/patterns-of.ts';
import { PAPERS, type PaperSize } from './documents/patterns/tiles.ts';
import type { Quote } from './documents/quote.ts';
import { quoteInSteps } from './documents/quote-of.ts';
import { quotePaper } from './documents/quote-paper.ts';
import type { FileFormat } from './writers/file-formats.ts';
import {
  exportCutList,
  exportPage,
  FORMATS,
  type Fonts,
  type Format,
  PAGE_FORMATS,
  type PageFormat,
  type Written,
  written,
} from './writers/papers.ts';
import { exportPatterns, onePiece, PATTERN_FORMATS, type PatternFormat } from './writers/patterns.ts';

/*
 * Everything that a build can be written as. The command line, the requests of the server, the commands, menus and pick lists
 * of the editor are made from these rows: what somebody who asks for an export needs to know about it stands here only.
 */

/** One export: what it is called, what it can be written as, and its two halves. */
export interface Export<Made = unknown> {
  /** The request `planish/cutList` and the editor's command `planish.exportCutList`. */
  readonly id: string;
  /** The command of the command line. */
  readonly command: string;
  /** Of the file that holds all of it, behind the name of the spec: `cut-list`. */
  readonly fileName: string;
  readonly words: ExportWords;
  /** As the command line offers them. */
  readonly formats: readonly FileFormat[];
  /** As the editor offers them, the usual one first. */
  readonly picks: readonly Pick[];
  /** What a PDF of it can be set on, where one may choose. */
  readonly papers?: readonly PaperSize[];
  /** What is cut can be moved aside by half the kerf, in the formats that a cutter reads. */
  readonly kerf?: boolean;
  readonly menu?: { readonly icon?: string; readonly title?: boolean };
  /** As what the editor shows it: all of it as a page, or as pictures, one for each part where it has such. */
  readonly shown: 'html' | 'svg';

  /** The first half reads the model, and has to begin again where a text changes meanwhile. */
  read(model: Model, asked: ReadAsked): Steps<Made>;
  /** What of the build it does not hold, and why. */
  missing?(made: Made): readonly Missing[];
  /** The second half, by far the longer one, writes what the first has found. All of it as one file, where it can be that … */
  whole?(made: Made, ask: WriteAsk): Promise<Written>;
  /** … and a file for each of its parts, where it has such. */
  parts?(made: Made): readonly Part[];
}

/** How it is spoken of, to people. */
export interface ExportWords {
  /** `Cut list`: also said of the file that was written. */
  readonly title: string;
  /** `A cut list` cannot be written as something. */
  readonly one: string;
  readonly making: string;
  /** Of the command: one line, and what its help says besides. */
  readonly doc: string;
  readonly more: readonly string[];
  /** `spec.planish has no piece, so` … For an export that is of nothing but pieces. */
  readonly noPiece?: string;
  /** `spec.planish has` … where there is nothing to write. */
  readonly nothing?: string;
  /** What is not in it: `No pattern of` a piece. */
  readonly without?: string;
  /** What its parts are: `sheet`. */
  readonly part?: string;
  /** What the editor says of parts: that they were written, that some are missing, that there are none. */
  readonly parts?: { readonly written: string; readonly without: string; readonly none: string };
}

/** One line of the list in the editor that asks for the format. */
export interface Pick {
  readonly to: FileFormat;
  readonly paper?: PaperSize;
  /** The name of the format, where it is left out. */
  readonly label?: string;
  readonly says: string;
}

export interface ReadAsked {
  /** The day that stands on it, `2027-03-01`. */
  readonly date: string;
  readonly problems: readonly Problem[];
  readonly kerf?: boolean;
  /** One piece alone, where an export can be that. */
  readonly piece?: string;
}

export interface WriteAsk {
  readonly to: FileFormat;
  readonly paper?: PaperSize;
  readonly fonts: Fonts;
  /** Goes through what takes long. */
  readonly run: Runner;
}

export interface Missing {
  readonly piece: string;
  readonly reason: string;
}

export interface Part {
  /** Behind the name of the spec in the name of its file. */
  readonly name: string;
  readonly title: string;
  write(ask: WriteAsk): Promise<Written>;
}

const cutList = row<CutList, Format>({
  id: 'cutList',
  command: 'cutlist',
  fileName: 'cut-list',
  words: {
    title: 'Cut list',
    one: 'A cut list',
    making: 'Laying out the cut list',
    doc: 'Writes the cut list: blanks laid on the stock, wire, rivets, leather, what to buy.',
    more: [
      'Without -o it is written beside the spec: sallet.planish makes sallet.cut-list.html.',
      'Ends with 1 where the spec has errors: the list is written all the same, and says so at its head.',
    ],
    noPiece: 'there is nothing to cut',
  },
  formats: FORMATS,
  picks: [
    { to: 'html', says: 'one page with a drawing of every sheet, prints well' },
    { to: 'pdf', says: 'the same, ready for the printer' },
    { to: 'csv', says: 'rows for a spreadsheet' },
    { to: 'md', says: 'tables in plain text' },
    { to: 'json', says: 'for other programs' },
  ],
  menu: { icon: '$(list-flat)', title: true },
  shown: 'html',
  read: cutListInSteps,
  whole: (list, { to, fonts, run }) => exportCutList(list, to, fonts, run),
});

const patterns = row<Patterns, PatternFormat>({
  id: 'patterns',
  command: 'patterns',
  fileName: 'patterns',
  words: {
    title: 'Patterns',
    one: 'Patterns',
    making: 'Drawing the patterns',
    doc: 'Writes the patterns of the pieces at 1:1, for paper or for a cutter.',
    more: [
      'Without -o they are written beside the spec, all in one file: sallet.planish makes sallet.patterns.pdf.',
      'With -o and a folder (one that is there, or a name that ends in /) each piece gets a file of its own.',
      'A DXF is of release 12 in mm, with the layers CUT, DRILL, BEND, MARK and NOTE; an SVG has the same as groups.',
      'Ends with 1 where the spec has errors: the patterns are written all the same, and a PDF says so at its head; and where a PDF has too many sheets.',
    ],
    noPiece: 'there is no pattern',
    nothing: 'no pattern that can be drawn',
    without: 'No pattern of',
    part: 'pattern',
  },
  formats: PATTERN_FORMATS,
  picks: [
    { to: 'pdf', paper: 'a4', label: 'PDF, A4', says: 'sheets that lap, with marks to join them by' },
    { to: 'pdf', paper: 'a3', label: 'PDF, A3', says: 'the same on larger sheets' },
    { to: 'pdf', paper: 'letter', label: 'PDF, Letter', says: 'the same on letter paper' },
    { to: 'pdf', paper: 'full', label: 'PDF, one page for each piece', says: 'for a plotter or a copy shop' },
    { to: 'svg', says: 'for a drawing program, one unit a millimetre' },
    { to: 'dxf', says: 'for a cutter, in millimetres, with layers' },
  ],
  papers: PAPERS,
  kerf: true,
  menu: { icon: '$(symbol-ruler)' },
  shown: 'svg',
  read: patternsInSteps,
  missing: ({ missing }) => missing,
  whole: exportPatterns,
  parts: (made) =>
    made.patterns.map(({ piece }) => ({
      name: piece,
      title: piece,
      write: (ask) => exportPatterns(onePiece(made, piece), ask),
    })),
});

const layouts = row<SheetLayouts, LayoutFormat>({
  id: 'layouts',
  command: 'layouts',
  fileName: 'layouts',
  words: {
    title: 'Sheet layouts',
    one: 'Sheet layouts',
    making: 'Laying out the sheets',
    doc: 'Writes the sheets with their blanks as the cut list lays them, at 1:1 for a cutter: a file for each sheet.',
    more: [
      'Without -o they are written beside the spec: sallet.planish makes sallet.skull-plate-1.dxf and so on.',
      'Everything that is cut, drilled, bent or marked in the flat lies on its layer, as on the patterns.',
      'Ends with 1 where the spec has errors: the sheets are written all the same.',
    ],
    nothing: 'nothing that can be laid on a sheet',
    without: 'Not laid:',
    part: 'sheet',
    parts: {
      written: 'Sheets written: {0}.',
      without: 'On no sheet: {0}.',
      none: 'There is nothing that can be laid on a sheet.',
    },
  },
  formats: LAYOUT_FORMATS,
  // Sheets are for a cutter before anything else.
  picks: [
    { to: 'dxf', says: 'for a cutter, in millimetres, with layers' },
    { to: 'svg', says: 'for a drawing program, one unit a millimetre' },
  ],
  kerf: true,
  shown: 'svg',
  read: layoutsInSteps,
  missing: ({ missing }) => missing,
  parts: (made) =>
    made.sheets.map((sheet) => ({
      name: sheet.name,
      title: sheet.title,
      write: async ({ to, run }) => written(to, await run(writeLayout(made, sheet, to))),
    })),
});

const orderList = page<OrderList>({
  id: 'orderList',
  command: 'order',
  fileName: 'order-list',
  words: {
    title: 'Order list',
    one: 'An order list',
    making: 'Making the order list',
    doc: 'Writes the order list: sheets, hides, wire, rivets and parts to buy, less what is in the rack.',
    more: [
      'Without -o it is written beside the spec: sallet.planish makes sallet.order-list.html.',
      'At the prices that stand in the spec and its stock. Ends with 1 where the spec has errors.',
    ],
    noPiece: 'there is nothing to cut',
  },
  good: 'one page to print, with boxes to tick',
  read: (model, asked) => mapped(cutListInSteps(model, asked), orderListOf),
  paper: orderListPaper,
});

const buildSheet = page<BuildSheet>({
  id: 'buildSheet',
  command: 'buildsheet',
  fileName: 'build-sheet',
  words: {
    title: 'Build sheet',
    one: 'A build sheet',
    making: 'Putting the work in order',
    doc: 'Writes the build sheet: the order of work with its reasons and hours, and a card for each piece.',
    more: [
      'Without -o it is written beside the spec: sallet.planish makes sallet.build-sheet.html.',
      'Hours are common practice (no source) with their spread; your own, in an order, go before them. Ends with 1 where the spec has errors.',
    ],
    noPiece: 'there is nothing to make',
  },
  good: 'one page to print, with boxes to tick',
  read: buildSheetInSteps,
  paper: buildSheetPaper,
});

const quote = page<Quote>({
  id: 'quote',
  command: 'quote',
  fileName: 'quote',
  words: {
    title: 'Quote',
    one: 'A quote',
    making: 'Reckoning the price',
    doc: 'Writes the quote: materials, hours at the rate of the shop, overhead, margin and tax, for one build and for more.',
    more: [
      'Without -o it is written beside the spec: sallet.planish makes sallet.quote.html.',
      'What has no price is named and in no sum. The shop says rate, overhead, margin, tax, how long it stands and its terms. Ends with 1 where the spec has errors.',
    ],
    noPiece: 'there is nothing to quote for',
  },
  good: 'one page, prints well',
  read: quoteInSteps,
  paper: quotePaper,
});

export const exports: readonly Export[] = [cutList, orderList, buildSheet, quote, patterns, layouts];

export const methodOf = ({ id }: Export): string => `planish/${id}`;
/** The editor's commands that write it and that show it. */
export const exportCommandOf = (row: Export): string => `planish.export${capitalised(row)}`;
export const showCommandOf = (row: Export): string => `planish.show${capitalised(row)}`;
const capitalised = ({ id }: Export): string => `${id[0]!.toUpperCase()}${id.slice(1)}`;

/** What is wrong with asking for an export like this, if anything: in a sentence for who asks. */
export function refusedAs(
  { words, formats, papers, parts }: Export,
  asked: { readonly to: unknown; readonly paper?: unknown; readonly kerf?: unknown; readonly parts?: unknown },
): string | undefined {
  const { to, paper, kerf } = asked;
  if (!formats.includes(to as FileFormat)) return `${words.one} cannot be written as “${to}”.`;
  if (paper !== undefined && !papers?.includes(paper as PaperSize)) return `${words.one} cannot be set on “${paper}”.`;
  if (kerf !== undefined && typeof kerf !== 'boolean')
    return `“kerf” is true or false, not ${JSON.stringify(kerf)}: how wide the cut is, the material says (“kerf 0.3 mm”).`;
  if (asked.parts === true && (!parts || to === 'pdf')) return `${words.one} cannot be written in parts as “${to}”.`;
  return kerf && to === 'pdf' ? 'The kerf is for a cutter: a PDF is cut by hand.' : undefined;
}

/** A row whose halves are typed by what passes between them, and whose formats by what its writer can write. */
function row<Made, To extends FileFormat>(row: RowOf<Made, To>): Export {
  return row;
}

/** What is read on a page, and by other programs as data. `good` says what its page is good for. */
function page<Made extends Job>({ good, paper, ...rest }: PageOf<Made>): Export {
  return row<Made, PageFormat>({
    ...rest,
    formats: PAGE_FORMATS,
    picks: [
      { to: 'html', says: good },
      { to: 'pdf', says: 'the same, ready for the printer' },
      { to: 'md', says: 'tables in plain text' },
      { to: 'json', says: 'for other programs' },
    ],
    shown: 'html',
    whole: (made, { to, fonts, run }) => exportPage(rest.words.title.toLowerCase(), made, paper, to, fonts, run),
  });
}

interface PageOf<Made> extends Omit<RowOf<Made, PageFormat>, 'formats' | 'picks' | 'shown' | 'whole'> {
  readonly good: string;
  paper(made: Made): Paper | Steps<Paper>;
}

type Typed<To> = Omit<WriteAsk, 'to'> & { readonly to: To };

interface RowOf<Made, To extends FileFormat> extends Omit<Export<Made>, 'formats' | 'picks' | 'whole' | 'parts'> {
  readonly formats: readonly To[];
  readonly picks: readonly (Pick & { readonly to: To })[];
  whole?(made: Made, ask: Typed<To>): Promise<Written>;
  parts?(made: Made): readonly (Omit<Part, 'write'> & { write(ask: Typed<To>): Promise<Written> })[];
}

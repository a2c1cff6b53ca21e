import { URI, Utils } from 'vscode-uri';
import { mapped, type Runner, type Steps, share } from '../../model/steps.ts';
import type { CutList } from '../../output/cut-list.ts';
import { cutListInSteps } from '../../output/cut-list-of.ts';
import { type OrderList, orderListOf } from '../../output/order-list.ts';
import {
  LAYOUT_FORMATS,
  type LayoutFormat,
  layoutsInSteps,
  type SheetLayouts,
  writeLayout,
} from '../../output/patterns/layouts.ts';
import type { Patterns } from '../../output/patterns/pattern.ts';
import { patternsInSteps } from '../../output/patterns/patterns-of.ts';
import { PAPERS, type PaperSize } from '../../output/patterns/tiles.ts';
import { exportPatterns, PATTERN_FORMATS, type PatternFormat } from '../../output/patterns/writers.ts';
import {
  exportCutList,
  exportOrderList,
  FORMATS,
  type Fonts,
  type Format,
  ORDER_FORMATS,
  type OrderFormat,
  type Written,
} from '../../output/writers.ts';
import type { View } from '../workspace/workspace.ts';

/** A written paper on its way to the editor: exactly one of text and base64. */
export interface PaperFile {
  readonly name: string;
  readonly text?: string;
  readonly base64?: string;
  /** Pieces that have a pattern which this file cannot hold, and why. */
  readonly leftOut?: Written['leftOut'];
}

export const isPatternFormat = (to: unknown): to is PatternFormat => PATTERN_FORMATS.includes(to as PatternFormat);
export const isPaper = (paper: unknown): paper is PaperSize => PAPERS.includes(paper as PaperSize);
export const isLayoutFormat = (to: unknown): to is LayoutFormat => LAYOUT_FORMATS.includes(to as LayoutFormat);
export const isFormat = (to: unknown): to is Format => FORMATS.includes(to as Format);
export const isOrderFormat = (to: unknown): to is OrderFormat => ORDER_FORMATS.includes(to as OrderFormat);

/** What is wrong with asking for the kerf like this, if anything. Its width is the material's to say. */
export function kerfRefused(kerf: unknown, to: PatternFormat): string | undefined {
  if (kerf !== undefined && typeof kerf !== 'boolean')
    return `“kerf” is true or false, not ${JSON.stringify(kerf)}: how wide the cut is, the material says (“kerf 0.3 mm”).`;
  return kerf && to === 'pdf' ? 'The kerf is for a cutter: a PDF is cut by hand.' : undefined;
}

/*
 * A paper is made in two halves. The first reads the model, and has to begin again where a text changes meanwhile; the
 * second, by far the longer one, only writes what the first has found.
 */

export function* cutListOf(view: View, date: string): Steps<CutList> {
  const problems = yield* view.problemsInSteps();
  return yield* cutListInSteps(view.model, { date, problems });
}

export async function cutListFile(
  uri: string,
  list: CutList,
  to: Format,
  fonts: Fonts,
  run: Runner,
): Promise<PaperFile> {
  return fileOf(uri, 'cut-list', await exportCutList(list, to, fonts, run));
}

export const orderOf = (view: View, date: string): Steps<OrderList> => mapped(cutListOf(view, date), orderListOf);

export async function orderListFile(
  uri: string,
  order: OrderList,
  to: OrderFormat,
  fonts: Fonts,
  run: Runner,
): Promise<PaperFile> {
  return fileOf(uri, 'order-list', await exportOrderList(order, to, fonts, run));
}

export interface PatternsAsked {
  readonly to: PatternFormat;
  readonly paper?: PaperSize;
}

export function* patternsOf(view: View, date: string, kerf: boolean): Steps<Patterns> {
  const problems = yield* share(0, 0.5, view.problemsInSteps());
  return yield* share(0.5, 1, patternsInSteps(view.model, { date, problems, kerf }));
}

export async function patternsFile(
  uri: string,
  patterns: Patterns,
  { to, paper }: PatternsAsked,
  fonts: Fonts,
  run: Runner,
): Promise<PaperFile> {
  return fileOf(uri, 'patterns', await exportPatterns(patterns, { to, fonts, run, ...(paper ? { paper } : {}) }));
}

/** The sheets of a build, a file each, and what lies on none of them. */
export interface LayoutFiles {
  readonly sheets: readonly { readonly name: string; readonly text: string }[];
  readonly missing: readonly { readonly piece: string; readonly reason: string }[];
}

export function* layoutsOf(view: View, date: string, kerf: boolean): Steps<SheetLayouts> {
  const problems = yield* share(0, 0.5, view.problemsInSteps());
  return yield* share(0.5, 1, layoutsInSteps(view.model, { date, problems, kerf }));
}

export async function layoutFiles(
  uri: string,
  layouts: SheetLayouts,
  to: LayoutFormat,
  run: Runner,
): Promise<LayoutFiles> {
  return { sheets: await run(written(uri, layouts, to)), missing: layouts.missing };
}

/** Named as on the command line: `sallet.skull-plate-1.dxf`. */
function* written(uri: string, layouts: SheetLayouts, to: LayoutFormat): Steps<LayoutFiles['sheets']> {
  const made: { name: string; text: string }[] = [];
  for (const [done, sheet] of layouts.sheets.entries()) {
    yield done / layouts.sheets.length;
    made.push({ name: `${baseOf(uri)}.${sheet.name}.${to}`, text: yield* writeLayout(layouts, sheet, to) });
  }
  return made;
}

const baseOf = (uri: string): string => Utils.basename(URI.parse(uri)).replace(/\.planish$/i, '') || 'build';

function fileOf(uri: string, what: string, { extension, bytes, text, leftOut }: Written): PaperFile {
  const name = `${baseOf(uri)}-${what}${extension}`;
  const without = leftOut?.length ? { leftOut } : {};
  return bytes ? { name, base64: base64Of(bytes), ...without } : { name, text: text ?? '' };
}

function base64Of(bytes: Uint8Array): string {
  let binary = '';
  // A whole PDF at once would be more arguments than a call can take.
  for (let at = 0; at < bytes.length; at += 0x8000) binary += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(binary);
}

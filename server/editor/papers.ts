import { URI, Utils } from 'vscode-uri';
import { type Runner, type Steps, share } from '../model/steps.ts';
import type { CutList } from '../output/cut-list.ts';
import { cutListInSteps } from '../output/cut-list-of.ts';
import type { Patterns } from '../output/patterns/pattern.ts';
import { patternsInSteps } from '../output/patterns/patterns-of.ts';
import { PAPERS, type PaperSize } from '../output/patterns/tiles.ts';
import { exportPatterns, PATTERN_FORMATS, type PatternFormat } from '../output/patterns/writers.ts';
import { exportCutList, FORMATS, type Fonts, type Format, type Written } from '../output/writers.ts';
import type { View } from './workspace.ts';

/** A written paper on its way to the editor: exactly one of text and base64. */
export interface PaperFile {
  readonly name: string;
  readonly text?: string;
  readonly base64?: string;
}

export const isPatternFormat = (to: unknown): to is PatternFormat => PATTERN_FORMATS.includes(to as PatternFormat);
export const isPaper = (paper: unknown): paper is PaperSize => PAPERS.includes(paper as PaperSize);
export const isFormat = (to: unknown): to is Format => FORMATS.includes(to as Format);

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

export interface PatternsAsked {
  readonly to: PatternFormat;
  readonly paper?: PaperSize;
}

export function* patternsOf(view: View, date: string): Steps<Patterns> {
  const problems = yield* share(0, 0.5, view.problemsInSteps());
  return yield* share(0.5, 1, patternsInSteps(view.model, { date, problems }));
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

function fileOf(uri: string, what: string, { extension, bytes, text }: Written): PaperFile {
  const base = Utils.basename(URI.parse(uri)).replace(/\.planish$/i, '') || 'build';
  const name = `${base}-${what}${extension}`;
  return bytes ? { name, base64: base64Of(bytes) } : { name, text: text ?? '' };
}

function base64Of(bytes: Uint8Array): string {
  let binary = '';
  // A whole PDF at once would be more arguments than a call can take.
  for (let at = 0; at < bytes.length; at += 0x8000) binary += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(binary);
}

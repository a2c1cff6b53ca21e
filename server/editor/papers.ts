import { URI, Utils } from 'vscode-uri';
import { cutListOf } from '../output/cut-list-of.ts';
import { patternsOf } from '../output/patterns/patterns-of.ts';
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

export async function cutListFileOf(view: View, to: Format, date: string, fonts: Fonts): Promise<PaperFile> {
  const list = cutListOf(view.model, { date, problems: view.problems() });
  const written = await exportCutList(list, to, fonts);
  return fileOf(view, 'cut-list', written);
}

export interface PatternsAsked {
  readonly to: PatternFormat;
  readonly paper?: PaperSize;
}

export async function patternsFileOf(
  view: View,
  { to, paper }: PatternsAsked,
  date: string,
  fonts: Fonts,
): Promise<PaperFile> {
  const made = patternsOf(view.model, { date, problems: view.problems() });
  const written = await exportPatterns(made, { to, fonts, ...(paper ? { paper } : {}) });
  return fileOf(view, 'patterns', written);
}

function fileOf(view: View, what: string, { extension, bytes, text }: Written): PaperFile {
  const base = Utils.basename(URI.parse(view.uri)).replace(/\.planish$/i, '') || 'build';
  const name = `${base}-${what}${extension}`;
  return bytes ? { name, base64: base64Of(bytes) } : { name, text: text ?? '' };
}

function base64Of(bytes: Uint8Array): string {
  let binary = '';
  // A whole PDF at once would be more arguments than a call can take.
  for (let at = 0; at < bytes.length; at += 0x8000) binary += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(binary);
}

import { URI, Utils } from 'vscode-uri';
import { cutListOf } from '../output/cut-list-of.ts';
import { exportCutList, FORMATS, type Fonts, type Format } from '../output/writers.ts';
import type { View } from './workspace.ts';

/** A written paper on its way to the editor: exactly one of text and base64. */
export interface PaperFile {
  readonly name: string;
  readonly text?: string;
  readonly base64?: string;
}

export const isFormat = (to: unknown): to is Format => FORMATS.includes(to as Format);

export async function cutListFileOf(view: View, to: Format, date: string, fonts: Fonts): Promise<PaperFile> {
  const list = cutListOf(view.model, { date, problems: view.problems() });
  const written = await exportCutList(list, to, fonts);
  const base = Utils.basename(URI.parse(view.uri)).replace(/\.planish$/i, '') || 'build';
  const name = `${base}-cut-list${written.extension}`;
  return written.bytes ? { name, base64: base64Of(written.bytes) } : { name, text: written.text ?? '' };
}

function base64Of(bytes: Uint8Array): string {
  let binary = '';
  // A whole PDF at once would be more arguments than a call can take.
  for (let at = 0; at < bytes.length; at += 0x8000) binary += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(binary);
}

import { atOnce, type Runner } from '../model/steps.ts';
import type { CutList } from './cut-list.ts';
import { writeCsv } from './write-csv.ts';
import { writeHtml } from './write-html.ts';
import { writeJson } from './write-json.ts';
import { writeMarkdown } from './write-markdown.ts';
import { type FontBytes, writePdf } from './write-pdf.ts';

export type { FontBytes } from './write-pdf.ts';

/** What a cut list can be written as, in the order they are offered. */
export const FORMATS = ['html', 'pdf', 'csv', 'md', 'json'] as const;
export type Format = (typeof FORMATS)[number];

export interface Written {
  /** One of the two is set: bytes for PDF, text for the rest. */
  readonly text?: string;
  readonly bytes?: Uint8Array;
  /** With its point: `.html`. */
  readonly extension: string;
  readonly mediaType: string;
}

/** Fonts are loaded only for the format that needs them. */
export type Fonts = FontBytes | (() => FontBytes | Promise<FontBytes>);

/** `run` goes through what takes long. */
export async function exportCutList(list: CutList, to: Format, fonts: Fonts, run: Runner = atOnce): Promise<Written> {
  switch (to) {
    case 'html':
      return { text: await run(writeHtml(list)), extension: '.html', mediaType: 'text/html' };
    case 'pdf': {
      const faces = typeof fonts === 'function' ? await fonts() : fonts;
      return { bytes: await writePdf(list, faces, run), extension: '.pdf', mediaType: 'application/pdf' };
    }
    case 'csv':
      // The mark at the start is what makes a spreadsheet read Ø and é as they are.
      return { text: await run(writeCsv(list, { byteOrderMark: true })), extension: '.csv', mediaType: 'text/csv' };
    case 'md':
      return { text: await run(writeMarkdown(list)), extension: '.md', mediaType: 'text/markdown' };
    case 'json':
      return { text: writeJson(list), extension: '.json', mediaType: 'application/json' };
  }
}

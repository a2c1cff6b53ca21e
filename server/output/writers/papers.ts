import { atOnce, type Runner, type Steps, share } from '../../incremental/steps.ts';
import type { CutList, Job } from '../documents/cut-list.ts';
import { cutListPaper } from '../documents/cut-list-paper.ts';
import type { Paper } from '../documents/paper.ts';
import { writeCsv } from './csv.ts';
import { FILE_FORMATS, type FileFormat } from './file-formats.ts';
import { writeHtml } from './html.ts';
import { writeJson } from './json.ts';
import { writeMarkdown } from './markdown.ts';
import { type FontBytes, writePdf } from './pdf.ts';

export type { FontBytes } from './pdf.ts';

/** What a cut list can be written as, in the order they are offered. */
export const FORMATS = ['html', 'pdf', 'csv', 'md', 'json'] as const;
export type Format = (typeof FORMATS)[number];

/** What everything else that is read on a page can be written as. */
export const PAGE_FORMATS = ['html', 'pdf', 'md', 'json'] as const;
export type PageFormat = (typeof PAGE_FORMATS)[number];

export interface Written {
  /** One of the two is set: bytes for PDF, text for the rest. */
  readonly text?: string;
  readonly bytes?: Uint8Array;
  /** With its point: `.html`. */
  readonly extension: string;
  readonly mediaType: string;
  /** Of patterns: pieces that have one, which this format cannot hold. */
  readonly leftOut?: readonly { readonly piece: string; readonly reason: string }[];
}

/** Fonts are loaded only for the format that needs them. */
export type Fonts = FontBytes | (() => FontBytes | Promise<FontBytes>);

/** `run` goes through what takes long. */
export async function exportCutList(list: CutList, to: Format, fonts: Fonts, run: Runner = atOnce): Promise<Written> {
  switch (to) {
    case 'csv':
      // The mark at the start is what makes a spreadsheet read Ø and é as they are.
      return written('csv', await run(writeCsv(list, { byteOrderMark: true })));
    case 'json':
      return written('json', await run(writeJson('cut list', list)));
    default:
      return exportPaper(await run(share(0, 0.2, cutListPaper(list))), to, fonts, run);
  }
}

/** A document as data, or as the paper that is made of it: `sort` is what it is, `order list`. */
export async function exportPage<Made extends Job>(
  sort: string,
  made: Made,
  paperOf: (made: Made) => Paper | Steps<Paper>,
  to: PageFormat,
  fonts: Fonts,
  run: Runner = atOnce,
): Promise<Written> {
  if (to === 'json') return written('json', await run(writeJson(sort, made)));
  const paper = paperOf(made);
  return exportPaper('blocks' in paper ? paper : await run(share(0, 0.2, paper)), to, fonts, run);
}

/** A text or bytes as a file of its kind. */
export const written = (to: FileFormat, content: string | Uint8Array): Written => ({
  ...(typeof content === 'string' ? { text: content } : { bytes: content }),
  extension: `.${to}`,
  mediaType: FILE_FORMATS[to].mediaType,
});

/** What can be read on a page, whatever it says. */
async function exportPaper(paper: Paper, to: 'html' | 'pdf' | 'md', fonts: Fonts, run: Runner): Promise<Written> {
  switch (to) {
    case 'html':
      return written('html', await run(share(0.2, 1, writeHtml(paper))));
    case 'md':
      return written('md', await run(share(0.2, 1, writeMarkdown(paper))));
    case 'pdf': {
      const faces = typeof fonts === 'function' ? await fonts() : fonts;
      return written('pdf', await writePdf(paper, faces, run));
    }
  }
}

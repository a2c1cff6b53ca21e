// An export of one file from end to end: what is asked for, the paper from the server, a place for it.
import type * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper, type FormatChoice, type PaperRequest, type Settled, settle } from './ask-for-paper.ts';
import { savePaper } from './save-paper.ts';

/** A request for one file. */
export interface FileRequest<Format extends string> extends PaperRequest<Format> {
  /** Where to write; otherwise a save dialog asks. */
  target?: string;
}

export interface PaperExport<Request extends FileRequest<string>> {
  /** The request to the server. */
  method: string;
  /** What it is called while it is asked about: `Export cut list`. */
  title: string;
  /** Said while it is made. */
  making: string;
  /** Said when it lies in its place. */
  written: (place: string) => string;
  formats: FormatChoice<Request>[];
  /** What the server is asked beside the spec and the format. */
  asked?: (settled: Settled<Request>) => object;
}

/** Gives the place of the written file, or undefined where nothing was written. */
export async function exportPaper<Request extends FileRequest<string>>(
  client: BaseLanguageClient,
  request: Request | vscode.Uri,
  { method, title, making, written, formats, asked }: PaperExport<Request>,
): Promise<vscode.Uri | undefined> {
  const settled = await settle(request, title, formats);
  if (!settled) return undefined;
  const { spec, to } = settled;
  const made = await askForPaper(client, method, spec, { to, ...asked?.(settled) }, { title, making });
  return savePaper(made, settled, title, written);
}

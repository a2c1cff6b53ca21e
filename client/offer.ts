// What the editor offers to write, as the table of exports has it.
import type * as vscode from 'vscode';
import type { ExportAsked } from '../server/requests.ts';

/** Everything may be left out; what is missing is asked for. */
export interface ExportRequest extends Partial<Pick<ExportAsked, 'uri' | 'to' | 'paper' | 'kerf'>> {
  /** Whether files that are there already may be replaced. */
  overwrite?: boolean;
  /** Of one file, where to write; otherwise a save dialog asks. */
  target?: string;
  /** Of several, the folder to write into; otherwise a dialog asks. */
  folder?: string;
}

/** A format that can be picked, and what it decides of the request. */
export interface FormatChoice extends vscode.QuickPickItem {
  decides: { to: string; paper?: string };
}

/** One export. Its texts are in the language of the editor. */
export interface Offer {
  /** The commands of the editor, to write it and to show it, and the request to the server. */
  command: string;
  show: string;
  method: string;
  /** `Cut list` */
  name: string;
  /** What it is called while it is asked about: `Export cut list`. */
  title: string;
  /** Said while it is made. */
  making: string;
  formats: FormatChoice[];
  /** What is cut can be moved aside by half the kerf. */
  kerf: boolean;
  /** What it is asked for as to be shown. */
  shown: { to: string; parts: boolean };
  /** Of one file: said when it lies in its place. */
  written?: (place: string) => string;
  /** Of several: said when they do, of what is on none of them, and where there is none at all. */
  parts?: { written: (names: string) => string; without: (names: string) => string; none: string };
}

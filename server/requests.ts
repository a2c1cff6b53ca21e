/*
 * What the requests of our own carry, for both ends: types only, since the client takes nothing else from here. DEVELOPERS.md
 * says what each is for.
 */
import type { AssemblyData } from './output/documents/assembly.ts';
import type { Explained } from './output/documents/explain.ts';

export type { ExplainedFigure } from './output/documents/explain.ts';

// ---- from the editor to the server ---------------------------------------------------------------------------------

/** A question about one spec. */
export interface SpecAsked {
  readonly uri: string;
}

/** `planish/summary`: what a status bar shows of a spec. Null where the server does not know the file. */
export interface Summary {
  readonly title?: string;
  readonly mass?: string;
  readonly errors: number;
  readonly warnings: number;
  readonly informations: number;
  /** Safety cautions that stand at no line. */
  readonly cautions: number;
}

/** `planish/explain`: every figure, those under a dotted name, or those of the thing whose section a place lies in. */
export interface ExplainAsked extends SpecAsked {
  readonly name?: string;
  readonly at?: { readonly line: number; readonly character: number };
}

/** An export as a file, or as a file for each part: the requests are those of the table in `output/exports.ts`. */
export interface ExportAsked extends SpecAsked {
  readonly to: string;
  /** Of a PDF; otherwise the sheets that go with the units of the build. */
  readonly paper?: string;
  /** Whether what is cut lies half the kerf in the waste. */
  readonly kerf?: boolean;
  /** A file for each part, of what has parts and can be one file too. */
  readonly parts?: boolean;
  readonly workDoneToken?: string | number;
}

/** A written paper on its way to the editor: exactly one of text and base64. */
export interface PaperFile {
  /** The suggested file name. */
  readonly name: string;
  readonly text?: string;
  readonly base64?: string;
  /** Pieces that have a pattern which this file cannot hold, and why. */
  readonly leftOut?: readonly Missing[];
}

/** A file for each part, a sheet or a pattern, and what lies on none of them. */
export interface LayoutFiles {
  readonly sheets: readonly { readonly name: string; readonly title: string; readonly text: string }[];
  readonly missing: readonly Missing[];
}

export interface Missing {
  readonly piece: string;
  readonly reason: string;
}

/** `planish/starters`: the starter builds there are. */
export interface Starter {
  readonly id: string;
  readonly title: string;
  readonly description: string;
}

/** `planish/newBuild`: the files of one. */
export interface NewBuildAsked {
  readonly from: string;
}
export interface NewBuildFiles {
  /** Paths are relative to the chosen folder, with `/`. The first file is the spec to open. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

/** Each request with what is asked along and what is answered; those of the exports aside. */
export interface OwnRequests {
  'planish/alive': { readonly asked: undefined; readonly answer: null };
  'planish/summary': { readonly asked: SpecAsked; readonly answer: Summary | null };
  'planish/explain': { readonly asked: ExplainAsked; readonly answer: Explained | null };
  'planish/assembly': { readonly asked: SpecAsked; readonly answer: AssemblyData | null };
  'planish/starters': { readonly asked: undefined; readonly answer: readonly Starter[] };
  'planish/newBuild': { readonly asked: NewBuildAsked; readonly answer: NewBuildFiles };
}

// ---- from the server to the editor ---------------------------------------------------------------------------------

/** The text of a file, or why it has none; null where there is no file. */
export type FileText = { readonly text: string } | { readonly why: string } | null;

export interface FolderEntry {
  readonly name: string;
  readonly isFolder: boolean;
}

/** What the server asks for where it cannot look itself. */
export interface ClientRequests {
  'planish/readFile': { readonly asked: { readonly uri: string }; readonly answer: FileText };
  /** What lies in a folder: nothing, where it cannot be read. */
  'planish/listFolder': {
    readonly asked: { readonly uri: string };
    readonly answer: { readonly entries: readonly FolderEntry[] };
  };
  /** Every spec of the open folders. */
  'planish/findSpecs': { readonly asked: undefined; readonly answer: { readonly uris: readonly string[] } };
}

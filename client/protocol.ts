// The few requests between client and server that the language server protocol does not have. The server's side of
// each is described in DEVELOPERS.md.
import * as vscode from 'vscode';

/** Server to client: the text of a file that the server cannot read itself, or why it has none; null where there is no file. */
export type ReadFile = 'planish/readFile';

/** Server to client: what lies in a folder that the server cannot look into itself. */
export type ListFolder = 'planish/listFolder';

/** Server to client: every spec of the open folders, where the server cannot look itself. */
export type FindSpecs = 'planish/findSpecs';

/** Client to server: what the status bar shows of one spec. Null where the server does not know the file. */
export const summaryRequest = 'planish/summary';
export interface Summary {
  title?: string;
  mass?: string;
  errors: number;
  warnings: number;
  informations: number;
}

/** Client to server: the cut list of one spec as a file of one kind. */
export const cutListRequest = 'planish/cutList';
export type CutListFormat = 'html' | 'pdf' | 'csv' | 'md' | 'json';
export interface PaperFile {
  /** The suggested file name. */
  name: string;
  /** Exactly one of the two: text, or bytes in base 64. */
  text?: string;
  base64?: string;
  /** Pieces that it could not hold, and why. */
  leftOut?: Missing[];
}
/** A piece that is not where it was looked for, and why. */
export interface Missing {
  piece: string;
  reason: string;
}

/** Client to server: what is to be bought for one spec, as a file of one kind. */
export const orderListRequest = 'planish/orderList';
export type OrderListFormat = 'html' | 'pdf' | 'md' | 'json';

/** Client to server: the patterns of one spec as a file of one kind; the paper is for a PDF, the kerf for a cutter. */
export const patternsRequest = 'planish/patterns';
export type PatternFormat = 'pdf' | 'svg' | 'dxf';
export type PatternPaper = 'a4' | 'a3' | 'letter' | 'full';

/** Client to server: the sheets of one spec with their blanks, a file each, and what lies on none of them. */
export const layoutsRequest = 'planish/layouts';
export type LayoutFormat = 'svg' | 'dxf';
export interface LayoutFiles {
  sheets: { name: string; text: string }[];
  missing: Missing[];
}

/** Client to server: the starter builds there are, and the files of one. */
export const startersRequest = 'planish/starters';
export interface Starter {
  id: string;
  title: string;
  description: string;
}
export const newBuildRequest = 'planish/newBuild';
export interface NewBuildFiles {
  /** Paths are relative to the chosen folder, with `/`. The first file is the spec to open. */
  files: { path: string; text: string }[];
}

export async function readFileForServer({ uri }: { uri: string }): Promise<{ text: string } | { why: string } | null> {
  const place = vscode.Uri.parse(uri, true);
  // An open document is what its writer sees, saved or not.
  const open = vscode.workspace.textDocuments.find((document) => document.uri.toString() === place.toString());
  if (open) return { text: open.getText() };
  let bytes: Uint8Array;
  try {
    bytes = await vscode.workspace.fs.readFile(place);
  } catch {
    return null;
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    // The server says so of the files that it reads itself, and reads them so.
    if (/\.dxf$/i.test(place.path)) return { text: new TextDecoder('windows-1252').decode(bytes) };
    return { why: 'is not UTF-8 text: save it as UTF-8' };
  }
}

/** A folder that is not there, or that may not be read, is an empty one. */
export async function listFolderForServer({
  uri,
}: {
  uri: string;
}): Promise<{ entries: { name: string; isFolder: boolean }[] }> {
  try {
    const found = await vscode.workspace.fs.readDirectory(vscode.Uri.parse(uri, true));
    // A link bears the kind of what it leads to beside its own.
    return { entries: found.map(([name, type]) => ({ name, isFolder: (type & vscode.FileType.Directory) !== 0 })) };
  } catch {
    return { entries: [] };
  }
}

/** As many as the server looks for on a disk. */
const MOST_SPECS = 2_000;

export async function findSpecsForServer(): Promise<{ uris: string[] }> {
  const found = await vscode.workspace.findFiles('**/*.planish', '**/node_modules/**', MOST_SPECS);
  return { uris: found.map((uri) => uri.toString()) };
}

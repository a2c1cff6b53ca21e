// Writing what the server made: through the editor's file system, so that it works on remote and virtual ones too,
// and never over a file that is already there unless somebody said so.
import * as vscode from 'vscode';
import type { Missing } from '../server/requests.ts';

export async function exists(place: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(place);
    return true;
  } catch {
    return false;
  }
}

/** The folder a new file belongs in: beside the spec, or the workspace's first folder for a spec not saved yet. */
export function folderFor(spec: vscode.Uri | undefined): vscode.Uri | undefined {
  if (spec && spec.scheme !== 'untitled') return vscode.Uri.joinPath(spec, '..');
  return vscode.workspace.workspaceFolders?.[0]?.uri;
}

/** Asks for a folder to write into, first of all the one that what is written goes with. */
export async function askForFolder(
  title: string,
  openLabel: string,
  spec: vscode.Uri | undefined,
): Promise<vscode.Uri | undefined> {
  const suggested = folderFor(spec);
  const chosen = await vscode.window.showOpenDialog({
    title,
    openLabel,
    canSelectFiles: false,
    canSelectFolders: true,
    ...(suggested ? { defaultUri: suggested } : {}),
  });
  return chosen?.[0];
}

/** The last part of a path, for messages: a smith knows the file, not its URI. */
export const shortName = (place: vscode.Uri): string => place.path.slice(place.path.lastIndexOf('/') + 1);

/** Every piece with its reason, for messages. */
export const withReasons = (missing: readonly Missing[]): string =>
  missing.map(({ piece, reason }) => `${piece} (${reason})`).join(', ');

/** What an error says, without the protocol's wrapping. */
export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

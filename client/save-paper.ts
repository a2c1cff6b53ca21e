// What every export ends with: a place for the file, and the file in it.
import * as vscode from 'vscode';
import { exists, folderFor, messageOf, shortName } from './files.ts';
import type { PaperFile } from './protocol.ts';

export interface SavePaper {
  spec: vscode.Uri;
  /** The ending of the file, without its point. */
  format: string;
  /** What the save dialog calls it. */
  label: string;
  title: string;
  /** What is said once it is written. */
  written: (place: string) => string;
  /** Where to write; otherwise a save dialog asks. */
  target?: string;
  /** Whether a file at `target` may be replaced. */
  overwrite: boolean;
}

/** Gives the place of the written file, or undefined where nothing was written. */
export async function savePaper(made: PaperFile, ask: SavePaper): Promise<vscode.Uri | undefined> {
  const { target, overwrite } = ask;
  const place = target ? vscode.Uri.parse(target, true) : await askForPlace(made.name, ask);
  if (!place) return undefined;
  // The save dialog has asked about an existing file already; a named target has not.
  if (target && !overwrite && (await exists(place))) {
    void vscode.window.showErrorMessage(vscode.l10n.t('{0} is already there. Nothing was written.', shortName(place)));
    return undefined;
  }
  try {
    await vscode.workspace.fs.writeFile(place, bytesOf(made));
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t('{0} could not be written: {1}', shortName(place), messageOf(error)),
    );
    return undefined;
  }
  void offerToOpen(place, ask);
  return place;
}

export function specInFront(): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document?.languageId === 'planish' ? document.uri : undefined;
}

function askForPlace(name: string, { spec, title, label, format }: SavePaper): Thenable<vscode.Uri | undefined> {
  const folder = folderFor(spec);
  return vscode.window.showSaveDialog({
    title,
    filters: { [label]: [format] },
    ...(folder ? { defaultUri: vscode.Uri.joinPath(folder, name) } : {}),
  });
}

function bytesOf(made: PaperFile): Uint8Array {
  if (made.base64 === undefined) return new TextEncoder().encode(made.text ?? '');
  return Uint8Array.from(atob(made.base64), (character) => character.charCodeAt(0));
}

async function offerToOpen(place: vscode.Uri, { format, written }: SavePaper): Promise<void> {
  const open = vscode.l10n.t('Open');
  const answer = await vscode.window.showInformationMessage(written(shortName(place)), open);
  if (answer !== open) return;
  // Pages and PDFs belong in the system's own viewer, which only files on this machine can reach.
  const isPage = format === 'html' || format === 'pdf';
  if (isPage && place.scheme === 'file' && !vscode.env.remoteName) await vscode.env.openExternal(place);
  else if (format === 'md') await vscode.commands.executeCommand('markdown.showPreview', place);
  else await vscode.commands.executeCommand('vscode.open', place);
}

// What an export of one file ends with: a place for the file, and the file in it.
import * as vscode from 'vscode';
import type { PaperFile } from '../server/requests.ts';
import type { Settled } from './ask-for-paper.ts';
import { exists, folderFor, messageOf, shortName, withReasons } from './files.ts';
import type { Offer } from './offer.ts';

/** Gives the place of the written file, or undefined where nothing was written. */
export async function savePaper(
  made: PaperFile | undefined,
  ask: Settled,
  { title, show, written }: Offer,
): Promise<vscode.Uri | undefined> {
  if (!made) return undefined;
  const { target, overwrite } = ask;
  const place = target ? vscode.Uri.parse(target, true) : await askForPlace(made.name, ask, title);
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
  void offerToOpen(place, ask, show, told(written!(shortName(place)), made));
  return place;
}

export interface Told {
  text: string;
  /** Something is not on it that was to be. */
  isWarning: boolean;
}

/** What is said of a paper that lies in its place. */
export function told(written: string, { leftOut = [] }: PaperFile): Told {
  if (!leftOut.length) return { text: written, isWarning: false };
  return { text: `${written} ${vscode.l10n.t('Not drawn: {0}.', withReasons(leftOut))}`, isWarning: true };
}

function askForPlace(name: string, { spec, to }: Settled, title: string): Thenable<vscode.Uri | undefined> {
  const folder = folderFor(spec);
  return vscode.window.showSaveDialog({
    title,
    filters: { [to.toUpperCase()]: [to] },
    ...(folder ? { defaultUri: vscode.Uri.joinPath(folder, name) } : {}),
  });
}

export function bytesOf(made: PaperFile): Uint8Array {
  if (made.base64 === undefined) return new TextEncoder().encode(made.text ?? '');
  return Uint8Array.from(atob(made.base64), (character) => character.charCodeAt(0));
}

async function offerToOpen(place: vscode.Uri, { to, spec }: Settled, show: string, told: Told): Promise<void> {
  const open = vscode.l10n.t('Open');
  const { showInformationMessage, showWarningMessage } = vscode.window;
  if ((await (told.isWarning ? showWarningMessage : showInformationMessage)(told.text, open)) !== open) return;
  const { executeCommand } = vscode.commands;
  // An editor shows what the file of a page or of a drawing holds, and not what it is.
  if (to === 'html' || to === 'pdf' || to === 'svg') await executeCommand(show, spec);
  else await executeCommand(to === 'md' ? 'markdown.showPreview' : 'vscode.open', place);
}

// What an export of several files ends with: a folder for them, and the files in it.
import * as vscode from 'vscode';
import type { LayoutFiles } from '../server/requests.ts';
import type { Settled } from './ask-for-paper.ts';
import { askForFolder, exists, messageOf, withReasons } from './files.ts';
import type { Offer } from './offer.ts';

/** Gives the places of the written files; none where nothing was written. */
export async function saveParts(
  made: LayoutFiles | undefined,
  { spec, folder, overwrite }: Settled,
  { title, show, parts }: Offer,
): Promise<vscode.Uri[]> {
  if (!made) return [];
  const words = parts!;
  if (!made.sheets.length) {
    void vscode.window.showInformationMessage(words.none);
    return [];
  }
  const place = folder
    ? vscode.Uri.parse(folder, true)
    : await askForFolder(title, vscode.l10n.t('Put them here'), spec);
  if (!place) return [];
  const written = await write(place, made, overwrite);
  if (written.length) void offerToShow(made, words, () => vscode.commands.executeCommand(show, spec));
  return written;
}

async function write(
  folder: vscode.Uri,
  { sheets }: LayoutFiles,
  overwrite: boolean | undefined,
): Promise<vscode.Uri[]> {
  const placed = sheets.map(({ name, text }) => ({ name, text, uri: vscode.Uri.joinPath(folder, name) }));
  // All or nothing: new sheets beside old ones would be worse than none.
  for (const { uri, name } of placed)
    if (!overwrite && (await exists(uri))) {
      if (overwrite === undefined && (await mayReplace(name))) break;
      if (overwrite === false)
        void vscode.window.showErrorMessage(vscode.l10n.t('{0} is already there. Nothing was written.', name));
      return [];
    }
  for (const { uri, text, name } of placed)
    try {
      await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
    } catch (error) {
      void vscode.window.showErrorMessage(vscode.l10n.t('{0} could not be written: {1}', name, messageOf(error)));
      return [];
    }
  return placed.map(({ uri }) => uri);
}

async function offerToShow(
  { sheets, missing }: LayoutFiles,
  words: NonNullable<Offer['parts']>,
  show: () => Thenable<unknown>,
): Promise<void> {
  const written = words.written(sheets.map(({ name }) => name).join(', '));
  const open = vscode.l10n.t('Open');
  const { showInformationMessage, showWarningMessage } = vscode.window;
  const answer = missing.length
    ? await showWarningMessage(`${written} ${words.without(withReasons(missing))}`, open)
    : await showInformationMessage(written, open);
  if (answer === open) await show();
}

async function mayReplace(name: string): Promise<boolean> {
  const replace = vscode.l10n.t('Replace');
  const question = vscode.l10n.t('{0} is already there.', name);
  return (await vscode.window.showWarningMessage(question, { modal: true }, replace)) === replace;
}

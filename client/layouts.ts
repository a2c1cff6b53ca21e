// "Export sheet layouts": the server lays the blanks on their sheets, the editor finds the files a folder.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper, type PaperRequest, settle } from './ask-for-paper.ts';
import { askForFolder, exists, messageOf, withReasons } from './files.ts';
import { drawings, wantsKerf } from './patterns.ts';
import { type LayoutFiles, type LayoutFormat, layoutsRequest } from './protocol.ts';

export interface LayoutsRequest extends PaperRequest<LayoutFormat> {
  /** The folder to write into; otherwise a dialog asks. */
  folder?: string;
  /** Whether what is cut lies half the kerf in the waste; otherwise the setting says it. */
  kerf?: boolean;
}

/** Gives the places of the written files, one for each sheet; none where nothing was written. */
export async function exportLayouts(
  client: BaseLanguageClient,
  request: LayoutsRequest | vscode.Uri = {},
): Promise<vscode.Uri[]> {
  const title = vscode.l10n.t('Export sheet layouts');
  // Sheets are for a cutter before anything else.
  const settled = await settle<LayoutsRequest>(request, title, drawings().reverse());
  if (!settled) return [];
  const { spec, to, kerf, folder, overwrite } = settled;
  const making = vscode.l10n.t('Laying out the sheets');
  const asked = { to, kerf: kerf ?? wantsKerf(spec) };
  const made = await askForPaper<LayoutFiles>(client, layoutsRequest, spec, asked, { title, making });
  if (!made) return [];
  if (!made.sheets.length) {
    void vscode.window.showInformationMessage(vscode.l10n.t('There is nothing that can be laid on a sheet.'));
    return [];
  }
  const place = folder
    ? vscode.Uri.parse(folder, true)
    : await askForFolder(title, vscode.l10n.t('Put them here'), spec);
  return place ? await write(place, made, overwrite) : [];
}

async function write(
  folder: vscode.Uri,
  { sheets, missing }: LayoutFiles,
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
  const written = vscode.l10n.t('Sheets written: {0}.', placed.map(({ name }) => name).join(', '));
  if (!missing.length) void vscode.window.showInformationMessage(written);
  else void vscode.window.showWarningMessage(`${written} ${vscode.l10n.t('On no sheet: {0}.', withReasons(missing))}`);
  return placed.map(({ uri }) => uri);
}

async function mayReplace(name: string): Promise<boolean> {
  const replace = vscode.l10n.t('Replace');
  const question = vscode.l10n.t('{0} is already there.', name);
  return (await vscode.window.showWarningMessage(question, { modal: true }, replace)) === replace;
}

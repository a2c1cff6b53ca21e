// "Export sheet layouts": the server lays the blanks on their sheets, the editor finds the files a folder.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper } from './ask-for-paper.ts';
import { exists, folderFor, messageOf } from './files.ts';
import { type LayoutFiles, type LayoutFormat, layoutsRequest } from './protocol.ts';
import { specInFront } from './save-paper.ts';

/** Everything may be left out; what is missing is asked for. */
export interface LayoutsRequest {
  /** The spec; otherwise the one in front. */
  uri?: string;
  to?: LayoutFormat;
  /** The folder to write into; otherwise a dialog asks. */
  folder?: string;
  /** Whether files that are there already may be replaced; otherwise it is asked. */
  overwrite?: boolean;
}

interface Choice extends vscode.QuickPickItem {
  to: LayoutFormat;
}

const choices = (): Choice[] => [
  { to: 'dxf', label: 'DXF', description: vscode.l10n.t('for a cutter, in millimetres, with layers') },
  { to: 'svg', label: 'SVG', description: vscode.l10n.t('for a drawing program, one unit a millimetre') },
];

/** Gives the places of the written files, one for each sheet; none where nothing was written. */
export async function exportLayouts(
  client: BaseLanguageClient,
  request: LayoutsRequest | vscode.Uri = {},
): Promise<vscode.Uri[]> {
  // Menus pass the file they were opened on; a caller passes what it has decided already.
  const asked: LayoutsRequest = request instanceof vscode.Uri ? { uri: request.toString() } : request;
  const spec = asked.uri ? vscode.Uri.parse(asked.uri, true) : specInFront();
  const title = vscode.l10n.t('Export sheet layouts');
  if (!spec) {
    void vscode.window.showInformationMessage(vscode.l10n.t('Open a build spec first, then export its sheet layouts.'));
    return [];
  }
  const to = asked.to ?? (await vscode.window.showQuickPick(choices(), { title }))?.to;
  if (!to) return [];
  try {
    const laying = vscode.l10n.t('Laying out the sheets');
    const made = await askForPaper<LayoutFiles>(client, layoutsRequest, spec, { to }, laying);
    if (!made) return [];
    if (!made.sheets.length) {
      void vscode.window.showInformationMessage(vscode.l10n.t('There is nothing that can be laid on a sheet.'));
      return [];
    }
    const folder = asked.folder ? vscode.Uri.parse(asked.folder, true) : await askForFolder(title, spec);
    return folder ? await write(folder, made, asked.overwrite) : [];
  } catch (error) {
    void vscode.window.showErrorMessage(vscode.l10n.t('No sheet layouts: {0}', messageOf(error)));
    return [];
  }
}

async function askForFolder(title: string, spec: vscode.Uri): Promise<vscode.Uri | undefined> {
  const suggested = folderFor(spec);
  const chosen = await vscode.window.showOpenDialog({
    title,
    openLabel: vscode.l10n.t('Put them here'),
    canSelectFiles: false,
    canSelectFolders: true,
    ...(suggested ? { defaultUri: suggested } : {}),
  });
  return chosen?.[0];
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
  for (const { uri, text } of placed) await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  const written = vscode.l10n.t('Sheets written: {0}.', placed.map(({ name }) => name).join(', '));
  if (!missing.length) void vscode.window.showInformationMessage(written);
  else {
    const left = missing.map(({ piece, reason }) => `${piece} (${reason})`).join(', ');
    void vscode.window.showWarningMessage(`${written} ${vscode.l10n.t('On no sheet: {0}.', left)}`);
  }
  return placed.map(({ uri }) => uri);
}

async function mayReplace(name: string): Promise<boolean> {
  const replace = vscode.l10n.t('Replace');
  const question = vscode.l10n.t('{0} is already there.', name);
  return (await vscode.window.showWarningMessage(question, { modal: true }, replace)) === replace;
}

// "Export cut list": the server makes the paper, the editor finds it a place.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { exists, folderFor, messageOf, shortName } from './files.ts';
import { type CutListFile, type CutListFormat, cutListRequest } from './protocol.ts';

/** Everything may be left out; what is missing is asked for. */
export interface CutListRequest {
  /** The spec; otherwise the one in front. */
  uri?: string;
  to?: CutListFormat;
  /** Where to write; otherwise a save dialog asks. */
  target?: string;
  /** Whether a file at `target` may be replaced. */
  overwrite?: boolean;
}

interface FormatChoice extends vscode.QuickPickItem {
  to: CutListFormat;
}

const formats = (): FormatChoice[] => [
  { to: 'html', label: 'HTML', description: vscode.l10n.t('one page with a drawing of every sheet, prints well') },
  { to: 'pdf', label: 'PDF', description: vscode.l10n.t('the same, ready for the printer') },
  { to: 'csv', label: 'CSV', description: vscode.l10n.t('rows for a spreadsheet') },
  { to: 'md', label: 'Markdown', description: vscode.l10n.t('tables in plain text') },
  { to: 'json', label: 'JSON', description: vscode.l10n.t('for other programs') },
];

/** Gives the place of the written file, or undefined where nothing was written. */
export async function exportCutList(
  client: BaseLanguageClient,
  request: CutListRequest | vscode.Uri = {},
): Promise<vscode.Uri | undefined> {
  // Menus pass the file they were opened on; a caller passes what it has decided already.
  const { uri, to, target, overwrite }: CutListRequest =
    request instanceof vscode.Uri ? { uri: request.toString() } : request;
  const spec = uri ? vscode.Uri.parse(uri, true) : specInFront();
  if (!spec) {
    void vscode.window.showInformationMessage(vscode.l10n.t('Open a build spec first, then export its cut list.'));
    return undefined;
  }
  const format = to ?? (await vscode.window.showQuickPick(formats(), { title: exportTitle() }))?.to;
  if (!format) return undefined;

  let made: CutListFile;
  try {
    // A spec that is not open yet is opened, so that the server has it.
    await vscode.workspace.openTextDocument(spec);
    made = await vscode.window.withProgress(
      { location: vscode.ProgressLocation.Window, title: vscode.l10n.t('Laying out the cut list') },
      () => client.sendRequest<CutListFile>(cutListRequest, { uri: spec.toString(), to: format }),
    );
  } catch (error) {
    void vscode.window.showErrorMessage(vscode.l10n.t('No cut list: {0}', messageOf(error)));
    return undefined;
  }

  const place = target ? vscode.Uri.parse(target, true) : await askForPlace(spec, made.name, format);
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
  void offerToOpen(place, format);
  return place;
}

const exportTitle = () => vscode.l10n.t('Export cut list');

function specInFront(): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document?.languageId === 'planish' ? document.uri : undefined;
}

function askForPlace(spec: vscode.Uri, name: string, format: CutListFormat): Thenable<vscode.Uri | undefined> {
  const folder = folderFor(spec);
  const label = formats().find(({ to }) => to === format)?.label ?? format;
  return vscode.window.showSaveDialog({
    title: exportTitle(),
    filters: { [label]: [format] },
    ...(folder ? { defaultUri: vscode.Uri.joinPath(folder, name) } : {}),
  });
}

function bytesOf(made: CutListFile): Uint8Array {
  if (made.base64 === undefined) return new TextEncoder().encode(made.text ?? '');
  return Uint8Array.from(atob(made.base64), (character) => character.charCodeAt(0));
}

async function offerToOpen(place: vscode.Uri, format: CutListFormat): Promise<void> {
  const open = vscode.l10n.t('Open');
  const answer = await vscode.window.showInformationMessage(
    vscode.l10n.t('Cut list written to {0}.', shortName(place)),
    open,
  );
  if (answer !== open) return;
  // Pages and PDFs belong in the system's own viewer, which only files on this machine can reach.
  const isPage = format === 'html' || format === 'pdf';
  if (isPage && place.scheme === 'file' && !vscode.env.remoteName) await vscode.env.openExternal(place);
  else if (format === 'md') await vscode.commands.executeCommand('markdown.showPreview', place);
  else await vscode.commands.executeCommand('vscode.open', place);
}

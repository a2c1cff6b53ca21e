// "Export cut list": the server makes the paper, the editor finds it a place.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper } from './ask-for-paper.ts';
import { messageOf } from './files.ts';
import { type CutListFormat, cutListRequest, type PaperFile } from './protocol.ts';
import { savePaper, specInFront } from './save-paper.ts';

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

  let made: PaperFile | undefined;
  try {
    const title = vscode.l10n.t('Laying out the cut list');
    made = await askForPaper(client, cutListRequest, spec, { to: format }, title);
  } catch (error) {
    void vscode.window.showErrorMessage(vscode.l10n.t('No cut list: {0}', messageOf(error)));
    return undefined;
  }

  if (!made) return undefined;
  return savePaper(made, {
    spec,
    format,
    label: formats().find(({ to }) => to === format)?.label ?? format,
    title: exportTitle(),
    written: (place) => vscode.l10n.t('Cut list written to {0}.', place),
    ...(target ? { target } : {}),
    overwrite: overwrite ?? false,
  });
}

const exportTitle = () => vscode.l10n.t('Export cut list');

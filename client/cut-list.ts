// "Export cut list": the server makes the paper, the editor finds it a place.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper, type FormatChoice, type PaperRequest, settle } from './ask-for-paper.ts';
import { type CutListFormat, cutListRequest } from './protocol.ts';
import { savePaper } from './save-paper.ts';

export interface CutListRequest extends PaperRequest<CutListFormat> {
  /** Where to write; otherwise a save dialog asks. */
  target?: string;
}

const formats = (): FormatChoice<CutListRequest>[] => [
  {
    decides: { to: 'html' },
    label: 'HTML',
    description: vscode.l10n.t('one page with a drawing of every sheet, prints well'),
  },
  { decides: { to: 'pdf' }, label: 'PDF', description: vscode.l10n.t('the same, ready for the printer') },
  { decides: { to: 'csv' }, label: 'CSV', description: vscode.l10n.t('rows for a spreadsheet') },
  { decides: { to: 'md' }, label: 'Markdown', description: vscode.l10n.t('tables in plain text') },
  { decides: { to: 'json' }, label: 'JSON', description: vscode.l10n.t('for other programs') },
];

/** Gives the place of the written file, or undefined where nothing was written. */
export async function exportCutList(
  client: BaseLanguageClient,
  request: CutListRequest | vscode.Uri = {},
): Promise<vscode.Uri | undefined> {
  const title = vscode.l10n.t('Export cut list');
  const settled = await settle(request, title, formats());
  if (!settled) return undefined;
  const { spec, to } = settled;
  const making = vscode.l10n.t('Laying out the cut list');
  const made = await askForPaper(client, cutListRequest, spec, { to }, { title, making });
  return savePaper(made, settled, title, (place) => vscode.l10n.t('Cut list written to {0}.', place));
}

// "Export order list": what is to be bought for a build, with what is in the rack taken off.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper, type FormatChoice, type PaperRequest, settle } from './ask-for-paper.ts';
import { type OrderListFormat, orderListRequest } from './protocol.ts';
import { savePaper } from './save-paper.ts';

export interface OrderListRequest extends PaperRequest<OrderListFormat> {
  /** Where to write; otherwise a save dialog asks. */
  target?: string;
}

const formats = (): FormatChoice<OrderListRequest>[] => [
  { decides: { to: 'html' }, label: 'HTML', description: vscode.l10n.t('one page to print, with boxes to tick') },
  { decides: { to: 'pdf' }, label: 'PDF', description: vscode.l10n.t('the same, ready for the printer') },
  { decides: { to: 'md' }, label: 'Markdown', description: vscode.l10n.t('tables in plain text') },
  { decides: { to: 'json' }, label: 'JSON', description: vscode.l10n.t('for other programs') },
];

/** Gives the place of the written file, or undefined where nothing was written. */
export async function exportOrderList(
  client: BaseLanguageClient,
  request: OrderListRequest | vscode.Uri = {},
): Promise<vscode.Uri | undefined> {
  const title = vscode.l10n.t('Export order list');
  const settled = await settle(request, title, formats());
  if (!settled) return undefined;
  const { spec, to } = settled;
  const making = vscode.l10n.t('Making the order list');
  const made = await askForPaper(client, orderListRequest, spec, { to }, { title, making });
  return savePaper(made, settled, title, (place) => vscode.l10n.t('Order list written to {0}.', place));
}

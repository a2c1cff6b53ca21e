// "Export cut list" and "Export order list": what to cut for a build, and what to buy for it.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { FormatChoice } from './ask-for-paper.ts';
import { exportPaper, type FileRequest } from './export-paper.ts';
import { type CutListFormat, cutListRequest, type OrderListFormat, orderListRequest } from './protocol.ts';

export type CutListRequest = FileRequest<CutListFormat>;
export type OrderListRequest = FileRequest<OrderListFormat>;

export const exportCutList = (client: BaseLanguageClient, request: CutListRequest | vscode.Uri = {}) =>
  exportPaper(client, request, {
    method: cutListRequest,
    title: vscode.l10n.t('Export cut list'),
    making: vscode.l10n.t('Laying out the cut list'),
    written: (place) => vscode.l10n.t('Cut list written to {0}.', place),
    formats: [
      html(vscode.l10n.t('one page with a drawing of every sheet, prints well')),
      pdf(),
      { decides: { to: 'csv' }, label: 'CSV', description: vscode.l10n.t('rows for a spreadsheet') },
      markdown(),
      json(),
    ],
  });

export const exportOrderList = (client: BaseLanguageClient, request: OrderListRequest | vscode.Uri = {}) =>
  exportPaper(client, request, {
    method: orderListRequest,
    title: vscode.l10n.t('Export order list'),
    making: vscode.l10n.t('Making the order list'),
    written: (place) => vscode.l10n.t('Order list written to {0}.', place),
    formats: [html(vscode.l10n.t('one page to print, with boxes to tick')), pdf(), markdown(), json()],
  });

/** A format of both. */
type Choice = FormatChoice<OrderListRequest>;

const html = (description: string): Choice => ({ decides: { to: 'html' }, label: 'HTML', description });
const pdf = (): Choice => ({
  decides: { to: 'pdf' },
  label: 'PDF',
  description: vscode.l10n.t('the same, ready for the printer'),
});
const markdown = (): Choice => ({
  decides: { to: 'md' },
  label: 'Markdown',
  description: vscode.l10n.t('tables in plain text'),
});
const json = (): Choice => ({
  decides: { to: 'json' },
  label: 'JSON',
  description: vscode.l10n.t('for other programs'),
});

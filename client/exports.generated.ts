// Made by npm run generate from server/output/exports.ts. Do not edit.
import * as vscode from 'vscode';
import type { Offer } from './offer.ts';

export const offers = (): Offer[] => [
  {
    command: 'planish.exportCutList',
    method: 'planish/cutList',
    title: vscode.l10n.t('Export cut list'),
    making: vscode.l10n.t('Laying out the cut list'),
    formats: [
      { decides: { to: 'html' }, label: 'HTML', description: vscode.l10n.t('one page with a drawing of every sheet, prints well') },
      { decides: { to: 'pdf' }, label: 'PDF', description: vscode.l10n.t('the same, ready for the printer') },
      { decides: { to: 'csv' }, label: 'CSV', description: vscode.l10n.t('rows for a spreadsheet') },
      { decides: { to: 'md' }, label: 'Markdown', description: vscode.l10n.t('tables in plain text') },
      { decides: { to: 'json' }, label: 'JSON', description: vscode.l10n.t('for other programs') },
    ],
    kerf: false,
    written: (name) => vscode.l10n.t('Cut list written to {0}.', name),
  },
  {
    command: 'planish.exportOrderList',
    method: 'planish/orderList',
    title: vscode.l10n.t('Export order list'),
    making: vscode.l10n.t('Making the order list'),
    formats: [
      { decides: { to: 'html' }, label: 'HTML', description: vscode.l10n.t('one page to print, with boxes to tick') },
      { decides: { to: 'pdf' }, label: 'PDF', description: vscode.l10n.t('the same, ready for the printer') },
      { decides: { to: 'md' }, label: 'Markdown', description: vscode.l10n.t('tables in plain text') },
      { decides: { to: 'json' }, label: 'JSON', description: vscode.l10n.t('for other programs') },
    ],
    kerf: false,
    written: (name) => vscode.l10n.t('Order list written to {0}.', name),
  },
  {
    command: 'planish.exportBuildSheet',
    method: 'planish/buildSheet',
    title: vscode.l10n.t('Export build sheet'),
    making: vscode.l10n.t('Putting the work in order'),
    formats: [
      { decides: { to: 'html' }, label: 'HTML', description: vscode.l10n.t('one page to print, with boxes to tick') },
      { decides: { to: 'pdf' }, label: 'PDF', description: vscode.l10n.t('the same, ready for the printer') },
      { decides: { to: 'md' }, label: 'Markdown', description: vscode.l10n.t('tables in plain text') },
      { decides: { to: 'json' }, label: 'JSON', description: vscode.l10n.t('for other programs') },
    ],
    kerf: false,
    written: (name) => vscode.l10n.t('Build sheet written to {0}.', name),
  },
  {
    command: 'planish.exportPatterns',
    method: 'planish/patterns',
    title: vscode.l10n.t('Export patterns'),
    making: vscode.l10n.t('Drawing the patterns'),
    formats: [
      { decides: { to: 'pdf', paper: 'a4' }, label: vscode.l10n.t('PDF, A4'), description: vscode.l10n.t('sheets that lap, with marks to join them by') },
      { decides: { to: 'pdf', paper: 'a3' }, label: vscode.l10n.t('PDF, A3'), description: vscode.l10n.t('the same on larger sheets') },
      { decides: { to: 'pdf', paper: 'letter' }, label: vscode.l10n.t('PDF, Letter'), description: vscode.l10n.t('the same on letter paper') },
      { decides: { to: 'pdf', paper: 'full' }, label: vscode.l10n.t('PDF, one page for each piece'), description: vscode.l10n.t('for a plotter or a copy shop') },
      { decides: { to: 'svg' }, label: 'SVG', description: vscode.l10n.t('for a drawing program, one unit a millimetre') },
      { decides: { to: 'dxf' }, label: 'DXF', description: vscode.l10n.t('for a cutter, in millimetres, with layers') },
    ],
    kerf: true,
    written: (name) => vscode.l10n.t('Patterns written to {0}.', name),
  },
  {
    command: 'planish.exportLayouts',
    method: 'planish/layouts',
    title: vscode.l10n.t('Export sheet layouts'),
    making: vscode.l10n.t('Laying out the sheets'),
    formats: [
      { decides: { to: 'dxf' }, label: 'DXF', description: vscode.l10n.t('for a cutter, in millimetres, with layers') },
      { decides: { to: 'svg' }, label: 'SVG', description: vscode.l10n.t('for a drawing program, one unit a millimetre') },
    ],
    kerf: true,
    parts: {
      written: (name) => vscode.l10n.t('Sheets written: {0}.', name),
      without: (name) => vscode.l10n.t('On no sheet: {0}.', name),
      none: vscode.l10n.t('There is nothing that can be laid on a sheet.'),
    },
  },
];

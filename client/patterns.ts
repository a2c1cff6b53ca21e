// "Export patterns": the server draws them, the editor finds them a place.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { FormatChoice, PaperRequest } from './ask-for-paper.ts';
import { exportPaper, type FileRequest } from './export-paper.ts';
import { type PatternFormat, type PatternPaper, patternsRequest } from './protocol.ts';

export interface PatternsRequest extends FileRequest<PatternFormat> {
  /** Of a PDF; otherwise the sheets that go with the units of the build. */
  paper?: PatternPaper;
  /** Of a drawing, whether what is cut lies half the kerf in the waste; otherwise the setting says it. */
  kerf?: boolean;
}

const formats = (): FormatChoice<PatternsRequest>[] => [
  {
    decides: { to: 'pdf', paper: 'a4' },
    label: 'PDF, A4',
    description: vscode.l10n.t('sheets that lap, with marks to join them by'),
  },
  {
    decides: { to: 'pdf', paper: 'a3' },
    label: 'PDF, A3',
    description: vscode.l10n.t('the same on larger sheets'),
  },
  {
    decides: { to: 'pdf', paper: 'letter' },
    label: 'PDF, Letter',
    description: vscode.l10n.t('the same on letter paper'),
  },
  {
    decides: { to: 'pdf', paper: 'full' },
    label: vscode.l10n.t('PDF, one page for each piece'),
    description: vscode.l10n.t('for a plotter or a copy shop'),
  },
  ...drawings(),
];

/** Patterns and sheet layouts alike, for programs and machines. */
export const drawings = (): FormatChoice<PaperRequest<'svg' | 'dxf'>>[] => [
  {
    decides: { to: 'svg' },
    label: 'SVG',
    description: vscode.l10n.t('for a drawing program, one unit a millimetre'),
  },
  { decides: { to: 'dxf' }, label: 'DXF', description: vscode.l10n.t('for a cutter, in millimetres, with layers') },
];

/** A cutter that allows for the kerf itself must not be given it twice: so it is the shop's to set. */
export const wantsKerf = (spec: vscode.Uri): boolean =>
  vscode.workspace.getConfiguration('planish', spec).get('export.kerf', false);

export const exportPatterns = (client: BaseLanguageClient, request: PatternsRequest | vscode.Uri = {}) =>
  exportPaper(client, request, {
    method: patternsRequest,
    title: vscode.l10n.t('Export patterns'),
    making: vscode.l10n.t('Drawing the patterns'),
    written: (place) => vscode.l10n.t('Patterns written to {0}.', place),
    formats: formats(),
    asked: ({ spec, to, paper, kerf }) => ({
      ...(paper ? { paper } : {}),
      kerf: kerf ?? (to !== 'pdf' && wantsKerf(spec)),
    }),
  });

// "Export patterns": the server draws them, the editor finds them a place.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { askForPaper } from './ask-for-paper.ts';
import { messageOf } from './files.ts';
import { type PaperFile, type PatternFormat, type PatternPaper, patternsRequest } from './protocol.ts';
import { savePaper, specInFront } from './save-paper.ts';

/** Everything may be left out; what is missing is asked for. */
export interface PatternsRequest {
  /** The spec; otherwise the one in front. */
  uri?: string;
  to?: PatternFormat;
  /** Of a PDF; otherwise the sheets that go with the units of the build. */
  paper?: PatternPaper;
  /** Where to write; otherwise a save dialog asks. */
  target?: string;
  /** Whether a file at `target` may be replaced. */
  overwrite?: boolean;
}

interface Choice extends vscode.QuickPickItem {
  to: PatternFormat;
  paper?: PatternPaper;
}

const choices = (): Choice[] => [
  {
    to: 'pdf',
    paper: 'a4',
    label: 'PDF, A4',
    description: vscode.l10n.t('sheets that lap, with marks to join them by'),
  },
  { to: 'pdf', paper: 'a3', label: 'PDF, A3', description: vscode.l10n.t('the same on larger sheets') },
  { to: 'pdf', paper: 'letter', label: 'PDF, Letter', description: vscode.l10n.t('the same on letter paper') },
  {
    to: 'pdf',
    paper: 'full',
    label: vscode.l10n.t('PDF, one page for each piece'),
    description: vscode.l10n.t('for a plotter or a copy shop'),
  },
  { to: 'svg', label: 'SVG', description: vscode.l10n.t('for a drawing program, one unit a millimetre') },
  { to: 'dxf', label: 'DXF', description: vscode.l10n.t('for a cutter, in millimetres, with layers') },
];

/** Gives the place of the written file, or undefined where nothing was written. */
export async function exportPatterns(
  client: BaseLanguageClient,
  request: PatternsRequest | vscode.Uri = {},
): Promise<vscode.Uri | undefined> {
  // Menus pass the file they were opened on; a caller passes what it has decided already.
  const asked: PatternsRequest = request instanceof vscode.Uri ? { uri: request.toString() } : request;
  const spec = asked.uri ? vscode.Uri.parse(asked.uri, true) : specInFront();
  const title = vscode.l10n.t('Export patterns');
  if (!spec) {
    void vscode.window.showInformationMessage(vscode.l10n.t('Open a build spec first, then export its patterns.'));
    return undefined;
  }
  const choice = asked.to
    ? { to: asked.to, ...(asked.paper ? { paper: asked.paper } : {}) }
    : await vscode.window.showQuickPick(choices(), { title });
  if (!choice) return undefined;
  const { to, paper } = choice;
  let made: PaperFile | undefined;
  try {
    const params = { to, ...(paper ? { paper } : {}) };
    made = await askForPaper(client, patternsRequest, spec, params, vscode.l10n.t('Drawing the patterns'));
  } catch (error) {
    void vscode.window.showErrorMessage(vscode.l10n.t('No patterns: {0}', messageOf(error)));
    return undefined;
  }
  if (!made) return undefined;
  return savePaper(made, {
    spec,
    format: to,
    label: to.toUpperCase(),
    title,
    written: (place) => vscode.l10n.t('Patterns written to {0}.', place),
    ...(asked.target ? { target: asked.target } : {}),
    overwrite: asked.overwrite ?? false,
  });
}

// What every export asks: which spec and which format, and then the server for the paper.
import * as vscode from 'vscode';
import { type BaseLanguageClient, WorkDoneProgress } from 'vscode-languageclient';
import type { ExportAsked } from '../server/requests.ts';
import { messageOf } from './files.ts';
import type { ExportRequest, Offer } from './offer.ts';

/** A request of which it is settled what is to be made. */
export type Settled = ExportRequest & { spec: vscode.Uri; to: string };

/** Asks for what the request leaves out; nothing where there is no spec, or where no format was picked. */
export async function settle(
  given: ExportRequest | vscode.Uri,
  { title, formats }: Offer,
): Promise<Settled | undefined> {
  const spec = specOf(given);
  if (!spec) return undefined;
  const request = given instanceof vscode.Uri ? {} : given;
  const { to } = request;
  const decided = to ? { to } : (await vscode.window.showQuickPick(formats, { title }))?.decides;
  return decided && { ...request, ...decided, spec };
}

/** Menus pass the file they were opened on, a caller what it has decided; otherwise it is the spec in front. */
export function specOf(given: ExportRequest | vscode.Uri): vscode.Uri | undefined {
  if (given instanceof vscode.Uri) return given;
  const spec = given.uri ? vscode.Uri.parse(given.uri, true) : specInFront();
  if (!spec) void vscode.window.showInformationMessage(vscode.l10n.t('Open a build spec first.'));
  return spec;
}

/** How a format is asked for. A cutter that allows for the kerf itself must not be given it twice: so it is the shop's to set. */
export function optionsOf(offer: Offer, spec: vscode.Uri, to: string, kerf?: boolean): Omit<ExportAsked, 'uri'> {
  if (!offer.kerf) return { to };
  const wanted = vscode.workspace.getConfiguration('planish', spec).get('export.kerf', false);
  return { to, kerf: kerf ?? (to !== 'pdf' && wanted) };
}

/**
 * The paper of a spec; nothing where it was left, or where the server has none, which is said. A paper may take long: how
 * far it is is shown, and whoever has waited enough can leave it.
 */
export async function askForPaper<Paper>(
  client: BaseLanguageClient,
  offer: Offer,
  spec: vscode.Uri,
  asked: Omit<ExportAsked, 'uri'>,
): Promise<Paper | undefined> {
  const options = { location: vscode.ProgressLocation.Notification, title: offer.making, cancellable: true };
  return vscode.window.withProgress(options, async (progress, token) => {
    let shown = 0;
    try {
      return await paperOf<Paper>(client, offer, spec, asked, token, (percentage) => {
        progress.report({ increment: percentage - shown });
        shown = percentage;
      });
    } catch (error) {
      if (!token.isCancellationRequested) void vscode.window.showErrorMessage(`${offer.title}: ${messageOf(error)}`);
      return undefined;
    }
  });
}

let count = 0;

/** The same, which fails where there is none; `told` hears how far it is, of a hundred. */
export async function paperOf<Paper>(
  client: BaseLanguageClient,
  { method }: Offer,
  spec: vscode.Uri,
  asked: Omit<ExportAsked, 'uri'>,
  token: vscode.CancellationToken,
  told: (percentage: number) => void,
): Promise<Paper> {
  const workDoneToken = `${method} ${++count}`;
  const heard = client.onProgress(WorkDoneProgress.type, workDoneToken, (value) => {
    if (value.kind === 'report' && value.percentage !== undefined) told(value.percentage);
  });
  try {
    // A spec that is not open yet is opened, so that the server has it.
    await vscode.workspace.openTextDocument(spec);
    return await client.sendRequest<Paper>(method, { uri: spec.toString(), ...asked, workDoneToken }, token);
  } finally {
    heard.dispose();
  }
}

/** The spec that is being looked at. */
export function specInFront(): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document?.languageId === 'planish' ? document.uri : undefined;
}

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
  // Menus pass the file they were opened on; a caller passes what it has decided already.
  const request: ExportRequest = given instanceof vscode.Uri ? { uri: given.toString() } : given;
  const spec = request.uri ? vscode.Uri.parse(request.uri, true) : specInFront();
  if (!spec) {
    void vscode.window.showInformationMessage(vscode.l10n.t('Open a build spec first.'));
    return undefined;
  }
  const { to } = request;
  const decided = to ? { to } : (await vscode.window.showQuickPick(formats, { title }))?.decides;
  return decided && { ...request, ...decided, spec };
}

let count = 0;

/**
 * The paper of a spec; nothing where it was left, or where the server has none, which is said. A paper may take long: how
 * far it is is shown, and whoever has waited enough can leave it.
 */
export async function askForPaper<Paper>(
  client: BaseLanguageClient,
  { method, title, making }: Offer,
  spec: vscode.Uri,
  asked: Omit<ExportAsked, 'uri'>,
): Promise<Paper | undefined> {
  const options = { location: vscode.ProgressLocation.Notification, title: making, cancellable: true };
  return vscode.window.withProgress(options, async (progress, token) => {
    const workDoneToken = `${method} ${++count}`;
    let shown = 0;
    const heard = client.onProgress(WorkDoneProgress.type, workDoneToken, (value) => {
      if (value.kind !== 'report' || value.percentage === undefined) return;
      progress.report({ increment: value.percentage - shown });
      shown = value.percentage;
    });
    try {
      // A spec that is not open yet is opened, so that the server has it.
      await vscode.workspace.openTextDocument(spec);
      return await client.sendRequest<Paper>(method, { uri: spec.toString(), ...asked, workDoneToken }, token);
    } catch (error) {
      if (!token.isCancellationRequested) void vscode.window.showErrorMessage(`${title}: ${messageOf(error)}`);
      return undefined;
    } finally {
      heard.dispose();
    }
  });
}

/** The spec that is being looked at. */
export function specInFront(): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document?.languageId === 'planish' ? document.uri : undefined;
}

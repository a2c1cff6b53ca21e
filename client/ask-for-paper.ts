// What every export asks: which spec and which format, and then the server for the paper.
import * as vscode from 'vscode';
import { type BaseLanguageClient, WorkDoneProgress } from 'vscode-languageclient';
import { messageOf } from './files.ts';
import type { PaperFile } from './protocol.ts';

/** Everything may be left out; what is missing is asked for. */
export interface PaperRequest<Format extends string> {
  /** The spec; otherwise the one in front. */
  uri?: string;
  to?: Format;
  /** Whether files that are there already may be replaced. */
  overwrite?: boolean;
}

/** A format that can be picked, and what it decides of the request. */
export interface FormatChoice<Request extends PaperRequest<string>> extends vscode.QuickPickItem {
  decides: Partial<Request> & { to: NonNullable<Request['to']> };
}

/** A request of which it is settled what is to be made. */
export type Settled<Request extends PaperRequest<string>> = Request & {
  spec: vscode.Uri;
  to: NonNullable<Request['to']>;
};

/** Asks for what the request leaves out; nothing where there is no spec, or where no format was picked. */
export async function settle<Request extends PaperRequest<string>>(
  given: Request | vscode.Uri,
  title: string,
  formats: FormatChoice<Request>[],
): Promise<Settled<Request> | undefined> {
  // Menus pass the file they were opened on; a caller passes what it has decided already.
  const request = given instanceof vscode.Uri ? ({ uri: given.toString() } as Request) : given;
  const spec = request.uri ? vscode.Uri.parse(request.uri, true) : specInFront();
  if (!spec) {
    void vscode.window.showInformationMessage(vscode.l10n.t('Open a build spec first.'));
    return undefined;
  }
  const { to } = request;
  const decided = to ? { to } : (await vscode.window.showQuickPick(formats, { title }))?.decides;
  return decided && ({ ...request, ...decided, spec } as Settled<Request>);
}

let count = 0;

/**
 * The paper of a spec; nothing where it was left, or where the server has none, which is said. A paper may take long: how
 * far it is is shown, and whoever has waited enough can leave it.
 */
export async function askForPaper<Paper = PaperFile>(
  client: BaseLanguageClient,
  method: string,
  spec: vscode.Uri,
  asked: object,
  { title, making }: { title: string; making: string },
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

function specInFront(): vscode.Uri | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document?.languageId === 'planish' ? document.uri : undefined;
}

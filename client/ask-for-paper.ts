// A paper may take long: how far it is is shown, and whoever has waited enough can leave it.
import * as vscode from 'vscode';
import { type BaseLanguageClient, WorkDoneProgress } from 'vscode-languageclient';
import type { PaperFile } from './protocol.ts';

let count = 0;

/** Of this spec; nothing where it was left. */
export async function askForPaper<T = PaperFile>(
  client: BaseLanguageClient,
  method: string,
  spec: vscode.Uri,
  asked: object,
  title: string,
): Promise<T | undefined> {
  // A spec that is not open yet is opened, so that the server has it.
  await vscode.workspace.openTextDocument(spec);
  const options = { location: vscode.ProgressLocation.Notification, title, cancellable: true };
  return vscode.window.withProgress(options, async (progress, token) => {
    const workDoneToken = `${method} ${++count}`;
    let shown = 0;
    const heard = client.onProgress(WorkDoneProgress.type, workDoneToken, (value) => {
      if (value.kind !== 'report' || value.percentage === undefined) return;
      progress.report({ increment: value.percentage - shown });
      shown = value.percentage;
    });
    try {
      return await client.sendRequest<T>(method, { uri: spec.toString(), ...asked, workDoneToken }, token);
    } catch (error) {
      if (token.isCancellationRequested) return undefined;
      throw error;
    } finally {
      heard.dispose();
    }
  });
}

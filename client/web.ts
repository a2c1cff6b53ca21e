// The extension in a browser: the same server as a web worker.
import * as vscode from 'vscode';
import { activate as activateShared, type Planish } from './extension.ts';
import { WorkerClient } from './worker-client.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const programs = vscode.Uri.joinPath(context.extensionUri, 'dist/');
  const script = vscode.Uri.joinPath(programs, 'server-web.js');
  return activateShared(
    context,
    (options) => new WorkerClient(script.toString(true), programs.toString(true), options),
  );
}

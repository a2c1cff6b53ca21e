// The extension in a browser: the same server as a web worker.
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { activate as activateShared, type Planish } from './extension.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist/server-web.js').toString(true);
  return activateShared(context, (options) => new LanguageClient('planish', 'Planish', new Worker(script), options));
}

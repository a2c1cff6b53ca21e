// The extension in a desktop editor or on a remote machine: the server is a Node process of its own.
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activate as activateShared, type Planish } from './extension.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist/server.cjs').fsPath;
  return activateShared(
    context,
    (options) =>
      new LanguageClient(
        'planish',
        'Planish',
        {
          run: { module, transport: TransportKind.ipc },
          debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
        },
        options,
      ),
  );
}

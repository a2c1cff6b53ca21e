// The extension in a desktop editor or on a remote machine: the server is a Node process of its own.
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activate as activateShared, type Planish } from './extension.ts';
import { checkFolder, Tasks } from './tasks.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const tasks = new Tasks(vscode.Uri.joinPath(context.extensionUri, 'dist/cli.cjs').fsPath);
  context.subscriptions.push(
    vscode.tasks.registerTaskProvider('planish', tasks),
    vscode.commands.registerCommand('planish.checkFolder', () => checkFolder(tasks)),
  );
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

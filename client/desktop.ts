// The extension in a desktop editor or on a remote machine: the server is a Node process of its own.
import * as vscode from 'vscode';
import { LanguageClient, State, TransportKind } from 'vscode-languageclient/node';
import { activate as activateShared, type Planish } from './extension.ts';
import { checkFolder, Tasks } from './tasks.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const tasks = new Tasks(vscode.Uri.joinPath(context.extensionUri, 'dist/cli.cjs').fsPath);
  context.subscriptions.push(
    vscode.tasks.registerTaskProvider('planish', tasks),
    vscode.commands.registerCommand('planish.checkFolder', () => checkFolder(tasks)),
  );
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist/server.cjs').fsPath;
  const activated = activateShared(
    context,
    (options) =>
      new ProcessClient(
        'planish',
        'Planish',
        {
          run: { module, transport: TransportKind.ipc },
          debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
        },
        options,
      ),
  );
  // Who has just fetched the sources is shown round (npm start).
  if (process.env['PLANISH_FIRST_STEPS']) void showRound();
  return activated;
}

/** The first steps beside the spec, which keeps the keyboard. */
async function showRound(): Promise<void> {
  await vscode.commands.executeCommand('planish.firstBuild', true);
  await vscode.commands.executeCommand('workbench.action.focusFirstEditorGroup');
}

class ProcessClient extends LanguageClient {
  /** Ends it, whatever it does, as if it had ended by itself. */
  endServer(): void {
    this.serverProcess?.kill('SIGKILL');
  }

  /**
   * One that says no farewell is ended at once, and waited for: the library would end it later, and take that end for the end
   * of the one that was started meanwhile.
   */
  override async stop(timeout?: number): Promise<void> {
    const process = this.serverProcess;
    try {
      await super.stop(timeout);
    } catch (error) {
      if (process && process.exitCode === null && process.signalCode === null && this.state === State.Stopped) {
        const closed = new Promise((resolve) => process.once('close', resolve));
        process.kill('SIGKILL');
        await closed;
      }
      throw error;
    }
  }
}

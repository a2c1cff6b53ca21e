// What lenses and fixes call. The protocol's places become the editor's here, which a server cannot do.
import * as vscode from 'vscode';
import type { BaseLanguageClient, Middleware } from 'vscode-languageclient';
import type { Location, Position } from 'vscode-languageserver-types';

/**
 * The editor keeps the arguments of a lens only as long as the list that it came with, and shows the lens longer: a click then
 * ends in “Actual command not found”. So each lens gets a command of its own without arguments, named by what it does and where;
 * one that is resolved again only changes what that does.
 */
export class LensCommands implements vscode.Disposable {
  private readonly commands = new Map<string, { run: () => unknown; registered: vscode.Disposable }>();

  readonly middleware: Required<Pick<Middleware, 'resolveCodeLens'>> = {
    resolveCodeLens: async (lens, token, next) => {
      const resolved = await next(lens, token);
      const called = resolved?.command;
      if (!resolved || !called?.command || !called.arguments?.length) return resolved;
      const { command, arguments: given } = called;
      const { start } = resolved.range;
      const name = `${command}/${JSON.stringify([given[0], start.line])}`;
      resolved.command = { ...called, command: name, arguments: [] };
      this.keep(name, () => vscode.commands.executeCommand(command, ...given));
      return resolved;
    },
  };

  dispose(): void {
    for (const { registered } of this.commands.values()) registered.dispose();
    this.commands.clear();
  }

  private keep(name: string, run: () => unknown): void {
    const have = this.commands.get(name);
    if (have) {
      have.run = run;
      // Those that are still asked for come last.
      this.commands.delete(name);
      this.commands.set(name, have);
      return;
    }
    const kept = { run, registered: vscode.commands.registerCommand(name, () => kept.run()) };
    this.commands.set(name, kept);
    if (this.commands.size <= MOST_KEPT) return;
    const [oldest, { registered }] = this.commands.entries().next().value!;
    registered.dispose();
    this.commands.delete(oldest);
  }
}

/** Far more than are in sight in all editors. */
const MOST_KEPT = 2_000;

/** What a lens "used 3 times" opens. */
export async function showUses(
  client: BaseLanguageClient,
  uri: string,
  position: Position,
  places: Location[],
): Promise<void> {
  const { protocol2CodeConverter: converter } = client;
  await vscode.commands.executeCommand(
    'editor.action.showReferences',
    converter.asUri(uri),
    converter.asPosition(position),
    places.map((place) => converter.asLocation(place)),
  );
}

/** Shows beside the spec what a fix has changed in another file. */
export async function showChange(client: BaseLanguageClient, uri: string, position: Position): Promise<void> {
  const at = client.protocol2CodeConverter.asPosition(position);
  const place = vscode.Uri.parse(uri, true);
  const options = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true, preview: false };
  await vscode.window.showTextDocument(place, { ...options, selection: new vscode.Range(at, at) });
}

/** Goes to a place and shows its hover, as the keyboard would. */
export async function showHover(client: BaseLanguageClient, uri: string, position: Position): Promise<void> {
  const at = client.protocol2CodeConverter.asPosition(position);
  await vscode.window.showTextDocument(vscode.Uri.parse(uri, true), { selection: new vscode.Range(at, at) });
  await vscode.commands.executeCommand('editor.action.showHover');
}

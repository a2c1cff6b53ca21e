// What both editors share, the desktop's and the browser's: they differ only in how the server is started.
import * as vscode from 'vscode';
import { type BaseLanguageClient, type LanguageClientOptions, State } from 'vscode-languageclient';
import type { Location, Position } from 'vscode-languageserver-types';
import { convertFile } from './convert-file.ts';
import { Crashes } from './crashes.ts';
import { exportCommands } from './exports.ts';
import { FiguresPanel } from './figures/panel.ts';
import { languageStatus } from './language-status.ts';
import { LensCommands, showChange, showHover, showUses } from './lenses.ts';
import { type NewBuildRequest, newBuild } from './new-build.ts';
import { Papers } from './papers/panel.ts';
import { answer, ask, findSpecsForServer, listFolderForServer, readFileForServer } from './protocol.ts';
import { StatusBar } from './status-bar.ts';
import { chooseUnits, unitsStatus } from './units.ts';
import { Watch } from './watch.ts';

/** A client that can end its server, whatever that does, so that it is started again. */
export type EndingClient = BaseLanguageClient & { endServer(): void };

/** What activation hands out: to the editor suite, and to any extension that wants to ask the running server. */
export interface Planish {
  client: BaseLanguageClient;
  /** The status bar item as shown now: the editor offers no way to read it back. */
  status(): { text: string; visible: boolean };
  /** What was said when the server was given up. */
  lastWord(): string | undefined;
  watch: Watch;
  figures: FiguresPanel;
  papers: Papers;
}

export async function activate(
  context: vscode.ExtensionContext,
  createClient: (options: LanguageClientOptions) => EndingClient,
): Promise<Planish> {
  const watch = new Watch();
  const lenses = own(context, new LensCommands());
  const crashes = new Crashes((why) => status.say(vscode.l10n.t('Planish: started anew, it did not answer'), why));
  const files = own(context, vscode.workspace.createFileSystemWatcher('**/*.{planish,svg,dxf}'));
  const client = createClient({
    errorHandler: crashes,
    middleware: { ...watch.middleware, ...lenses.middleware },
    // One that ends before it is up is started again as well. What the library would show of it goes into the log.
    initializationFailedHandler: () => false,
    // Every scheme: specs on a remote or virtual file system, and ones not saved yet, are specs all the same.
    documentSelector: [{ language: 'planish' }],
    synchronize: {
      // A stock file changed outside the editor changes every spec that uses it.
      fileEvents: files,
    },
    // The server asks back for files that it cannot reach itself (in a browser, that is all of them), and may draw in hovers.
    initializationOptions: {
      readsFiles: true,
      findsSpecs: true,
      listsFolders: true,
      pictures: true,
      commands: true,
      diagnostics: 'push',
    },
    // A hover links to the panel and to nothing else: what comes from a spec is escaped (server/editor/text/markdown.ts).
    markdown: { isTrusted: { enabledCommands: ['planish.showFigures'] }, supportHtml: false },
  });
  own(context, answer(client, 'planish/readFile', readFileForServer));
  own(context, answer(client, 'planish/findSpecs', findSpecsForServer));
  own(context, answer(client, 'planish/listFolder', listFolderForServer));

  const status = own(context, new StatusBar(client));
  const command = <T extends unknown[]>(name: string, run: (...given: T) => unknown) =>
    own(context, vscode.commands.registerCommand(name, run));
  const papers = own(context, new Papers(client, context, files));
  for (const each of exportCommands(client, papers)) own(context, each);
  command('planish.newBuild', (request?: NewBuildRequest | vscode.Uri) => newBuild(client, request));
  command('planish.showUses', (uri: string, position: Position, places: Location[]) =>
    showUses(client, uri, position, places),
  );
  command('planish.showHover', (uri: string, position: Position) => showHover(client, uri, position));
  command('planish.showChange', (uri: string, position: Position) => showChange(client, uri, position));
  const figures = own(context, new FiguresPanel(client, vscode.Uri.joinPath(context.extensionUri, 'dist')));
  command('planish.showFigures', (uri?: string | vscode.Uri, position?: Position) =>
    figures.show(position && String(uri), position),
  );
  command('planish.openFolder', (folder: string) =>
    vscode.commands.executeCommand('vscode.openFolder', vscode.Uri.parse(folder, true), { forceNewWindow: false }),
  );
  command('planish.convertFile', (to?: string) => convertFile(to));
  command('planish.chooseUnits', (units?: 'build' | 'mm' | 'in') => chooseUnits(units));
  own(context, unitsStatus());
  command('planish.firstBuild', (beside = false) =>
    vscode.commands.executeCommand('workbench.action.openWalkthrough', `${context.extension.id}#firstBuild`, beside),
  );
  const language = own(context, languageStatus(client, watch));
  // Whoever develops it stops it at breakpoints.
  if (context.extensionMode !== vscode.ExtensionMode.Development)
    own(
      context,
      watched(client, watch, crashes, () => language.show()),
    );
  command('planish.restartServer', async () => {
    crashes.forget();
    // One that hangs is given up, and one that has ended cannot be stopped: either way it is started.
    if (client.isRunning()) await client.stop().catch(() => undefined);
    await client.start();
  });

  // Last on the list, so first to be disposed of: the server stops before what it talks to.
  context.subscriptions.push({ dispose: () => void client.dispose() });
  // One that does not come up is started again, or it is said how: the commands are there all the same.
  await client.start().catch(() => undefined);
  status.refreshSoon();
  return { client, status: () => status.shown(), lastWord: () => crashes.lastWord(), watch, figures, papers };
}

/** One that gives no sign of life is ended, which is the way to a new one. */
export function watched(client: EndingClient, watch: Watch, crashes: Crashes, slow?: () => void): vscode.Disposable {
  watch.over({
    ask: () => ask(client, 'planish/alive'),
    hangs(hang) {
      crashes.hangs(hang);
      client.endServer();
    },
    ...(slow ? { slow } : {}),
  });
  const follows = client.onDidChangeState(({ newState }) => {
    if (newState === State.Running) watch.runs();
    else if (newState === State.Starting) watch.starts();
    else watch.rests();
  });
  return { dispose: () => vscode.Disposable.from(follows, { dispose: () => watch.rests() }).dispose() };
}

function own<T extends vscode.Disposable>(context: vscode.ExtensionContext, thing: T): T {
  context.subscriptions.push(thing);
  return thing;
}

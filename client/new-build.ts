// "New build": a starter spec with its stock file, written into a folder of the user's choice.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { NewBuildFiles } from '../server/requests.ts';
import { askForFolder, exists, messageOf } from './files.ts';
import { ask } from './protocol.ts';

/** Everything may be left out; what is missing is asked for. */
export interface NewBuildRequest {
  /** A starter's id. */
  from?: string;
  /** The folder to write into. */
  folder?: string;
}

/** Gives the place of the new spec, or undefined where nothing was written. */
export async function newBuild(
  client: BaseLanguageClient,
  request: NewBuildRequest | vscode.Uri = {},
): Promise<vscode.Uri | undefined> {
  try {
    const { from, folder }: NewBuildRequest = request instanceof vscode.Uri ? { folder: request.toString() } : request;
    const starter = from ?? (await askForStarter(client));
    if (!starter) return undefined;
    const place = folder
      ? vscode.Uri.parse(folder, true)
      : await askForFolder(
          vscode.l10n.t('Folder for the new build'),
          vscode.l10n.t('Put it here'),
          vscode.window.activeTextEditor?.document.uri,
        );
    if (!place) return undefined;
    const { files } = await ask(client, 'planish/newBuild', { from: starter });
    return await write(place, files);
  } catch (error) {
    void vscode.window.showErrorMessage(vscode.l10n.t('No new build: {0}', messageOf(error)));
    return undefined;
  }
}

async function askForStarter(client: BaseLanguageClient): Promise<string | undefined> {
  const starters = await ask(client, 'planish/starters');
  const choices = starters.map(({ id, title, description }) => ({ label: title, description, id }));
  const choice = await vscode.window.showQuickPick(choices, {
    title: vscode.l10n.t('New build'),
    placeHolder: vscode.l10n.t('What is to be made?'),
    matchOnDescription: true,
  });
  return choice?.id;
}

async function write(folder: vscode.Uri, files: NewBuildFiles['files']): Promise<vscode.Uri | undefined> {
  const placed = files.map(({ path, text }) => ({ path, text, uri: vscode.Uri.joinPath(folder, path) }));
  // All or nothing: half a build beside an old one would be worse than none.
  for (const { uri, path } of placed)
    if (await exists(uri)) {
      void vscode.window.showErrorMessage(vscode.l10n.t('{0} is already there. Nothing was written.', path));
      return undefined;
    }
  for (const { uri, text } of placed) await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  const spec = placed[0]?.uri;
  if (spec) await vscode.window.showTextDocument(spec);
  return spec;
}

// What the server asks of the editor, where it cannot reach files itself. Both sides of each request are typed in
// server/requests.ts and described in DEVELOPERS.md.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ClientRequests, FileText, OwnRequests } from '../server/requests.ts';

/** Asks the server something that the protocol has no word for. */
export function ask<M extends keyof OwnRequests>(
  client: BaseLanguageClient,
  method: M,
  ...asked: OwnRequests[M]['asked'] extends undefined ? [] : [OwnRequests[M]['asked']]
): Promise<OwnRequests[M]['answer']> {
  return client.sendRequest<OwnRequests[M]['answer']>(method, asked[0]);
}

/** Answers what the server asks. */
export function answer<M extends keyof ClientRequests>(
  client: BaseLanguageClient,
  method: M,
  answering: (asked: ClientRequests[M]['asked']) => Promise<ClientRequests[M]['answer']>,
): vscode.Disposable {
  return client.onRequest(method, answering);
}

export async function readFileForServer({ uri }: { uri: string }): Promise<FileText> {
  const place = vscode.Uri.parse(uri, true);
  // An open document is what its writer sees, saved or not.
  const open = vscode.workspace.textDocuments.find((document) => document.uri.toString() === place.toString());
  if (open) return { text: open.getText() };
  let bytes: Uint8Array;
  try {
    bytes = await vscode.workspace.fs.readFile(place);
  } catch {
    return null;
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    // The server says so of the files that it reads itself, and reads them so.
    if (/\.dxf$/i.test(place.path)) return { text: new TextDecoder('windows-1252').decode(bytes) };
    return { why: 'is not UTF-8 text: save it as UTF-8' };
  }
}

/** A folder that is not there, or that may not be read, is an empty one. */
export async function listFolderForServer({
  uri,
}: {
  uri: string;
}): Promise<ClientRequests['planish/listFolder']['answer']> {
  try {
    const found = await vscode.workspace.fs.readDirectory(vscode.Uri.parse(uri, true));
    // A link bears the kind of what it leads to beside its own.
    return { entries: found.map(([name, type]) => ({ name, isFolder: (type & vscode.FileType.Directory) !== 0 })) };
  } catch {
    return { entries: [] };
  }
}

/** As many as the server looks for on a disk. */
const MOST_SPECS = 2_000;

export async function findSpecsForServer(): Promise<{ uris: string[] }> {
  const found = await vscode.workspace.findFiles('**/*.planish', '**/node_modules/**', MOST_SPECS);
  return { uris: found.map((uri) => uri.toString()) };
}

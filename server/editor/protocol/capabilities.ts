import { type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import type { ClientAbilities } from './client-abilities.ts';
import type { Feature } from './feature.ts';

/** What the server says that it does, to this editor. Nothing that it does not. */
export function capabilitiesFor(client: ClientAbilities, features: readonly Feature[]): ServerCapabilities {
  const all: ServerCapabilities = {
    positionEncoding: client.encoding,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
  };
  for (const { capability } of features) {
    const { workspace, ...rest } = capability?.(client) ?? {};
    Object.assign(all, rest);
    Object.assign(all.workspace!, workspace);
  }
  return all;
}

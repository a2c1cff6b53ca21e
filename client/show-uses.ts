// What a lens "used 3 times" opens. The protocol's places become the editor's here, which a server cannot do.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Location, Position } from 'vscode-languageserver-types';

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

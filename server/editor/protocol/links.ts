import type { Location, LocationLink } from 'vscode-languageserver-types';
import type { Answering } from './feature.ts';

/** Links to what this editor can open, in the shape that it knows. */
export function shownLinks(all: readonly LocationLink[], { client, canShow }: Answering): LocationLink[] | Location[] {
  const links = all.filter(({ targetUri }) => canShow(targetUri));
  return client.links ? links : links.map((link) => ({ uri: link.targetUri, range: link.targetSelectionRange }));
}

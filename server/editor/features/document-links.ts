import { DocumentLinkRequest } from 'vscode-languageserver';
import type { DocumentLink } from 'vscode-languageserver-types';
import type { Section, Text } from '../../../grammar/tree.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ documentLinkProvider: {} }),
  requests: [
    aboutOne(DocumentLinkRequest.type, {
      what: 'links',
      empty: [],
      answer: (view, _, server) =>
        documentLinksOf(view).filter(({ target }) => target !== undefined && server.canShow(target)),
    }),
  ],
};

/** The paths of `use` lines and of drawings open the files they name. */
export function documentLinksOf(view: View): DocumentLink[] {
  const uses = view.file.uses().flatMap(({ line, file }) => {
    const target = file && view.workspace.view(file.uri)?.uri;
    return line.path && target ? [linkOf(view, line.section, line.path, target)] : [];
  });
  return [...uses, ...drawingsIn(view).map(({ section, path, uri }) => linkOf(view, section, path, uri))];
}

/** Without its quotes. */
const linkOf = (view: View, section: Section, { from, to }: Text, target: string): DocumentLink => ({
  range: view.rangeOf({ section, from: from + 1, to: Math.max(from + 1, to - 1) }),
  target,
});

/** Every drawing that is named and is there. */
export const drawingsIn = (view: View): { section: Section; path: Text; uri: string }[] =>
  view.spec.sections.flatMap((section) =>
    section.lines.flatMap((line) => {
      const path = line.head?.slots.get('file')?.[0]?.items[0];
      const uri = path?.kind === 'text' ? view.file.drawingAt(path.value) : undefined;
      return path?.kind === 'text' && uri ? [{ section, path, uri }] : [];
    }),
  );

import type { DocumentLink } from 'vscode-languageserver-types';
import type { View } from './workspace.ts';

/** The paths of `use` lines open the files they name. */
export function documentLinksOf(view: View): DocumentLink[] {
  return view.file.uses().flatMap(({ line, file }) => {
    if (!line.path || !file) return [];
    const { section, path } = line;
    const target = view.workspace.view(file.uri)?.uri;
    // Without its quotes.
    const range = view.rangeOf({ section, from: path.from + 1, to: Math.max(path.from + 1, path.to - 1) });
    return target ? [{ range, target }] : [];
  });
}

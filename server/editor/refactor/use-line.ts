import type { TextEdit } from 'vscode-languageserver-types';
import { relativePath, type View } from '../workspace/workspace.ts';

/** A `use` of a file: behind those that are there, or at the top. */
export function useOf(view: View, uri: string): TextEdit {
  const uses = view.file.uses();
  const text = `use "${relativePath(view.uri, uri)}"\n`;
  const last = uses[uses.length - 1]?.line;
  if (last) {
    const at = {
      line: view.rangeOf({ section: last.section, from: last.from, to: last.to }).end.line + 1,
      character: 0,
    };
    return { range: { start: at, end: at }, newText: text };
  }
  const version = view.spec.sections.flatMap(({ singles }) => singles).find((each) => each.kind === 'version');
  const row = version ? view.rangeOf({ section: version.section, from: version.from, to: version.to }).end.line + 1 : 0;
  const at = { line: row, character: 0 };
  return { range: { start: at, end: at }, newText: version ? `\n${text}` : `${text}\n` };
}

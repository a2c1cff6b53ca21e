import { WillRenameFilesRequest } from 'vscode-languageserver';
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import { URI, Utils } from 'vscode-uri';
import type { Section, Text } from '../../../grammar/tree.ts';
import type { Steps } from '../../incremental/steps.ts';
import { isLibrary } from '../../model/names/library.ts';
import { aboutAll, type Feature } from '../protocol/feature.ts';
import { relativePath, sameUri, type View, type Workspace } from '../workspace/workspace.ts';
import { drawingsIn } from './document-links.ts';

/** Files that are about to move: the `use` lines that lead to them move along. */
export const feature: Feature = {
  capability: ({ renamesFiles }) =>
    renamesFiles ? { workspace: { fileOperations: { willRename: { filters: [FILES, FOLDERS] } } } } : {},
  requests: [
    aboutAll(WillRenameFilesRequest.type, {
      what: 'moved files',
      empty: null,
      answer: (workspace, specs, { files }) => editsForMoves(workspace, specs, files),
    }),
  ],
};

const FILES = { pattern: { glob: '**/*.{planish,svg,dxf}', matches: 'file' as const } };
const FOLDERS = { pattern: { glob: '**', matches: 'folder' as const } };

export interface FileMove {
  readonly oldUri: string;
  readonly newUri: string;
}

/** What has to change so that every `use` finds its file, and every outline its drawing, after files or whole folders have moved. */
export function* editsForMoves(
  workspace: Workspace,
  specs: readonly string[],
  moves: readonly FileMove[],
): Steps<WorkspaceEdit> {
  const changes: Record<string, TextEdit[]> = {};
  for (const [done, spec] of [...new Set(specs.map(sameUri))].entries()) {
    yield done / specs.length;
    const view = workspace.view(spec);
    if (!view) continue;
    const edits = editsIn(view, moves);
    if (edits.length) changes[view.uri] = edits;
  }
  return { changes };
}

function editsIn(view: View, moves: readonly FileMove[]): TextEdit[] {
  const here = movedTo(view.uri, moves);
  return [...usesIn(view), ...drawingsIn(view)].flatMap(({ section, path, uri }): TextEdit[] => {
    const there = movedTo(uri, moves);
    if (!here && !there) return [];
    const written = relativePath(here ?? view.uri, there ?? uri);
    const was = view.text.slice(section.start + path.from + 1, section.start + path.to - 1);
    // Both moved together: what stands there still leads there.
    const still = Utils.resolvePath(Utils.dirname(URI.parse(here ?? view.uri)), was).toString();
    if (sameUri(still) === sameUri(there ?? uri)) return [];
    return [{ range: view.rangeOf({ section, from: path.from, to: path.to }), newText: `"${written}"` }];
  });
}

interface Named {
  readonly section: Section;
  readonly path: Text;
  readonly uri: string;
}

const usesIn = (view: View): Named[] =>
  view.file
    .uses()
    .flatMap(({ line: { path, section }, uri }) =>
      path && uri !== undefined && !isLibrary(uri) ? [{ section, path, uri }] : [],
    );

/** Where a file will lie, if it moves: by itself, or with a folder above it. */
function movedTo(uri: string, moves: readonly FileMove[]): string | undefined {
  const key = sameUri(uri);
  for (const { oldUri, newUri } of moves) {
    const old = sameUri(oldUri).replace(/\/+$/, '');
    if (key === old) return sameUri(newUri);
    if (key.startsWith(`${old}/`)) return sameUri(newUri).replace(/\/+$/, '') + key.slice(old.length);
  }
  return undefined;
}

// Features are asked directly, over the files of a fixture.
import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type CodeAction, type Position, TextDocumentEdit, type TextEdit } from 'vscode-languageserver-types';
import { withDefaults } from '../../grammar/snippets.ts';
import type { CheckSettings } from '../../server/checks/run.ts';
import { type View, Workspace } from '../../server/editor/workspace/workspace.ts';
import { type Fixture, readFixture } from '../fixture.ts';
import { folder } from '../samples/support.ts';

const ROOT = 'file:///build/';

export interface Opened {
  readonly fixture: Fixture;
  readonly workspace: Workspace;
  readonly view: View;
  /** Where the first `$0` stands. */
  readonly position: Position;
  uri(path: string): string;
}

/** Opens the first file of a fixture; the others lie beside it. */
export function open(written: string, settings: CheckSettings = {}): Opened {
  const fixture = readFixture(written);
  const texts = new Map(fixture.files.map((file) => [ROOT + file.path, file.text]));
  const uri = (path: string) => ROOT + path;
  const workspace = new Workspace(
    {
      mayRead: (address) => `${address}/`.startsWith(ROOT),
      read: (address) => texts.get(address) ?? null,
      list: (folder) => {
        const start = `${folder.replace(/\/$/, '')}/`;
        const names = new Map<string, boolean>();
        for (const address of texts.keys()) {
          if (!address.startsWith(start)) continue;
          const [name, ...rest] = address.slice(start.length).split('/');
          if (name) names.set(name, rest.length > 0);
        }
        return [...names].map(([name, isFolder]) => ({ name, isFolder }));
      },
      specs: () => [...texts.keys()],
    },
    () => settings,
  );
  workspace.open(uri(fixture.file.path), 1, fixture.file.text);
  const view = workspace.view(uri(fixture.file.path))!;
  const position = view.positionAt(fixture.file.cursors[0] ?? 0);
  return { fixture, workspace, view, position, uri };
}

/** A file of the samples as an editor opens it; some texts may stand in place of those on the disk. */
export function openSample(file: string, texts: ReadonlyMap<string, string> = new Map()): View {
  const onDisk = (uri: string) => {
    const path = fileURLToPath(uri);
    return existsSync(path) && statSync(path).isFile() ? readFileSync(path, 'utf8') : null;
  };
  const text = (uri: string) => texts.get(uri) ?? onDisk(uri);
  const workspace = new Workspace({
    mayRead: (uri) => uri.startsWith('file:'),
    read: text,
    list: (uri) =>
      readdirSync(fileURLToPath(uri), { withFileTypes: true }).map((entry) => ({
        name: entry.name,
        isFolder: entry.isDirectory(),
      })),
  });
  const uri = pathToFileURL(`${folder}${file}`).href;
  workspace.open(uri, 1, text(uri)!);
  return workspace.view(uri)!;
}

/** `spec.planish 3:5 word`: a range as a reader finds it. */
export function shownRange(workspace: Workspace, uri: string, range: { start: Position; end: Position }): string {
  const view = workspace.view(uri);
  const text = view ? view.text.slice(view.offsetAt(range.start), view.offsetAt(range.end)) : '';
  return `${uri.replace(ROOT, '')} ${range.start.line + 1}:${range.start.character + 1} ${text.split('\n')[0]}`;
}

/** Every text as it is after an action, by its address. What a snippet selects stands there as it is. */
export function textsAfter(workspace: Workspace, action: CodeAction | undefined): Map<string, string> {
  assert.ok(action?.edit, 'there is no such action');
  const { changes = {}, documentChanges = [] } = action.edit;
  const edits = new Map<string, TextEdit[]>(Object.entries(changes));
  for (const { textDocument, edits: own } of documentChanges.filter(TextDocumentEdit.is)) {
    const plain = own.map(
      (edit): TextEdit => ('snippet' in edit ? { range: edit.range, newText: withDefaults(edit.snippet.value) } : edit),
    );
    edits.set(textDocument.uri, [...(edits.get(textDocument.uri) ?? []), ...plain]);
  }
  return new Map(
    [...edits].map(([uri, own]) => {
      const document = TextDocument.create(uri, 'planish', 1, workspace.view(uri)?.text ?? '');
      return [uri, TextDocument.applyEdits(document, own)];
    }),
  );
}

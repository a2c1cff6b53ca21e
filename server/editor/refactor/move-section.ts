import {
  type CodeAction,
  CodeActionKind,
  CreateFile,
  type Range,
  TextDocumentEdit,
  type TextEdit,
} from 'vscode-languageserver-types';
import { URI, Utils } from 'vscode-uri';
import type { Section } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { isLibrary } from '../../model/names/library.ts';
import { relativePath, sameUri, type View } from '../workspace/workspace.ts';
import { useOf } from './use-line.ts';

/**
 * What is found by its name from wherever it stands. A used file makes nothing by itself: a piece, a seam, a finish or a
 * part that moved there would be gone from the build.
 */
const MOVES = new Set(['material', 'rivet', 'rules', 'wearer', 'shop']);

/** The section under the cursor moved to a file that this one uses: to the stock file, or to one of its own. */
export function moveSectionActions(view: View, range: Range): CodeAction[] {
  const section = view.sectionAt(view.offsetAt(range.start));
  const kind = section.kind?.kind;
  if (!kind || !MOVES.has(kind) || !section.name || section.singles.length || !standsAlone(view, section)) return [];
  // Of several shops the first that is found counts; and a gauge is read as the shop says that its own file sees.
  if (kind === 'shop' && view.file.visibleOf('shop').length > 1) return [];
  // Offered on the header only: a bulb on every line would be noise.
  const header = section.header;
  const at = view.offsetAt(range.start) - section.start;
  if (!header || at < header.from || at > header.to) return [];
  const actions: CodeAction[] = [];
  const stock = stockFileOf(view);
  if (stock) {
    const target = view.workspace.view(stock);
    if (target && kind !== 'shop' && findsAll(target, view, section)) {
      const end = target.positionAt(target.text.length);
      const gap = target.text === '' || /\n\s*\n$/.test(target.text) ? '' : target.text.endsWith('\n') ? '\n' : '\n\n';
      const insert = { range: { start: end, end }, newText: `${gap}${textOf(section)}\n` };
      actions.push({
        title: say`Move ${kind} ${section.name.text} to ${shortName(stock)}`,
        kind: CodeActionKind.RefactorExtract,
        edit: {
          documentChanges: [
            TextDocumentEdit.create({ uri: target.uri, version: null }, [insert]),
            TextDocumentEdit.create({ uri: view.uri, version: null }, [removal(view, section)]),
          ],
        },
      });
    }
  }
  const leavesShop = kind === 'material' && view.file.sectionsOf('shop').length > 0;
  const created = leavesShop ? undefined : newFile(view, stock ? section.name.text : 'stock');
  if (created) {
    const uses = [...usesOf(view, created)].map((path) => `use "${path}"\n`).join('');
    const text = `planish 1\n\n${uses}${uses ? '\n' : ''}${textOf(section)}\n`;
    actions.push({
      title: say`Move ${kind} ${section.name.text} to a new file ${shortName(created)}`,
      kind: CodeActionKind.RefactorExtract,
      edit: {
        documentChanges: [
          CreateFile.create(created, { overwrite: false }),
          TextDocumentEdit.create({ uri: created, version: null }, [
            { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, newText: text },
          ]),
          TextDocumentEdit.create({ uri: view.uri, version: null }, [useOf(view, created), removal(view, section)]),
        ],
      },
    });
  }
  return actions;
}

/** Whether all that it names comes from files that are used: what stays behind would not be found from another file. */
const standsAlone = (view: View, section: Section): boolean =>
  view.file
    .referencesIn(section)
    .every(({ target }) => !target || target.section === section || target.file !== view.file);

/** Whether what it names is the same thing from there, and the shop the same. */
const findsAll = (target: View, view: View, section: Section): boolean =>
  target.file.firstSection('shop')?.section === view.file.firstSection('shop')?.section &&
  view.file
    .referencesIn(section)
    .every((each) => !each.target || each.target.section === section || target.file.find(each.key) === each.target);

const textOf = (section: Section): string =>
  section.text.slice(section.notes[0]?.from ?? section.header?.from ?? 0).trimEnd();

/** A file of this workspace that this spec uses and that has no build: the first of them takes the stock. */
const stockFileOf = (view: View): string | undefined =>
  view.file.uses().find(({ file }) => file && !isLibrary(file.uri) && !file.sectionsOf('build').length)?.file?.uri;

function removal(view: View, section: Section): TextEdit {
  const from = section.start + (section.notes[0]?.from ?? section.header?.from ?? 0);
  const to = section.start + section.text.length;
  if (to < view.text.length) return { range: view.range(from, to), newText: '' };
  // Behind the last one no blank lines stay.
  const kept = view.text.slice(0, from).trimEnd().length;
  return { range: view.range(kept, to), newText: kept ? '\n' : '' };
}

/** What the new file has to use: the same files, as they are reached from there. */
function* usesOf(view: View, created: string): Generator<string> {
  for (const { line, uri, file } of view.file.uses()) {
    if (!file || !line.path) continue;
    yield isLibrary(file.uri)
      ? view.text.slice(line.section.start + line.path.from + 1, line.section.start + line.path.to - 1)
      : relativePath(created, uri ?? file.uri);
  }
}

/** A name beside this file that nobody has yet. */
function newFile(view: View, base: string): string | undefined {
  const folder = Utils.dirname(URI.parse(view.uri));
  const have = new Set(view.workspace.list(folder.toString()).map(({ name }) => name.toLowerCase()));
  for (let i = 1; i < 100; i++) {
    const name = `${base}${i === 1 ? '' : `-${i}`}.planish`;
    const uri = sameUri(Utils.joinPath(folder, name).toString());
    if (!have.has(name.toLowerCase()) && !view.workspace.isOpen(uri)) return uri;
  }
  return undefined;
}

const shortName = (uri: string): string => Utils.basename(URI.parse(uri));

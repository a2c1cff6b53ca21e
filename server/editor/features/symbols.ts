import { type DocumentSymbolParams, DocumentSymbolRequest, WorkspaceSymbolRequest } from 'vscode-languageserver';
import {
  type DocumentSymbol,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceSymbol,
} from 'vscode-languageserver-types';
import { leadingWords } from '../../../grammar/pattern.ts';
import type { LetLine, Line, Section, Span } from '../../../grammar/tree.ts';
import { atOnce, mapped, patiently, type Steps } from '../../incremental/steps.ts';
import { seen } from '../../model/values/seen.ts';
import { aboutAll, aboutOne, type Feature } from '../protocol/feature.ts';
import { quantityText } from '../text/measure-text.ts';
import { usedFiles, type View, type Workspace } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ documentSymbolProvider: true, workspaceSymbolProvider: { workDoneProgress: true } }),
  requests: [
    aboutOne<DocumentSymbolParams, DocumentSymbol[] | SymbolInformation[] | null>(DocumentSymbolRequest.type, {
      what: 'outline',
      empty: [],
      answer: (view, _, { client }) => {
        const all = documentSymbolsInSteps(view);
        if (client.nestedSymbols) return all;
        const { uri } = view;
        return mapped(all, (symbols) =>
          symbols.map(({ name, kind, range }) => ({ name, kind, location: { uri, range } })),
        );
      },
    }),
    aboutAll(WorkspaceSymbolRequest.type, {
      what: 'workspace symbols',
      empty: [],
      *answer(workspace, specs, { query }, server) {
        const found = yield* workspaceSymbolsOf(workspace, specs, query);
        return found.filter(({ location }) => server.canShow(location.uri));
      },
    }),
  ],
};

const KIND: Readonly<Record<string, SymbolKind>> = {
  build: SymbolKind.Package,
  wearer: SymbolKind.Object,
  material: SymbolKind.Struct,
  rivet: SymbolKind.Struct,
  part: SymbolKind.Struct,
  rules: SymbolKind.Interface,
  piece: SymbolKind.Class,
  seam: SymbolKind.Interface,
  hinge: SymbolKind.Interface,
  joint: SymbolKind.Interface,
  finish: SymbolKind.Event,
  shop: SymbolKind.Module,
  order: SymbolKind.Array,
  log: SymbolKind.Array,
};

/** The sign of a kind of section in outlines and lists. */
export const symbolKindOf = (kind: string): SymbolKind => KIND[kind] ?? SymbolKind.Null;

/**
 * The outline: every section, with the edges and openings of a piece under it, and the measures that are named.
 *
 * @tests in one go: who may not wait asks for the steps
 */
export const documentSymbolsOf = (view: View): DocumentSymbol[] => atOnce(documentSymbolsInSteps(view));

function* documentSymbolsInSteps(view: View): Steps<DocumentSymbol[]> {
  const symbols: DocumentSymbol[] = [];
  for (const section of view.spec.sections) {
    yield undefined;
    const at = (span: Span) => view.range(section.start + span.from, section.start + span.to);
    if (section.header) {
      const label = section.name ?? section.title ?? section.kindAt ?? section.header;
      const written = section.name?.text ?? seen(section.title?.value ?? '');
      const from = section.notes[0]?.from ?? section.header.from;
      const children = section.lines.flatMap((line) => childOf(line, at));
      symbols.push({
        name: written || section.kindAt?.text || 'section',
        detail: section.kind?.kind ?? section.kindAt?.text ?? '',
        kind: symbolKindOf(section.kind?.kind ?? ''),
        range: at({ from, to: endOfContent(section) }),
        selectionRange: at(label),
        ...(children.length ? { children } : {}),
      });
    }
    for (const single of section.singles) {
      if (single.kind !== 'let' || !single.name) continue;
      symbols.push({
        name: single.name.text,
        detail: yield* patiently(() => letText(view, single)),
        kind: SymbolKind.Constant,
        range: at(single),
        selectionRange: at(single.name),
      });
    }
  }
  return symbols;
}

/** What it comes to; where that cannot be said, as it is written. */
function letText(view: View, single: LetLine): string {
  const quantity = view.file.valueOf(single);
  if (quantity) return quantityText(quantity, view.system);
  const { value, section } = single;
  return value ? seen(section.text.slice(value.from, value.to).replace(/\s+/g, ' ')) : '';
}

function childOf(line: Line, at: (span: Span) => DocumentSymbol['range']): DocumentSymbol[] {
  const { word, head } = line;
  if (!word || (word.group !== 'edge' && word.group !== 'opening')) return [];
  const slot = head?.slots.get('name')?.[0] ?? head?.slots.get('edge')?.[0];
  const name = slot?.items[0]?.kind === 'word' ? slot.items[0].text : '';
  const first = leadingWords(word.pattern);
  return [
    {
      name: [first, name].filter(Boolean).join(' '),
      detail: line.section.text.slice(line.from, line.to).replace(/\s+/g, ' '),
      kind: word.group === 'edge' ? SymbolKind.Field : SymbolKind.Property,
      range: at(line),
      selectionRange: at(slot ?? line.phrases[0] ?? line),
    },
  ];
}

/** Where a section's text ends. Blank lines after it are left out, and a `let` or a `use` that follows it, which is none of it. */
export function endOfContent(section: Section): number {
  const own = section.lines[section.lines.length - 1] ?? section.header;
  const [next] = section.singles.filter(({ from }) => own && from > own.to);
  const notes = next?.kind === 'let' ? next.notes : [];
  return section.text.slice(0, notes[0]?.from ?? next?.from).trimEnd().length;
}

/** Names in these specs and in what they use, by a part of the name. */
export function* workspaceSymbolsOf(
  workspace: Workspace,
  specs: readonly string[],
  query: string,
): Steps<WorkspaceSymbol[]> {
  const wanted = query.trim().toLowerCase();
  const seen = new Set<string>();
  const symbols: WorkspaceSymbol[] = [];
  for (const [done, uri] of specs.entries()) {
    const view = workspace.view(uri);
    if (!view) continue;
    for (const file of usedFiles(view.file)) {
      yield done / specs.length;
      const each = seen.has(file.uri) ? undefined : workspace.view(file.uri);
      seen.add(file.uri);
      if (!each) continue;
      let looked = 0;
      for (const [key, all] of file.names()) {
        if (++looked % MANY === 0) yield done / specs.length;
        if (!isSubsequence(wanted, key)) continue;
        for (const named of all) {
          symbols.push({
            name: named.word.text,
            kind: named.let ? SymbolKind.Constant : symbolKindOf(named.kind),
            containerName: named.kind,
            location: {
              uri: each.uri,
              range: each.rangeOf({ section: named.section, from: named.word.from, to: named.word.to }),
            },
          });
        }
      }
    }
  }
  return symbols;
}

/** So many names are looked at in a few milliseconds. */
const MANY = 1_000;

/** `skpl` finds `skull-plate`, as editors search. */
function isSubsequence(wanted: string, text: string): boolean {
  let at = 0;
  for (const character of wanted) {
    at = text.indexOf(character, at) + 1;
    if (!at) return false;
  }
  return true;
}

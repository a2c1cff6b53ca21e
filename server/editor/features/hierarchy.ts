import {
  CallHierarchyIncomingCallsRequest,
  CallHierarchyOutgoingCallsRequest,
  CallHierarchyPrepareRequest,
} from 'vscode-languageserver';
import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type Position,
  SymbolKind,
} from 'vscode-languageserver-types';
import type { Steps } from '../../incremental/steps.ts';
import { mapped } from '../../incremental/steps.ts';
import type { Named, Reference } from '../../model/names/spec-file.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { isSame, targetAt } from '../workspace/names.ts';
import { spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';
import { symbolKindOf } from './symbols.ts';

export const feature: Feature = {
  capability: () => ({ callHierarchyProvider: { workDoneProgress: true } }),
  requests: [
    aboutOne(CallHierarchyPrepareRequest.type, {
      what: 'hierarchy',
      empty: null,
      answer: (view, { position }) => prepareHierarchyAt(view, position),
    }),
    aboutOne(CallHierarchyIncomingCallsRequest.type, {
      what: 'hierarchy',
      empty: [],
      uri: ({ item }) => item.uri,
      readsAll: true,
      answer: (view, { item }, server) =>
        mapped(usersOf(view, item), (users) => users.filter(({ from }) => server.canShow(from.uri))),
    }),
    aboutOne(CallHierarchyOutgoingCallsRequest.type, {
      what: 'hierarchy',
      empty: [],
      uri: ({ item }) => item.uri,
      answer: (view, { item }, server) => madeFrom(view, item).filter(({ to }) => server.canShow(to.uri)),
    }),
  ],
};

/*
 * The editor's call hierarchy, read as a smith's question: what uses this, and what is it made from? A piece is made
 * from its material and its measures, a seam from its pieces and its rivet, a `let` from the figures in its arithmetic.
 */

interface ItemData {
  readonly key: string;
  readonly line: number;
}

export function prepareHierarchyAt(view: View, position: Position): CallHierarchyItem[] | null {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (!found) return null;
  const named = found.target.kind === 'named' ? found.target.named : found.target.of;
  const item = itemOf(view, named);
  return item ? [item] : null;
}

/** What uses it. */
export function* usersOf(view: View, item: CallHierarchyItem): Steps<CallHierarchyIncomingCall[]> {
  const named = namedOf(view, item);
  if (!named) return [];
  const calls: CallHierarchyIncomingCall[] = [];
  for (const each of yield* view.workspace.specsAround(view, named.word.key)) {
    const byUser = new Map<Named, Reference[]>();
    for (const [i, reference] of each.file.references().entries()) {
      if (i % AT_ONCE === AT_ONCE - 1) yield undefined;
      if (!reference.target || !isSame(reference.target, named)) continue;
      const user = holderOf(each, reference);
      if (!user || isSame(user, named)) continue;
      const references = byUser.get(user);
      if (references) references.push(reference);
      else byUser.set(user, [reference]);
    }
    for (const [user, references] of byUser) {
      if (calls.length % AT_ONCE === AT_ONCE - 1) yield undefined;
      const from = itemOf(each, user);
      if (from) calls.push({ from, fromRanges: references.map((reference) => each.rangeOf(reference)) });
    }
  }
  return calls;
}

const AT_ONCE = 200;

/** What it is made from. */
export function madeFrom(view: View, item: CallHierarchyItem): CallHierarchyOutgoingCall[] {
  const named = namedOf(view, item);
  if (!named) return [];
  const byTarget = new Map<string, { target: Named; ranges: Reference[] }>();
  for (const reference of view.file.references()) {
    const { target } = reference;
    const user = target && holderOf(view, reference);
    if (!user || !isSame(user, named) || isSame(target, named)) continue;
    const key = `${target.file.uri} ${target.section.start} ${target.word.from}`;
    const have = byTarget.get(key) ?? { target, ranges: [] };
    have.ranges.push(reference);
    byTarget.set(key, have);
  }
  return [...byTarget.values()].flatMap(({ target, ranges }) => {
    const to = itemOf(view, target);
    return to ? [{ to, fromRanges: ranges.map((reference) => view.rangeOf(reference)) }] : [];
  });
}

/** The `let` or the section that a reference stands in. */
function holderOf(view: View, reference: Reference): Named | undefined {
  const { section } = reference;
  const single = section.singles.find((each) => each.from <= reference.from && reference.to <= each.to);
  const word = single?.kind === 'let' ? single.name : single ? undefined : section.name;
  return word && view.file.namesIn(section).find((named) => named.word === word);
}

function itemOf(view: View, named: Named): CallHierarchyItem | undefined {
  const home = view.workspace.view(named.file.uri);
  if (!home) return undefined;
  const { section, word } = named;
  const selectionRange = home.rangeOf({ section, from: word.from, to: word.to });
  const range = named.let
    ? home.rangeOf({ section, from: named.let.from, to: named.let.to })
    : home.rangeOf({ section, from: section.header?.from ?? word.from, to: section.text.trimEnd().length });
  const data: ItemData = { key: word.key, line: selectionRange.start.line };
  return {
    name: word.text,
    detail: named.kind === 'let' ? 'measure' : named.kind,
    kind: named.let ? SymbolKind.Constant : symbolKindOf(named.kind),
    uri: home.uri,
    range,
    selectionRange,
    data,
  };
}

function namedOf(view: View, item: CallHierarchyItem): Named | undefined {
  const data = item.data as Partial<ItemData> | undefined;
  const all = data?.key === undefined ? undefined : view.file.names().get(data.key);
  const on = (named: Named) => view.positionAt(named.section.start + named.word.from).line === data?.line;
  return all?.find(on) ?? all?.[0];
}

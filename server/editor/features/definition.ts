import {
  DeclarationRequest,
  DefinitionRequest,
  DocumentHighlightRequest,
  ReferencesRequest,
} from 'vscode-languageserver';
import type { DocumentHighlight, Location, LocationLink, Position } from 'vscode-languageserver-types';
import { DocumentHighlightKind } from 'vscode-languageserver-types';
import type { Steps } from '../../incremental/steps.ts';
import { mapped } from '../../incremental/steps.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { shownLinks } from '../protocol/links.ts';
import { figureAt, type Target, targetAt, usesIn, usesOf } from '../workspace/names.ts';
import { type Spot, spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({
    definitionProvider: true,
    declarationProvider: true,
    referencesProvider: { workDoneProgress: true },
    documentHighlightProvider: true,
  }),
  requests: [
    aboutOne(DefinitionRequest.type, {
      what: 'definition',
      empty: [],
      answer: (view, { position }, server) => shownLinks(definitionAt(view, position), server),
    }),
    aboutOne(DeclarationRequest.type, {
      what: 'declaration',
      empty: [],
      answer: (view, { position }, server) => shownLinks(definitionAt(view, position), server),
    }),
    aboutOne(ReferencesRequest.type, {
      what: 'references',
      empty: [],
      readsAll: true,
      answer: (view, { position, context }, server) =>
        mapped(referencesAt(view, position, context.includeDeclaration), (found) =>
          found.filter(({ uri }) => server.canShow(uri)),
        ),
    }),
    aboutOne(DocumentHighlightRequest.type, {
      what: 'highlight',
      empty: [],
      answer: (view, { position }) => highlightsAt(view, position),
    }),
  ],
};

/** Where what is named here is made: a section, a `let`, an opening; for a `use`, the file. */
export function definitionAt(view: View, position: Position): LocationLink[] {
  const spot = spotAt(view, view.offsetAt(position));
  const { single } = spot;
  if (single?.kind === 'use' && single.path) {
    const file = view.file.uses().find((use) => use.line === single)?.file;
    const used = file && view.workspace.view(file.uri);
    if (!used) return [];
    const top = used.range(0, 0);
    const from = view.rangeOf({ section: spot.section, from: single.path.from, to: single.path.to });
    return [{ originSelectionRange: from, targetUri: used.uri, targetRange: top, targetSelectionRange: top }];
  }
  const found = targetAt(view, spot);
  if (!found) return figureLineAt(view, spot);
  const { target } = found;
  const section = target.kind === 'named' ? target.named.section : target.of.section;
  const word = target.kind === 'named' ? target.named.word : target.word;
  const { uri } = target.kind === 'named' ? target.named.file : target.of.file;
  const home = view.workspace.view(uri);
  if (!home) return [];
  const whole = wholeOf(target);
  return [
    {
      originSelectionRange: view.rangeOf(found.place),
      targetUri: home.uri,
      targetRange: home.rangeOf({ section, ...whole }),
      targetSelectionRange: home.rangeOf({ section, from: word.from, to: word.to }),
    },
  ];
}

/** Behind a dot: the line of the thing that its figure comes from. */
function figureLineAt(view: View, spot: Spot): LocationLink[] {
  const found = figureAt(view, spot);
  const home = found && view.workspace.view(found.named.file.uri);
  if (!home?.spec.sections.includes(found!.figure.place.section)) return [];
  const range = home.rangeOf(found!.figure.place);
  const { section, word } = spot;
  return [
    {
      originSelectionRange: view.rangeOf({ section, from: word!.from, to: word!.to }),
      targetUri: home.uri,
      targetRange: range,
      targetSelectionRange: range,
    },
  ];
}

function wholeOf(target: Target): { from: number; to: number } {
  if (target.kind === 'part') {
    const line = target.of.section.lines.find((each) => each.from <= target.word.from && target.word.to <= each.to);
    return line ? { from: line.from, to: line.to } : { from: target.word.from, to: target.word.to };
  }
  const { section, word } = target.named;
  const single = target.named.let;
  if (single) return { from: single.from, to: single.to };
  return { from: section.header?.from ?? word.from, to: section.text.trimEnd().length };
}

/** Everywhere that what is named here is used, in every spec that is open, used, or in the open folders. */
export function* referencesAt(view: View, position: Position, withDefinition: boolean): Steps<Location[]> {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (!found) return [];
  const { target } = found;
  const name = target.kind === 'named' ? target.named.word.key : target.key;
  const uses = yield* usesOf(target, yield* view.workspace.specsAround(view, name));
  return uses
    .filter((use) => withDefinition || !use.isDefinition)
    .map((use) => ({ uri: use.view.uri, range: use.view.rangeOf(use) }));
}

/** The same name elsewhere in this file. */
export function* highlightsAt(view: View, position: Position): Steps<DocumentHighlight[]> {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (!found) return [];
  return (yield* usesIn(found.target, view)).map((use) => ({
    range: view.rangeOf(use),
    kind: use.isDefinition ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}

import { ImplementationRequest, TypeDefinitionRequest } from 'vscode-languageserver';
import type { LocationLink, Position } from 'vscode-languageserver-types';
import type { Section } from '../../../grammar/tree.ts';
import { mapped, patiently, type Steps } from '../../incremental/steps.ts';
import type { Named, Reference } from '../../model/names/spec-file.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { shownLinks } from '../protocol/links.ts';
import { isSame, targetAt } from '../workspace/names.ts';
import { spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ typeDefinitionProvider: true, implementationProvider: { workDoneProgress: true } }),
  requests: [
    aboutOne(TypeDefinitionRequest.type, {
      what: 'type definition',
      empty: [],
      answer: (view, { position }, server) => shownLinks(typeDefinitionAt(view, position), server),
    }),
    aboutOne(ImplementationRequest.type, {
      what: 'implementation',
      empty: [],
      readsAll: true,
      answer: (view, { position }, server) =>
        mapped(implementationsAt(view, position), (links) => shownLinks(links, server)),
    }),
  ],
};

/* From a thing to what it is made of, and from stock to what is made from it. */

/** What a thing is made of: a piece from its material, a seam of its rivet, a like piece of the piece it is like. */
export function typeDefinitionAt(view: View, position: Position): LocationLink[] {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (!found) return [];
  const named = found.target.kind === 'named' ? found.target.named : found.target.of;
  const links = stockOf(view, named).flatMap((each) => linkTo(view, each) ?? []);
  return links.map((link) => ({ ...link, originSelectionRange: view.rangeOf(found.place) }));
}

/** What is made of a material, holds with a rivet, fits a wearer or is finished so: in every spec around. */
export function* implementationsAt(view: View, position: Position): Steps<LocationLink[]> {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (found?.target.kind !== 'named') return [];
  const { named } = found.target;
  const links: LocationLink[] = [];
  for (const each of yield* view.workspace.specsAround(view, named.word.key)) {
    const users = new Map<string, Map<Section, Named>>();
    const userIn = ({ section }: Reference): Named | undefined => {
      const key = section.name?.key;
      if (key === undefined) return undefined;
      let bearers = users.get(key);
      if (!bearers) {
        bearers = new Map(each.file.bearersOf(key).map((bearer) => [bearer.section, bearer]));
        users.set(key, bearers);
      }
      return bearers.get(section);
    };
    for (const section of each.spec.sections) {
      yield undefined;
      const references = yield* patiently(() => each.file.referencesIn(section));
      const reference = references.find(({ target }) => target && isSame(target, named));
      const user = reference && userIn(reference);
      const link = user && linkTo(each, user);
      if (link) links.push({ ...link, originSelectionRange: view.rangeOf(found.place) });
    }
  }
  return links;
}

function stockOf(view: View, named: Named): Named[] {
  const { model } = view;
  switch (named.kind) {
    case 'piece': {
      const piece = model.pieceOf(named);
      return [piece.material()?.named, piece.likeTarget()?.named].filter((each) => each !== undefined);
    }
    case 'seam':
      return [model.seamOf(named).rivet()?.named].filter((each) => each !== undefined);
    default:
      return [];
  }
}

function linkTo(view: View, named: Named): LocationLink | undefined {
  const home = view.workspace.view(named.file.uri);
  if (!home) return undefined;
  const { section, word } = named;
  const target = home.rangeOf({ section, from: word.from, to: word.to });
  const from = section.header?.from ?? word.from;
  return {
    targetUri: home.uri,
    targetRange: named.let ? target : home.rangeOf({ section, from, to: section.text.trimEnd().length }),
    targetSelectionRange: target,
  };
}

import { LinkedEditingRangeRequest } from 'vscode-languageserver';
import type { Position, Range } from 'vscode-languageserver-types';
import type { Steps } from '../../incremental/steps.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { targetAt, usesIn } from '../workspace/names.ts';
import { spotAt } from '../workspace/spot.ts';
import type { View } from '../workspace/workspace.ts';

export const feature: Feature = {
  capability: () => ({ linkedEditingRangeProvider: true }),
  requests: [
    aboutOne(LinkedEditingRangeRequest.type, {
      what: 'linked editing',
      empty: null,
      answer: (view, { position }) => linkedEditingAt(view, position),
    }),
  ],
};

export interface LinkedRanges {
  readonly ranges: Range[];
  readonly wordPattern: string;
}

/** A name and its uses in this file, typed over together. Only where no other file would be left behind: a rename sees to those. */
export function* linkedEditingAt(view: View, position: Position): Steps<LinkedRanges | null> {
  const found = targetAt(view, spotAt(view, view.offsetAt(position)));
  if (!found) return null;
  const { target } = found;
  const named = target.kind === 'named' ? target.named : target.of;
  if (named.file.uri !== view.file.uri) return null;
  const uses = yield* usesIn(target, view);
  if (uses.length < 2) return null;
  return { ranges: uses.map((use) => view.rangeOf(use)), wordPattern: '[\\p{L}][\\p{L}\\p{M}\\p{N}-]*' };
}

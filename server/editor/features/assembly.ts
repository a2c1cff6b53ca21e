import { type AssemblyData, assemblyInSteps } from '../../output/documents/assembly.ts';
import type { SpecAsked } from '../../requests.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';

/** Where every piece of a build is, and how well its seams meet. */
export const feature: Feature = {
  requests: [
    aboutOne<SpecAsked, AssemblyData | null>('planish/assembly', {
      what: 'assembly',
      empty: null,
      uri: ({ uri }) => uri,
      answer: (view) => assemblyInSteps(view.model, view.uri),
    }),
  ],
};

import { type Explained, explainInSteps } from '../../output/documents/explain.ts';
import type { ExplainAsked } from '../../requests.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';

/** Every figure of a spec as data, or those under one name. */
export const feature: Feature = {
  requests: [
    aboutOne<ExplainAsked, Explained | null>('planish/explain', {
      what: 'explain',
      empty: null,
      uri: ({ uri }) => uri,
      judged: true,
      answer: (view, { name }) =>
        explainInSteps(view.model, {
          file: view.uri,
          problems: view.problems(),
          ...(name === undefined ? {} : { names: [name] }),
        }),
    }),
  ],
};

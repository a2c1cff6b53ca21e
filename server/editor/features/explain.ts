import { type Explained, explainInSteps, explainSectionInSteps } from '../../output/documents/explain.ts';
import type { ExplainAsked } from '../../requests.ts';
import { aboutOne, type Feature } from '../protocol/feature.ts';
import { spotAt } from '../workspace/spot.ts';

/** Every figure of a spec as data, those under one name, or those of the thing at a place. */
export const feature: Feature = {
  requests: [
    aboutOne<ExplainAsked, Explained | null>('planish/explain', {
      what: 'explain',
      empty: null,
      uri: ({ uri }) => uri,
      judged: true,
      answer: (view, { name, at }) => {
        const asked = { file: view.uri, problems: view.problems() };
        if (at) return explainSectionInSteps(view.model, spotAt(view, view.offsetAt(at)).section, asked);
        return explainInSteps(view.model, { ...asked, ...(name === undefined ? {} : { names: [name] }) });
      },
    }),
  ],
};

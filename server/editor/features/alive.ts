import { type Feature, plain } from '../protocol/feature.ts';

/** A sign of life, given between two steps of whatever is worked on. */
export const feature: Feature = {
  requests: [plain<unknown, null>('planish/alive', { what: 'alive', empty: null, answer: () => null })],
};

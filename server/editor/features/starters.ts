import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { NewBuildAsked, NewBuildFiles, Starter } from '../../requests.ts';
import { starter, starters } from '../../starters.ts';
import { type Feature, plain } from '../protocol/feature.ts';

/** The starter builds there are, and the files of one. */
export const feature: Feature = {
  requests: [
    plain<unknown, readonly Starter[]>('planish/starters', { what: 'starters', empty: [], answer: () => starters() }),
    plain<NewBuildAsked | null, NewBuildFiles | null>('planish/newBuild', {
      what: 'new build',
      empty: null,
      answer(params) {
        const from: unknown = params?.from;
        const files = typeof from === 'string' ? starter(from) : undefined;
        if (files) return { files };
        throw new ResponseError<void>(ErrorCodes.InvalidParams, `There is no starter build “${String(from)}”.`);
      },
    }),
  ],
};

import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatSpec } from '../../grammar/printer.ts';
import { readSpec } from '../../grammar/reader.ts';
import { problemsOf } from '../../server/checks/run.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import { editedSpec, randomSpec, runs, soup } from '../grammar/support.ts';

/** The codes of all that is found, in the order of their kinds. */
function codesOf(text: string): string[] {
  const uri = 'file:///a.planish';
  const model = modelOf(
    new Project({ mayRead: () => true, read: (asked) => (asked === uri ? readSpec(text) : undefined) }),
    uri,
  )!;
  return problemsOf(model)
    .map(({ code }) => code)
    .sort();
}

describe('a spec that is laid out', () => {
  for (const [what, texts, count] of [
    ['random specs', randomSpec, 40],
    ['specs with random edits', editedSpec, 12],
    ['near-specs', soup, 300],
  ] as const)
    it(`has every problem that it had, and no other: ${runs(count)} ${what}`, () => {
      fc.assert(
        fc.property(texts, (text) => assert.deepEqual(codesOf(formatSpec(text)), codesOf(text))),
        { numRuns: runs(count) },
      );
    }).timeout(200_000);
});

import assert from 'node:assert/strict';
import { Client } from '../editor/stdio.ts';
import { corpus, Servers } from './corpus.ts';
import { SLACK } from './run-case.ts';
import { type Key, pauses, retyped, type Sample, STATE_MOST, samples, typed, typedFromNothing } from './typing.ts';

/*
 * A share of everything hostile that is known, a test a case: of each area every third that is neither dear nor needs more time
 * than others. `npm run hostile` sends them all, asks more of each, and prints a table. What is measured is the processor's time, with slack, so that a busy machine breaks nothing.
 */

const areas = await corpus();
const SHARE = 3;

describe('hostile input', function () {
  // A case that hangs is ended by its budget of the processor: the clock is for a machine that does many other things.
  this.timeout(600_000);
  const servers = new Servers({ briefly: true });
  after(async () => {
    await servers.stop();
    Client.endAll();
  });

  for (const { area, cases } of areas)
    describe(area, () => {
      const cheap = cases.filter(({ isDear, budget }) => !isDear && budget?.seconds === undefined);
      for (const hostile of cheap.filter((_, i) => i % SHARE === 0))
        it(hostile.name, async () => assert.deepEqual((await servers.run(hostile)).broken, []));
    });
});

describe('a sample that is typed', function () {
  this.timeout(600_000);
  after(() => Client.endAll());
  const greave = samples.find(({ name }) => name === 'greave')!;

  const isAnswered = async (sample: Sample, typedKeys: Iterable<Key>, from: string) => {
    const keys = [...typedKeys];
    const slow: string[] = [];
    let count = 0;
    for await (const state of typed(sample, keys, { from, most: 5, random: pauses(1) })) {
      count++;
      const took = Math.max(state.told, state.hover);
      if (took > STATE_MOST * SLACK) slow.push(`${took.toFixed(0)} ms: line ${state.row}, ${state.line}`);
    }
    assert.deepEqual(slow, []);
    assert.ok(count > 50, `only ${count} states were answered`);
    assert.equal(count, keys.length, 'each state is answered, once');
  };

  it('is answered at every key, from nothing to its first piece', () => {
    const piece = greave.text.indexOf('\nseam');
    return isAnswered({ ...greave, text: greave.text.slice(0, piece) }, typedFromNothing(greave, piece), '');
  });

  it('is answered at every key while its measures are typed again', () =>
    isAnswered(greave, retyped(greave, 4), greave.text));
});

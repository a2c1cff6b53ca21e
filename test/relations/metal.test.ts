import { strict as assert } from 'node:assert';
import { modelFrom } from '../model/support.ts';
import { sample, samples } from '../samples/support.ts';
import { Tallies } from './metal.ts';
import { hammeredSpec } from './specs.ts';

/** `npm run relations` holds five hundred to it. */
const MADE_UP = 30;

describe('the metal of hammered pieces', () => {
  const holds = (tallies: Tallies) => {
    for (const { relation, failed, worst, at } of tallies.all)
      assert.equal(failed, 0, `${relation.name}: off by ${worst} at ${at}`);
  };

  it('is kept in every sample, and no figure gainsays another', () => {
    const tallies = new Tallies();
    for (const file of samples) for (const piece of sample(file).pieces()) tallies.hold(piece, `${file} ${piece.name}`);
    assert.ok(tallies.formed >= 5, `${tallies.formed} are hammered`);
    holds(tallies);
  });

  it('is kept in what is made up: own blanks, bays, creases and edges', () => {
    const tallies = new Tallies();
    for (let seed = 7001; seed < 7001 + MADE_UP; seed++) {
      const spec = hammeredSpec(seed);
      tallies.hold(modelFrom(spec).pieces()[0]!, spec);
    }
    assert.ok(tallies.formed > 0.8 * MADE_UP, `${tallies.formed} are hammered`);
    // Each relation says something of some of them.
    for (const { relation, asked } of tallies.all) assert.ok(asked > 0, relation.name);
    holds(tallies);
  });
});

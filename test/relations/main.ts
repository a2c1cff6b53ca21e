import { modelFrom } from '../model/support.ts';
import { sample, samples } from '../samples/support.ts';
import { Tallies } from './metal.ts';
import { hammeredSpec } from './specs.ts';

/*
 * `npm run relations [-- COUNT [SEED]]`: what must hold of the metal of hammered pieces, against all samples and as many
 * specs that are made up, as a table.
 */

const [count = 500, seed = 1] = process.argv.slice(2).map(Number);
const tallies = new Tallies();
for (const file of samples) for (const piece of sample(file).pieces()) tallies.hold(piece, `${file} ${piece.name}`);
const ofSamples = tallies.pieces;
for (let i = 0; i < count; i++) {
  const spec = hammeredSpec(seed + i);
  const [piece] = modelFrom(spec).pieces();
  tallies.hold(piece!, `seed ${seed + i}: ${spec.slice(spec.indexOf('piece'))}`);
}
console.log(tallies.table());
console.log(`\n${ofSamples} pieces of the samples and ${count} made up; ${tallies.formed} of them are hammered.`);
process.exitCode = tallies.all.some(({ failed }) => failed) ? 1 : 0;

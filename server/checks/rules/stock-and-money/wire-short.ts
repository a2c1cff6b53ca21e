import { say } from '../../../../l10n/say.ts';
import { wires } from '../../../model/figures/wires.ts';
import type { MaterialModel } from '../../../model/things/material.ts';
import { show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'wire-short',
  title: 'Less wire in the rack than the build takes',
  family: 'Stock and money',
  severity: 'information',
  what: 'All wired edges and hinge pins of all builds, spares too, take more of a wire than its coils in the rack hold; or one of them is longer than every coil.',
  why: 'An edge is closed in one go: a wire that ends half way round has to be joined inside the roll.',
  todo: 'Buy the coils that the message names, and a hand’s breadth over for every edge.',
  formula: 'Σ wire × builds ≤ coils × length',
  source: 'Lengths of the wired edges and the pins',
  example: `build "Brow bands"
  make 6
material plate
  mild steel 1.2 mm
material edge-wire
  mild steel wire 3 mm
  coil 2 m, have 1
piece brow
  from plate
  strip 420 x 60 mm
  edge bottom rolled over edge-wire
`,
  better: `build "Brow bands"
  make 6
material plate
  mild steel 1.2 mm
material edge-wire
  mild steel wire 3 mm
  coil 2 m, have 2
piece brow
  from plate
  strip 420 x 60 mm
  edge bottom rolled over edge-wire
`,
  run(model, report) {
    // First what seldom changes: where no coil is written, no key is waited for.
    if (!model.buildSection() || !model.materials().some((material) => material.coils().length)) return;
    const system = model.units();
    const builds = model.make() + model.spare();
    const taken = new Map<MaterialModel, { low: number; high: number; longest: number }>();
    for (const { wire, length, times } of wires(model)) {
      const { value, low, high } = intervalOf(length);
      const have = taken.get(wire) ?? { low: 0, high: 0, longest: 0 };
      taken.set(wire, {
        low: have.low + low * times * builds,
        high: have.high + high * times * builds,
        longest: Math.max(have.longest, value),
      });
    }
    for (const [wire, { low, high, longest }] of taken) {
      const coils = wire.coils();
      const longestCoil = Math.max(...coils.map(({ length }) => length));
      const [first] = coils;
      if (!first || wire.named.file !== model.file) continue;
      if (longest > longestCoil + 0.5) {
        report(first.line.place, {
          message: say`One length of “${wire.name}” is ${show(longest, 'mm', system)}, and a coil holds ${show(longestCoil, 'mm', system)}: it has to be joined.`,
        });
        continue;
      }
      if (!coils.some(({ have }) => have !== undefined)) continue;
      const racked = coils.reduce((sum, { length, have = 0 }) => sum + length * have, 0);
      if (high <= racked + 0.5) continue;
      const buy = Math.ceil((high - racked) / first.length - 1e-9);
      report(first.line.place, {
        message: say`The build ${low > racked ? say`takes` : say`may take`} ${show(high, 'mm', system)} of “${wire.name}” and the rack holds ${show(racked, 'mm', system)}: buy ${buy} ${buy === 1 ? say`coil` : say`coils`} of ${show(first.length, 'mm', system)}.`,
      });
    }
  },
};

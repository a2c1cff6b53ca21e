import { say } from '../../../../l10n/say.ts';
import { metal as metalOf } from '../../../trade/metal/metals.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'rivet-harder-than-plate',
  title: 'A rivet is harder than the plate it is set in',
  family: 'Rivets',
  severity: 'information',
  what: 'The rivet, annealed, yields at a stress half as high again or more as one of the plates of its stack.',
  why: 'While the head is made the plate gives before the rivet does: the hole spreads and the plate dents.',
  todo: 'Take a softer rivet, or spread the load with a washer and few, heavy blows.',
  usual: ['rivet-yield'],
  formula: 'Sy(rivet) ≥ 1.5 × Sy(plate)',
  source: 'Yield strengths of the metal table; the ratio is common practice (no source)',
  example: `material plate
  copper 1.5 mm, soft
rivet small
  mild steel 4 x 8 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `material plate
  copper 1.5 mm, soft
rivet small
  copper 4 x 8 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  riveted({ rivet, place, stacks }, report) {
    const own = rivet.metal();
    if (!own) return;
    const soft = metalOf(own.id, { ...(own.grade ? { grade: own.grade } : {}), temper: 'soft' }).yield;
    const layer = stacks
      .flatMap((stack) => stack.layers)
      .find((each) => {
        const plate = each.piece?.material()?.metal();
        return plate && (soft.low ?? soft.value) >= usual('rivet-yield') * plate.yield.value;
      });
    const plate = layer?.piece?.material()?.metal();
    if (!layer || !plate) return;
    report(place, {
      message: say`“${rivet.name}” is harder than “${layer.name}”: ${own.title} yields at about ${Math.round(soft.value)} MPa, ${plate.title} at ${Math.round(plate.yield.value)} MPa. A softer rivet, or a washer, saves the plate.`,
    });
  },
};

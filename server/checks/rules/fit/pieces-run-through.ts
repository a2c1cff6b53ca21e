import { say } from '../../../../l10n/say.ts';
import { MOST_LOOKED_AT, throughs } from '../../../model/assembly/through.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';

const SPEC = (long: number) => `material plate
  mild steel 1.5 mm
piece collar
  from plate
  cylinder round 640 mm, high 60 mm, wrap 300 deg
piece left-wing
  from plate
  plate ${long} x 60 mm
piece right-wing
  from plate
  plate ${long} x 60 mm
seam left-end
  joins collar, left-wing
  along collar.left
  along left-wing.right
  weld
seam right-end
  joins collar, right-wing
  along collar.right
  along right-wing.left
  weld
`;

export const check: Check = {
  code: 'pieces-run-through',
  title: 'Two placed pieces run through each other',
  family: 'Fit',
  severity: 'warning',
  what: `Two pieces that have a place in the assembly run through each other by more than a thickness, away from the row that joins them. How deep is told as half of both thicknesses and what stands out on the lesser side. A strip or a comb on the plate that it follows is not looked at, nor a group of more than ${MOST_LOOKED_AT} pieces, nor two that a seam joins without telling an edge of either.`,
  why: 'Where two plates ask for the same room one of them has to be made again, and that shows only when both are formed.',
  todo: 'Make the outer plate wider or the inner one shorter, or move the row by which one of them is placed.',
  formula: 'deep = (t + t′) ÷ 2 + out ≤ max (t, t′)',
  source: 'Geometry: triangles of both plates at the middle of the thickness, where they stand (derived)',
  example: SPEC(90),
  better: SPEC(50),
  run(model, report) {
    const system = model.units();
    for (const { one, other, names, deep, at } of throughs(model)) {
      const far = (value: number, more: string, less: string) =>
        `${show(Math.abs(value), 'mm', system)} ${value < 0 ? less : more}`;
      report(other.place, {
        message: say`“${names[1]}” runs ${show(deep, 'mm', system, { decimals: 1 })} deep through “${names[0]}” where they stand: about ${far(at[0], 'right', 'left')}, ${far(at[1], 'in front', 'behind')} and ${far(at[2], 'up', 'down')}.`,
        related: [{ uri: one.named.file.uri, place: one.place, message: one.name }],
      });
    }
  },
};

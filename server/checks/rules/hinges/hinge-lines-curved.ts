import { say } from '../../../../l10n/say.ts';
import { radiusAtMiddle } from '../../../model/figures/turning.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'hinge-lines-curved',
  title: 'A hinge on a curved edge',
  family: 'Hinges',
  severity: 'warning',
  what: 'A hinge joins an edge that curves, and over its width the curve stands further off a straight line than the knuckles have play.',
  why: 'A pin is straight: on a curved line it binds after a few degrees, or tears a knuckle open.',
  todo: 'Make the hinge narrower, straighten the edge where it sits, or hinge on a side edge.',
  formula: 's = R − √(R² − (W/2)²)',
  usual: ['hinge-sag'],
  source: 'Height of an arc over its chord (derived); the limit is common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
material hinge-wire
  mild steel wire 3 mm
piece cuff
  from plate
  cylinder round 300 mm, high 90 mm, wrap 200 deg
piece flap
  from plate
  plate 80 x 60 mm
hinge gate
  joins cuff.bottom, flap.top
  knuckles 5, wide 60 mm
  over hinge-wire
`,
  better: `material plate
  mild steel 1.2 mm
material hinge-wire
  mild steel wire 3 mm
piece cuff
  from plate
  cylinder round 300 mm, high 90 mm, wrap 200 deg
piece flap
  from plate
  plate 80 x 60 mm
hinge gate
  joins cuff.left, flap.right
  knuckles 5, wide 60 mm
  over hinge-wire
`,
  hinge(hinge, report, model) {
    const system = model.units();
    const joins = hinge.line('joins');
    const wide = hinge.line('knuckles')?.length('wide', 'wide');
    if (!joins || wide === undefined) return;
    for (const { piece, edge } of hinge.leaves()) {
      const radius = radiusAtMiddle(piece, edge);
      if (radius === undefined) continue;
      const half = Math.min(wide / 2, radius);
      const sag = radius - Math.sqrt(radius * radius - half * half);
      if (sag <= usual('hinge-sag')) continue;
      const at = joins
        .all('edges')
        .find((filled) => filled.text.toLowerCase() === `${piece.name}.${edge}`.toLowerCase());
      report(placeOf(joins, at ?? joins.line), {
        message: say`${piece.name}.${edge} curves at ${show(radius, 'mm', system)}: over ${show(wide, 'mm', system)} it stands ${show(sag, 'mm', system)} off a straight pin.`,
      });
    }
  },
};

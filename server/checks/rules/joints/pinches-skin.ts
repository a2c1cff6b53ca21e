import { say } from '../../../../l10n/say.ts';
import { meetsOf } from '../../../model/assembly/joint-meets.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';

const SPEC = (wrap: number) => `material plate
  mild steel 1.2 mm
rivet pivot
  mild steel 4 x 10 mm, domed
piece upper
  from plate
  cylinder round 340 mm, high 60 mm, wrap ${wrap} deg
piece lame
  from plate
  lies under upper, gap 1.5 mm, high 46 mm, wrap 190 deg
piece lower
  from plate
  lies under lame, gap 1.5 mm, high 60 mm, wrap ${wrap} deg
joint elbow
  plates upper, lame, lower
  pivots pivot, inset 8 mm, end 8 mm
  bends 0 to 30 deg
  overlap 18 mm
`;

export const check: Check = {
  code: 'pinches-skin',
  title: 'Plates close on the skin between them',
  family: 'Joints',
  severity: 'information',
  what: 'Two plates of a joint that do not follow each other come nearer than a fold of cloth or skin is thick, and were further apart before it was bent.',
  why: 'What lies between their edges is caught.',
  todo: 'Let the plates go less far round behind the pivots, flare their edges, or line the joint.',
  usual: ['skin-gap'],
  formula: 'g ≥ 5 mm',
  source: 'Geometry of the placed plates (derived); what a fold needs is common practice (no source)',
  example: SPEC(230),
  better: SPEC(190),
  joint(joint, report, model) {
    const line = joint.line('bends');
    const found = line && meetsOf(joint)?.pinch;
    const least = usual('skin-gap');
    if (!found || found.gap >= least || found.before < found.gap + CLOSED) return;
    const [one, other] = [found.one, found.other].map((i) => joint.plates()[i]!.piece.name);
    const system = model.units();
    report(line.place, {
      message: say`At ${show(found.bend, 'deg', system, { decimals: 1 })} “${one}” and “${other}” come within ${show(found.gap, 'mm', system)} of each other, from ${show(found.before, 'mm', system)} unbent: what lies between them is caught.`,
    });
  },
};

/** By less than this nothing is caught, mm. */
const CLOSED = 2;

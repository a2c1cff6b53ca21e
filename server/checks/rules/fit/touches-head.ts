import { say } from '../../../../l10n/say.ts';
import { headRooms } from '../../../model/assembly/head.ts';
import { whereabouts } from '../../../model/figures/head.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';

const SPEC = (deep: number) => `wearer guard
  body man
  head round 575 mm
  head length 200 mm
  head breadth 155 mm
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  fits guard head, liner 10 mm, at 30 mm
  dome 270 mm, deep ${deep} mm, inside
  edge rim rolled, hollow 6 mm
`;

export const check: Check = {
  code: 'touches-head',
  title: 'Metal where the head is',
  family: 'Fit',
  severity: 'warning',
  what: 'The head as a form, from the measures of the wearer, is nearer to the inside of a placed plate than the liner is thick: at the crown, the temples, the face. It is information where no line says how high the brow is; and, where one does, if it holds only for a head at the ends of what is estimated.',
  why: 'Ways round fit at one height; a head touches where nobody has measured.',
  todo: 'Make the plate deeper or wider there, the liner thinner, or measure what is estimated.',
  formula: 'least distance − liner ≥ 0',
  source:
    'Geometry: inner faces of the placed plates against a form of level sections; missing measures from ANSUR II, the face below the brow from memory',
  example: SPEC(90),
  better: SPEC(190),
  run(model, report) {
    const system = model.units();
    for (const room of headRooms(model)) {
      const { head, least, low } = room;
      const { fit, said, piece } = head;
      const value = least.apart - fit.liner;
      const unkind = low - fit.liner;
      // Where nobody says how high it sits, heads that are only likely are not looked at too.
      if (value >= -SLACK && (!said || unkind >= -SLACK)) continue;
      const sure = value < -SLACK && said;
      const by = show(-(value < -SLACK ? value : unkind), 'mm', system, { decimals: 0 });
      report(fit.line.place, {
        severity: sure ? undefined : 'information',
        message: say`“${least.piece}” ${sure ? say`stands` : say`may stand`} ${by} into the head of “${fit.wearer.name}” with its liner, ${whereabouts(room, model)}: the brow is ${head.level} of “${piece}”${said ? '' : say`, which no line says`}.`,
      });
    }
  },
};
/** What the form of a head is good for, mm. */
const SLACK = 1;

import { say } from '../../../l10n/say.ts';
import {
  barrelDiameter,
  knuckleDevelopment,
  knuckleGap,
  knuckleWidth,
  notchDepth,
  pinLength,
} from '../../trade/hinge/hinge.ts';
import { addSwing, SWING } from '../assembly/swing.ts';
import type { HingeModel } from '../things/hinge.ts';
import { FigureSet } from '../values/figure-set.ts';
import { CUT } from '../values/show.ts';

/** Every figure of a hinge. */
export const hingeFigures = (hinge: HingeModel): FigureSet =>
  knucklesAndPin(hinge).and(SWING, (set) => addSwing(hinge, set));

function knucklesAndPin(hinge: HingeModel): FigureSet {
  const set = new FigureSet(`hinge ${hinge.name}`, hinge.name);
  const line = hinge.line('knuckles');
  if (!line) return set;
  const wide = line.length('wide', 'wide');
  const knuckles = line.count('knuckles');
  if (wide !== undefined && wide > 0 && knuckles !== undefined) {
    set.add('knuckle', 'width of one knuckle', knuckleWidth({ wide, knuckles }), line.place, []);
    set.add('gap', 'room between knuckles', knuckleGap(), line.place, []);
  }
  const over = hinge.line('over');
  const pin = hinge.pin()?.thickness();
  if (!over || !pin) return set;
  if (wide !== undefined && wide > 0)
    set.add('pin-length', 'pin, with its heads', pinLength({ wide, pin: pin.value }), over.place, [pin.name], CUT);
  const told = new Set<number>();
  for (const { piece } of hinge.leaves()) {
    const thickness = piece.material()?.thickness();
    if (!thickness || told.has(thickness.value) || piece.material()?.kind() !== 'sheet') continue;
    const suffix = told.size ? `-${told.size + 1}` : '';
    told.add(thickness.value);
    const inputs = [pin.name, thickness.name];
    const sizes = { pin: pin.value, thickness: thickness.value };
    set.add(
      `development${suffix}`,
      say`metal for one knuckle of ${piece.name}`,
      knuckleDevelopment(sizes),
      over.place,
      inputs,
    );
    set.add(`barrel${suffix}`, 'knuckles, across', barrelDiameter(sizes), over.place, inputs);
    set.add(
      `notch${suffix}`,
      say`cut into the other leaf, behind its curl, for a knuckle of ${piece.name}`,
      notchDepth(sizes),
      over.place,
      inputs,
    );
  }
  return set;
}

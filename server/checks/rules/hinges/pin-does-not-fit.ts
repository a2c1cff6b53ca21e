import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { PIN_CLEARANCE } from '../../../trade/hinge/hinge.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'pin-does-not-fit',
  title: 'A pin that does not go with its knuckles',
  family: 'Hinges',
  severity: 'warning',
  what: 'The pin of a hinge is not wire; or a knuckle curled round it is tighter than the metal of its leaf bends (under the most favourable figure an error). A pin of less than two thicknesses is information.',
  why: 'Curled too tight, a knuckle cracks along its back, or stays open and lets the pin rattle.',
  todo: 'Take a thicker wire or thinner leaves; anneal the edge first.',
  formula: '(d + clearance)/2 ≥ r; d ≥ 2 × t',
  usual: ['pin-plates'],
  source: 'Bend radii of the metal table; two thicknesses are common practice (no source)',
  example: `material plate
  spring steel 1.5 mm, grade "1050"
material hinge-wire
  mild steel wire 2 mm
piece arm
  from plate
  plate 80 x 60 mm
piece flap
  from plate
  plate 80 x 60 mm
hinge gate
  joins arm.right, flap.left
  knuckles 5, wide 60 mm
  over hinge-wire
`,
  better: `material plate
  mild steel 1.2 mm
material hinge-wire
  mild steel wire 3 mm
piece arm
  from plate
  plate 80 x 60 mm
piece flap
  from plate
  plate 80 x 60 mm
hinge gate
  joins arm.right, flap.left
  knuckles 5, wide 60 mm
  over hinge-wire
`,
  hinge(hinge, report, model) {
    const system = model.units();
    const line = hinge.line('over');
    const wire = hinge.pin();
    const pin = wire?.thickness()?.value;
    if (!line || !wire || pin === undefined) return;
    const place = placeOf(line, line.filled('wire') ?? line.line);
    if (wire.kind() !== 'wire') {
      report(place, { message: say`“${wire.name}” is no wire: a pin is cut from wire.` });
      return;
    }
    const seen = new Set<number>();
    for (const { piece } of hinge.leaves()) {
      const material = piece.material();
      const thickness = piece.thickness();
      if (thickness === undefined || material?.kind() !== 'sheet' || seen.has(thickness)) continue;
      seen.add(thickness);
      const radius = (pin + PIN_CLEARANCE) / 2;
      const least = material.figures().get('bend-radius');
      const tight = least && radius < least.value - 0.02 ? least : undefined;
      const thin = pin < usual('pin-plates') * thickness - 0.02;
      if (!tight && !thin) continue;
      const cannot = tight && radius < (tight.low ?? tight.value) - 0.02;
      report(place, {
        severity: cannot ? 'error' : tight ? undefined : 'information',
        message: tight
          ? say`Round a ${show(pin, 'mm', system)} pin the knuckles of “${piece.name}” ${cannot ? say`are` : say`may be`} too tight: ${show(radius, 'mm', system)} inside, and its metal bends over ${show(tight.value, 'mm', system)}.`
          : say`A ${show(pin, 'mm', system)} pin is thin for ${show(thickness, 'mm', system)} plate: ${show(usual('pin-plates') * thickness, 'mm', system)} (2 t) or more curls well.`,
        related: [{ uri: piece.named.file.uri, place: piece.place, message: say`piece ${piece.name}` }],
      });
    }
  },
};

import { say } from '../../../../l10n/say.ts';
import { flutesOf } from '../../../model/figures/turning.ts';
import { show } from '../../../model/values/show.ts';
import { stretchLimit } from '../../../trade/dome/dome.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { formingLimitOf } from '../../support/limits.ts';
import { changingLength, isOwn, nextDown, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'flute-too-deep',
  title: 'A flute deeper than its metal gives',
  family: 'Forming',
  severity: 'warning',
  what: 'Stretched over its flutes and not drawn in from the sides, the metal goes past what it bears in one go; or the bottom of the flute is tighter than the metal bends: under the most favourable figure that is an error. A flute more than half as deep as wide stands past upright.',
  why: 'It splits along the bottom, where the hammer thins it twice.',
  todo: 'Make the flutes shallower or wider, anneal, and work from the middle outwards so that the sides can draw in.',
  formula: 'ln(s/w) ≤ limit; R − t/2 ≥ r',
  usual: ['flute-walls'],
  source: 'Length of the section (derived); limits of the metal table; half a width is common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
piece hand
  from plate
  plate 120 x 90 mm
  flute 3, deep 10 mm, wide 14 mm
`,
  better: `material plate
  mild steel 1.2 mm
piece hand
  from plate
  plate 120 x 90 mm
  flute 3, deep 3 mm, wide 14 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const material = piece.material();
    const metal = material?.metal();
    const thickness = piece.thickness();
    if (!metal || thickness === undefined || material?.kind() !== 'sheet') return;
    const bears = metal.keelerHolds ? formingLimitOf(thickness, metal.hardening.value) : stretchLimit(metal.elongation);
    const tightest = material.figures().get('bend-radius');
    for (const { line, deep, wide, section } of flutesOf(piece)) {
      const inside = section.radius.value - thickness / 2;
      const tight = tightest && inside < tightest.value - 0.02 ? tightest : undefined;
      const strain = section.strain.value;
      const steep = deep > usual('flute-walls') * wide + 0.02;
      if (!tight && strain <= bears.value && !steep) continue;
      const cannot = tight && inside < (tight.low ?? tight.value) - 0.02;
      // The depth at which an arc of that width strains by just what the metal bears: ε ≈ 8h²/3w².
      const fits = Math.min(usual('flute-walls') * wide, wide * Math.sqrt((3 / 8) * Math.expm1(bears.value)) * 0.95);
      report(placeIn(piece, line, line.bound('deep')), {
        severity: cannot ? 'error' : undefined,
        message: tight
          ? say`The bottom of a flute ${show(deep, 'mm', system)} deep and ${show(wide, 'mm', system)} wide ${cannot ? say`is` : say`may be`} too tight: ${show(Math.max(0, inside), 'mm', system)} inside, and ${metal.title} bends over ${show(tight.value, 'mm', system)}.`
          : strain > bears.value
            ? say`Not drawn in from the sides, these flutes may stretch the metal by ${Math.round(Math.expm1(strain) * 100)} %, and ${metal.title} (${metal.temper}) bears ${Math.round(Math.expm1(bears.value) * 100)} % in one go.`
            : `A flute more than half as deep as it is wide stands past upright: no hammer gets to its sides.`,
        fixes:
          isOwn(piece, line) && !tight
            ? changingLength(
                line,
                { slot: 'deep', qualifier: 'deep' },
                nextDown(fits, line.expressions('deep', 'deep')[0]),
                (text) => say`Make them ${text} deep`,
              )
            : [],
      });
    }
  },
};

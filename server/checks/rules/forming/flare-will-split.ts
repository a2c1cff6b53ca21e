import { say } from '../../../../l10n/say.ts';
import { flaredStrain, flareOf } from '../../../model/figures/turning.ts';
import { show } from '../../../model/values/show.ts';
import { flangeLimits } from '../../../trade/bend/bend.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextDown, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'flare-will-split',
  title: 'A flare that stretches its edge too far',
  family: 'Forming',
  severity: 'warning',
  what: 'The rim of a flared edge is longer than it was before the flare. Over 15 % a sheared edge tears; over 30 %, or what the metal stretches at the break, a filed one too (an error).',
  why: 'The stretch is all in the last millimetre of the edge, where every shear mark is a notch.',
  todo: 'Make the flare narrower or flatter; file and polish the edge first; anneal.',
  formula: 'e = (R + w sin(β + α)) ÷ (R + w sin β) − 1',
  source: 'Geometry; 15 to 20 % sheared and 30 % polished are common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
piece cuff
  from plate
  cylinder round 240 mm, high 120 mm
  flare bottom, 60 deg, wide 10 mm
`,
  better: `material plate
  mild steel 1.2 mm
piece cuff
  from plate
  cylinder round 240 mm, high 120 mm
  flare bottom, 30 deg, wide 10 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const form = piece.form();
    if (!form) return;
    for (const bend of piece.bends()) {
      const { line, angle } = bend;
      const strain = flaredStrain(piece, bend);
      if (!strain || angle === undefined) continue;
      const flare = flareOf(form, bend);
      const stretch = strain.outside === undefined ? Math.expm1(strain.value) : 0;
      if (!(stretch > LIMIT)) continue;
      const metal = piece.material()?.metal();
      const elongation = (metal ? intervalOf(metal.elongation).high : 30) / 100;
      const cannot = stretch > Math.max(LIMIT, Math.min(FILED, elongation));
      // The width at which the stretch is just what a sheared edge bears.
      const grows = flare ? sine(Math.min(flare.taper + angle, 90)) - (1 + LIMIT) * sine(flare.taper) : 0;
      const narrow = flare && grows > 0 ? (LIMIT * flare.radius) / grows : 0;
      report(placeIn(piece, line), {
        severity: cannot ? 'error' : undefined,
        message: say`This flare stretches its edge by ${Math.round(stretch * 100)} %: ${cannot ? say`it splits` : stretch > SURELY ? say`a sheared edge tears` : say`a sheared edge may tear over 15 %`}.${narrow >= 1 ? say` At ${show(angle, 'deg', system)} keep it under ${show(narrow, 'mm', system)} wide.` : ''}`,
        fixes:
          isOwn(piece, line) && narrow >= 1
            ? changingLength(
                line,
                { slot: 'wide', qualifier: 'wide' },
                nextDown(narrow, line.expressions('wide', 'wide')[0]),
                (text) => say`Make the flare ${text} wide`,
              )
            : [],
      });
    }
  },
};

const sine = (degrees: number): number => Math.sin((degrees * Math.PI) / 180);

/** Stretch that an edge of mild steel bears, sheared and filed. */
const LIMIT = Math.expm1(flangeLimits.sheared.low);
const SURELY = Math.expm1(flangeLimits.sheared.high);
const FILED = Math.expm1(flangeLimits.filed.value);

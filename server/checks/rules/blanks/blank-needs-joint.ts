import { say } from '../../../../l10n/say.ts';
import type { Cut } from '../../../geometry/flatten/seams.ts';
import { cutsTried } from '../../../model/shapes/flattening.ts';
import { trim } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'blank-needs-joint',
  title: 'A form that asks too much of one plate',
  family: 'Blanks',
  severity: 'warning',
  what: 'The form cannot be laid flat in one piece at all; or (an information) a twentieth of its metal strains by more than it bears before an anneal, and a cut along one of its lines would spare it much.',
  why: 'Metal that has to come from nowhere, or go nowhere, tears or folds. A seam or a dart in the right place is less work than the heats it saves.',
  todo: 'Make the form in two pieces with a seam, or plan a dart: a slit with a round hole at its point, closed when the form has come round.',
  formula: 'strain of 19/20 of the plate > strain before an anneal',
  source:
    'Plate laid flat by least change of shape and thickness (derived); strain before an anneal: common practice (no source); nothing was tested on metal',
  example: `material plate
  mild steel 1.5 mm
piece flask
  from plate
  form wrap 360 deg
  at 0 mm, round 200 mm
  at 110 mm, round 700 mm
  at 220 mm, flat
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  form wrap 360 deg
  at 0 mm, round 700 mm
  at 60 mm, flat
`,
  piece(piece, report) {
    const laid = piece.flattening();
    if (!laid) return;
    if ('refused' in laid) {
      report(placeIn(piece, piece.formLine()), {
        message: say`“${piece.name}” cannot be laid flat in one plate: ${laid.refused}.`,
      });
      return;
    }
    const allowed = piece.material()?.metal()?.strainBeforeAnneal.value;
    const { strain } = laid.readings;
    if (allowed === undefined || strain <= allowed) return;
    const best = cutsTried(piece)[0];
    if (!best || best.strain > WORTH * strain) return;
    report(placeIn(piece, piece.method().line ?? piece.formLine()), {
      severity: 'information',
      message: say`A twentieth of the plate of “${piece.name}” strains by more than ${trim(strain, 2)}, and ${trim(allowed, 2)} wants an anneal: a ${inWords(best)} would bring that down to ${trim(best.strain, 2)}.`,
    });
  },
};

/** A cut that leaves more than this share of the strain is not worth its weld. */
const WORTH = 0.75;

const inWords = ({ kind, line, half }: Cut): string =>
  say`${kind} along ${half ? say`half of the ${line}` : say`the ${line}`}`;

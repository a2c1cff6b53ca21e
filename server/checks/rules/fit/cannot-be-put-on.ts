import { say } from '../../../../l10n/say.ts';
import { broughtTo } from '../../../model/figures/brought.ts';
import { fitsOf, isClosedRound, PARTS } from '../../../model/figures/fit.ts';
import { NONE } from '../../../model/forms/answers.ts';
import { kindOf } from '../../../model/forms/index.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';
import { inWords, isUnder } from '../../support/sure.ts';
import { appending, isOwn, placeIn } from '../../support/writing.ts';

const SPEC = (round: string) => `wearer guard
  neck round 395 mm
  head round 585 mm
material plate
  mild steel 1.2 mm
piece collar
  from plate
  fits guard neck, liner 4 mm, ease 10 mm
  cone round ${round}, high 70 mm, inside
  edge bottom rolled, hollow 5 mm
  edge top rolled, hollow 5 mm
`;

export const check: Check = {
  code: 'cannot-be-put-on',
  title: 'A closed piece that does not go over what it must pass',
  family: 'Fit',
  severity: 'warning',
  what: 'A piece goes all the way round, nothing opens it (no hinge, strap or lace of its own), and its narrowest place is less far round than what must go through first: the head through a collar or the rim of a helm, the hand through a cuff, heel and instep through a greave. Where a measure is only estimated and the unkind end of it fails, it is information.',
  why: 'It fits perfectly where it is worn, and nobody gets it there.',
  todo: 'Leave it open and close it with a strap, a lace or a hinge, make it in two halves, or make it wider.',
  formula: 'C(narrowest) ≥ C(part)',
  source: 'Geometry: a closed line goes over nothing that is further round (derived); missing measures from ANSUR II',
  example: SPEC('500 to 560 mm'),
  better: SPEC('620 to 680 mm'),
  piece(piece, report, model) {
    if (!isClosedRound(piece)) return;
    const fits = fitsOf(piece);
    if (!fits.length) return;
    const system = model.units();
    for (const part of PARTS) {
      const room = piece.figure(`${part}-passes`);
      const sure = room && isUnder(room, 0, 0.5);
      if (!room || !sure || opens(piece)) continue;
      const line = piece.formLine();
      const short = sure === 'may' ? intervalOf(room).low : room.value;
      report(placeIn(piece, line), {
        severity: sure === 'may' ? 'information' : undefined,
        message: say`“${piece.name}” ${inWords(sure, 'goes', 'may go')} over no ${part}: at its narrowest it is ${show(-short, 'mm', system)} too small round, and nothing opens it.`,
        fixes:
          line && isOwn(piece, line) && (line.id === 'cone' || line.id === 'cylinder') && !line.has('wrap')
            ? [appending(line, 'wrap 300 deg', 'Leave it open behind: wrap 300 deg', true)]
            : [],
        related: fits.map(({ line: each }) => ({ uri: each.file.uri, place: each.place, message: 'Whom it fits' })),
      });
    }
  },
};

/** What has sides that meet can be opened there, by whatever holds them that is not riveted or welded. */
function opens(piece: PieceModel): boolean {
  const form = piece.form();
  if (!form || kindOf(form).around(form) === NONE || !kindOf(form).seams(form).length) return false;
  return hingesOn(piece).length > 0 || looseSeams(piece).length > 0;
}

const hingesOn = broughtTo('hinge', (hinge) => hinge.leaves().map(({ piece }) => piece));
const looseSeams = broughtTo('seam', (seam) =>
  seam.lines.some(({ id }) => id === 'strap' || id === 'lace')
    ? seam.stacks().flatMap(({ layers }) => layers.flatMap((layer) => layer.piece ?? []))
    : [],
);

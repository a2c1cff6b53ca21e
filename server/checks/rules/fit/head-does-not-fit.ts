import { say } from '../../../../l10n/say.ts';
import { fitsOf, isClosedRound, saysLevel } from '../../../model/figures/fit.ts';
import { show } from '../../../model/values/show.ts';
import { enlargedGirth } from '../../../trade/fit/clearance.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'head-does-not-fit',
  title: 'A head that does not go in',
  family: 'Fit',
  severity: 'error',
  what: 'A closed form that fits a head is inside, at the height of its `fits` line or else where it is widest, less than the head’s way round with the liner and the ease all round. Where the liner finds room, and only some of the ease is missing, it is information.',
  why: 'It is found at the first fitting, when the plate is finished.',
  todo: 'Make it larger, or the liner thinner.',
  formula: 'inside ≥ head round + 2π × (liner + ease)',
  source: 'Geometry: a closed convex line a gap further out is 2π times the gap longer',
  example: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece band
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 600 mm, high 60 mm, inside
  edge bottom rolled, hollow 6 mm
`,
  better: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece band
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 690 mm, high 60 mm, inside
  edge bottom rolled, hollow 6 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    if (!isClosedRound(piece)) return;
    for (const fit of fitsOf(piece)) {
      const { line, wearer, region, liner, ease, suffix, measure } = fit;
      const head = region === 'head' ? measure('head round') : undefined;
      const inside = head && piece.figure(`inside-round${suffix}`);
      if (!head || !inside) continue;
      const least = enlargedGirth({ girth: head.value, gap: liner }).value;
      const good = enlargedGirth({ girth: head.value, gap: liner + ease }).value;
      if (inside.value >= good - 0.5) continue;
      const cannot = inside.value < least - 0.5;
      report(placeIn(piece, piece.formLine()), {
        severity: cannot ? undefined : 'information',
        message: say`“${piece.name}” is ${show(inside.value, 'mm', system)} round inside, and “${wearer.name}” needs ${show(good, 'mm', system)} with liner${ease ? say` and ease` : ''}${cannot ? '' : say` (${show(least, 'mm', system)} without ease)`}.`,
        related: [
          { uri: wearer.named.file.uri, place: head.place, message: 'Head round' },
          ...(saysLevel(fit) ? [{ uri: line.file.uri, place: line.place, message: 'Where it goes round' }] : []),
        ],
      });
    }
  },
};

import { say } from '../../../../l10n/say.ts';
import { contains, distanceTo } from '../../../geometry/outline/measure.ts';
import { distancesFrom } from '../../../geometry/surface/place.ts';
import { distancesToEdges } from '../../../model/figures/openings.ts';
import { ownOutline, placeOfLine, placeOnOutline } from '../../../model/shapes/places.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { holeEdgeLeastOf } from '../../support/limits.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'hole-near-edge',
  title: 'A hole too near the edge',
  family: 'Holes',
  severity: 'warning',
  what: 'Less than one thickness of metal is left between a hole and an edge, along the finished surface; under two it is information, and a hole that breaks out is an error.',
  why: 'The strip that is left bulges while the hole is made and tears at the first load.',
  todo: 'Move the hole in.',
  formula: 'at − d/2 ≥ 2 × t',
  source: 'Die makers’ design guides, which disagree: one asks for t, another for 2 t',
  example: `material plate
  mild steel 2 mm
piece brow
  from plate
  plate 120 x 60 mm
  holes lace 4 of 5 mm, along top, inset 3.5 mm
`,
  better: `material plate
  mild steel 2 mm
piece brow
  from plate
  plate 120 x 60 mm
  holes lace 4 of 5 mm, along top, inset 10 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    const least = holeEdgeLeastOf(thickness);
    const severityOf = (left: number) =>
      left <= 0 ? ('error' as const) : left < (least.low ?? 0) - 0.02 ? undefined : ('information' as const);
    const message = (left: number, long: number, edge: string) =>
      left <= 0
        ? say`This ${show(long, 'mm', system)} hole breaks out of ${edge}: its middle at least ${show(long / 2 + least.value, 'mm', system)} in.`
        : say`Only ${show(left, 'mm', system)} is left between the hole and ${edge}: ${show(least.value, 'mm', system)} (2 t) keeps it whole.`;
    for (const { line, round, long } of piece.openings()) {
      if (!round) continue;
      const told = new Set<string>();
      for (const { distance, said, edge } of distancesToEdges(undefined, line, piece.edgeNames())) {
        if (!said) continue;
        const left = distance - long / 2;
        told.add(edge);
        if (left >= least.value - 0.02) continue;
        report(placeIn(piece, line, line.filledAt(said)), {
          severity: severityOf(left),
          message: message(left, long, edge),
          fixes: isOwn(piece, line)
            ? changingLength(
                line,
                said,
                nextUp(long / 2 + least.value, line.expressionsAt(said)[0]),
                (text) => say`Set it ${text} in`,
                true,
              )
            : [],
        });
      }
      const outline = ownOutline(piece);
      const on = outline && placeOnOutline(outline, line);
      if (on && contains(outline, on)) {
        const left = distanceTo(outline, on) - long / 2;
        if (left < least.value - 0.02)
          report(placeIn(piece, line), { severity: severityOf(left), message: message(left, long, 'the rim') });
      }
      // Over a curved plate another edge, or a bay, may lie nearer than the ones it is measured from.
      const place = placeOfLine(piece, line);
      if (typeof place !== 'object') continue;
      const chart = piece.chart()!;
      for (const { edge, distance } of distancesFrom(
        chart,
        place,
        piece.cutForm()?.stretches,
        long / 2 + least.value,
      )) {
        const left = distance - long / 2;
        if (told.has(edge) || left >= least.value - 0.02) continue;
        report(placeIn(piece, line), { severity: severityOf(left), message: message(left, long, edge) });
      }
    }
  },
};

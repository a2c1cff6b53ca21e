import { say } from '../../../../l10n/say.ts';
import { spansOf } from '../../../geometry/outline/span.ts';
import { tightestOn } from '../../../model/figures/turning.ts';
import { cornerAt } from '../../../model/forms/edge-run.ts';
import { ownOutline } from '../../../model/shapes/places.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'roll-on-sharp-curve',
  title: 'A roll on an edge that curves too sharply',
  family: 'Forming',
  severity: 'warning',
  what: 'Rolled over, the metal of a curved edge ends on another girth. At the sharpest place of the edge it is stretched or gathered by more than 15 %, or the rim of an outline turns a corner of more than 30°.',
  why: 'Stretched so far the lip splits; gathered, it folds, and the wire shows in the gaps.',
  todo: 'Take a thinner wire, snip and dress the lip there, or leave that part unrolled.',
  usual: ['edge-curve'],
  formula: 'e = (d + t) ÷ R',
  source: 'Geometry; the limit is common practice (no source)',
  example: `material plate
  mild steel 1.2 mm
material edge-wire
  mild steel wire 3 mm
piece boss
  from plate
  dome 44 mm, deep 10 mm
  dish
  edge rim rolled over edge-wire
`,
  better: `material plate
  mild steel 1.2 mm
material edge-wire
  mild steel wire 3 mm
piece boss
  from plate
  dome 90 mm, deep 20 mm
  dish
  edge rim rolled over edge-wire
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || !piece.form() || piece.material()?.kind() !== 'sheet') return;
    for (const { line, edge, hollow, outward, stretch } of piece.edgeWorks()) {
      const corners = hollow === undefined || stretch || edge !== 'rim' ? 0 : sharpCornersOf(piece);
      if (corners) {
        report(placeIn(piece, line), {
          message: say`The rim turns ${corners === 1 ? say`a sharp corner` : say`${corners} sharp corners`}, and no roll goes round one: round ${corners === 1 ? say`it` : say`them`} off, or roll the sides between (“from … to …”).`,
        });
        continue;
      }
      const curve = hollow === undefined ? undefined : tightestOn(piece, edge, outward);
      if (hollow === undefined || !curve) continue;
      const { radius } = curve;
      const strain = (hollow + thickness) / radius;
      if (strain <= LIMIT) continue;
      report(placeIn(piece, line), {
        message: say`Rolled on a curve of ${show(radius, 'mm', system)} the lip changes its length by ${Math.round(strain * 100)} %: more than ${LIMIT * 100} % splits or folds. A roll of ${show(Math.max(0, LIMIT * radius - thickness), 'mm', system)} or less goes round it.`,
      });
    }
  },
};

/** Change of length that a lip bears. */
const LIMIT = usual('edge-curve') / 100;

/** Corners of a flat outline that turn by more than a hammer dresses. */
function sharpCornersOf(piece: PieceModel): number {
  const outline = ownOutline(piece);
  if (!outline) return 0;
  const spans = spansOf(outline);
  return spans.filter((span, i) => {
    const before = spans[(i + spans.length - 1) % spans.length]!;
    return (180 / Math.PI) * Math.abs(cornerAt(before, span)) > SHARP;
  }).length;
}

/** Degrees: less is as good as a bend of the edge. Common practice (no source). */
const SHARP = 30;

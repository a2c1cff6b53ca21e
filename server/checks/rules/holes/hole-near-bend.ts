import { say } from '../../../../l10n/say.ts';
import { distancesToBends } from '../../../model/figures/openings.ts';
import { bendCurves } from '../../../model/figures/turning.ts';
import { show } from '../../../model/values/show.ts';
import { holeBendLeast } from '../../../trade/hole/punch.ts';
import { rivetHead } from '../../../trade/rivet/rivet.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextDown, nextUp, placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'hole-near-bend',
  title: 'A hole too near a bend',
  family: 'Holes',
  severity: 'warning',
  what: 'An opening that is made before bending lies within two thicknesses of where the curve begins (within three: information); or one that is made after it, or the heads of a row of rivets, lie in the curve itself.',
  why: 'The bend pulls the hole long and lifts its lip. On the curve a drill wanders, and a head finds no flat to sit on.',
  todo: 'Move the hole out of the bend, or drill it afterwards.',
  formula: '|at − bend| − d/2 − BA/2 ≥ 2 to 3 × t',
  source: 'Sheet metal design guides, which disagree: 2 t to 3 t from where the curve begins',
  example: `material plate
  mild steel 1.5 mm
piece bracket
  from plate
  plate 100 x 40 mm
  bend 30 mm from left, 90 deg, radius 2 mm
  hole 6 mm, at 24 mm from left and 20 mm from top, before forming
`,
  better: `material plate
  mild steel 1.5 mm
piece bracket
  from plate
  plate 100 x 40 mm
  bend 30 mm from left, 90 deg, radius 2 mm
  hole 6 mm, at 15 mm from left and 20 mm from top, before forming
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (!piece.form() || thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    const least = holeBendLeast({ thickness, radius: 0 });
    for (const opening of piece.openings()) {
      const { line, beforeForming } = opening;
      for (const { distance, edge, said, curve, half, left } of distancesToBends(piece, opening)) {
        if (beforeForming ? left >= least.high! - 0.02 : left >= -0.02) continue;
        const near = show(Math.max(0, left), 'mm', system);
        const clear = half + curve.half + (beforeForming ? least.high! : 0);
        const inner = distance < curve.distance;
        const place = said && placeIn(piece, line, line.filledAt(said));
        const expression = said && line.expressionsAt(said)[0];
        report(place ?? placeIn(piece, line), {
          severity: beforeForming && left >= least.low! - 0.02 ? 'information' : undefined,
          message:
            left < 0
              ? say`This opening lies in the curve of the bend ${show(curve.distance, 'mm', system)} from ${edge}: ${beforeForming ? say`bending pulls it out of shape` : say`a drill wanders there, and nothing lies flat`}.`
              : say`This opening ends ${near} from where the bend begins, which ${left < least.low! - 0.02 ? say`pulls` : say`may pull`} it out of shape: ${show(least.high!, 'mm', system)} (3 t) keeps it round for sure.`,
          fixes:
            said && isOwn(piece, line)
              ? changingLength(
                  line,
                  said,
                  inner ? nextDown(curve.distance - clear, expression) : nextUp(curve.distance + clear, expression),
                  (text) => say`Set it ${text} from ${edge}`,
                )
              : [],
        });
      }
    }
  },
  riveted({ seam, rivet, size }, report, model) {
    const system = model.units();
    const inset = seam.inset();
    const line = seam.rivetsLine()!;
    if (inset === undefined) return;
    const head = rivetHead(rivet.head(), size.shank).diameter.value / 2;
    for (const { piece, edge } of seam.along()) {
      const curve = bendCurves(piece).find(
        (each) => each.edge === edge && Math.abs(inset - each.distance) < head + each.half - 0.02,
      );
      if (!curve) continue;
      report(placeOf(line, line.filled('inset', 'inset') ?? line.line), {
        message: say`The heads of “${rivet.name}” stand on the curve of the bend ${show(curve.distance, 'mm', system)} from ${edge} of “${piece.name}”: they find no flat to sit on.`,
      });
    }
  },
};

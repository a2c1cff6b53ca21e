import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { type Check, replacing } from '../../check.ts';
import { isOwn, placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'method-cannot-reach',
  title: 'A way of working that does not reach the form',
  family: 'Forming',
  severity: 'error',
  what: 'A piece is to be dished as deep as a half sphere or deeper.',
  why: 'Dishing drives the metal down into a hollow: at a half sphere the walls stand upright, and no hollow or hammer reaches further.',
  todo: 'Raise it, or dish first and then raise.',
  formula: 'h < d/2',
  source: 'Geometry',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 90 mm
  dish
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 160 mm, deep 90 mm
  raise
`,
  piece(piece, report, model) {
    const system = model.units();
    const { method, line } = piece.method();
    const domed = piece.domed();
    if (method !== 'dish' || !line || !domed) return;
    const half = Math.min(domed.wide, domed.long) / 2;
    if (domed.deep < half) return;
    report(placeIn(piece, line), {
      message: say`“${piece.name}” is ${show(domed.deep, 'mm', system)} deep and a half sphere of its width ${show(half, 'mm', system)}: dishing does not reach it. Raise it, or dish and then raise.`,
      fixes: isOwn(piece, line)
        ? ['dish then raise', 'raise'].map((text, i) =>
            replacing(line.file.uri, i ? 'Raise' : 'Dish, then raise', placeOf(line, line.line), text),
          )
        : [],
    });
  },
};

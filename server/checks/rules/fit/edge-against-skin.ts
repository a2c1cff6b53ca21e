import { say } from '../../../../l10n/say.ts';
import { show, trim } from '../../../model/values/show.ts';
import { addingLine, type Check } from '../../check.ts';
import { rawEdgesOf } from '../../support/edges.ts';
import { usualFor } from '../../support/usual.ts';
import { allOf, changingLength, isOwn, placeIn, upTo } from '../../support/writing.ts';

export const check: Check = {
  code: 'edge-against-skin',
  title: 'A raw edge where a body moves',
  family: 'Fit',
  severity: 'information',
  what: 'A piece fits a wearer, and a free edge of it is neither rolled, hemmed, covered nor rounded, and no seam runs along it; or it is rounded less than is usual, where the plate is thick enough for more.',
  why: 'A plain edge cuts and bruises, and it bends in more easily than a turned one.',
  todo: 'Roll, wire or hem it, or cover it with leather; at the least round it.',
  usual: ['edge-round'],
  source: 'Common practice (no source): roll or wire a free edge wherever hands or neck pass',
  example: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  fits guard head, liner 10 mm
  dome 220 mm, deep 50 mm, inside
`,
  better: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  fits guard head, liner 10 mm
  dome 220 mm, deep 50 mm, inside
  edge rim rolled, hollow 6 mm
`,
  piece(piece, report, model) {
    const fits = piece.line('fits');
    const form = piece.formLine();
    const thickness = piece.thickness();
    if (!fits || thickness === undefined) return;
    const usual = usualFor(model, 'edge-round');
    const system = model.units();
    // Nothing is rounder than half its thickness.
    const least = usual && Math.min(usual.value, thickness / 2);
    const isTooSharp = (round: number | undefined) =>
      round !== undefined && least !== undefined && round < least - 0.01;
    for (const { line, round } of piece.rounds())
      if (isTooSharp(round))
        report(placeIn(piece, line, line.filled('radius')), {
          message: say`Rounded to ${show(round!, 'mm', system)} this edge is still sharp: at least ${show(least!, 'mm', system)}${least === usual!.value ? '' : say`, which makes this plate fully round`}.`,
          fixes: isOwn(piece, line)
            ? changingLength(line, { slot: 'radius' }, least!, (text) => say`Round it to ${text}`, true)
            : [],
        });
    const edges = rawEdgesOf(piece);
    if (!edges.length) return;
    const hollow = `${trim(upTo(4 * thickness, 0.5), 1)} mm`;
    report(placeIn(piece, fits), {
      message: say`“${piece.name}” is worn with ${allOf(edges)} left raw: roll, hem or cover ${edges.length > 1 ? say`them` : say`it`}, or at least round ${edges.length > 1 ? say`them` : say`it`}${least ? say` to ${show(least, 'mm', system)}` : ''}.`,
      fixes:
        form && isOwn(piece, form)
          ? [
              ...(edges.length === 1
                ? [
                    addingLine(
                      form.file.uri,
                      say`Roll the ${edges[0]}`,
                      form.place,
                      `edge ${edges[0]} rolled, hollow ${hollow}`,
                    ),
                  ]
                : []),
              ...(least
                ? [
                    addingLine(
                      form.file.uri,
                      'Round every free edge',
                      form.place,
                      `edges rounded ${trim(upTo(least, 0.05), 2)} mm`,
                    ),
                  ]
                : []),
            ]
          : [],
    });
  },
};

import { say } from '../../../../l10n/say.ts';
import { contains } from '../../../geometry/outline/measure.ts';
import { alongEdge } from '../../../geometry/surface/place.ts';
import { fitsOf, levelOf } from '../../../model/figures/fit.ts';
import { ownOutline, placeOfLine, placeOnOutline } from '../../../model/shapes/places.ts';
import type { Check } from '../../check.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'place-off-piece',
  title: 'An opening that lies off the plate',
  family: 'Holes',
  severity: 'error',
  what: 'The place of an opening is further from an edge than the finished plate reaches there, or its two distances run the same way; or a part of an edge, from so far to so far, is longer than the edge; or the height or the edge of a `fits` line is none of the piece.',
  why: 'It cannot be marked out, is on no pattern, and is missed when the plate is already formed.',
  todo: 'Measure again, along the finished surface.',
  source: 'Geometry of the form',
  example: `material plate
  mild steel 1.5 mm
piece cop
  from plate
  make 2, mirrored
  half dome 150 x 120 mm, deep 40 mm
  dish
  hole 5 mm, at 210 mm from rim
`,
  better: `material plate
  mild steel 1.5 mm
piece cop
  from plate
  make 2, mirrored
  half dome 150 x 120 mm, deep 40 mm
  dish
  hole 5 mm, at 21 mm from rim
`,
  piece(piece, report) {
    for (const { line, region } of fitsOf(piece)) {
      const level = levelOf(piece, { line, region });
      if (level && 'why' in level)
        report(placeIn(piece, line, line.filled('height', 'at') ?? line.filled('edge', 'along')), {
          message: say`Not on “${piece.name}”: ${level.why}.`,
        });
    }
    const placed = [...piece.openings(), ...piece.pierced()];
    const outline = placed.length ? ownOutline(piece) : undefined;
    for (const { line } of outline ? placed : []) {
      const place = placeOnOutline(outline!, line);
      if (place && !contains(outline!, place))
        report(placeIn(piece, line, line.filled('across', 'at')), {
          message: say`Not on “${piece.name}”: it lies outside the outline.`,
        });
    }
    for (const { line } of placed) {
      const place = placeOfLine(piece, line);
      if (typeof place === 'string' && !place.includes('has no edge')) {
        report(placeIn(piece, line, line.filled('across', 'at')), { message: say`Not on “${piece.name}”: ${place}.` });
        continue;
      }
      const edge = line.text('edge', 'along');
      const [from, to] = [line.length('from', 'from'), line.length('to', 'from')];
      if (edge === undefined || from === undefined || to === undefined) continue;
      const chart = piece.chart();
      const end = chart && alongEdge(chart, edge, piece.cutForm()?.stretches)?.(Math.max(from, to), 0);
      if (typeof end === 'string')
        report(placeIn(piece, line, line.filled(from > to ? 'from' : 'to', 'from')), {
          message: say`Not on “${piece.name}”: ${end}.`,
        });
    }
  },
};

import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { appending, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'side-unsaid',
  title: 'A fitted form that does not say which side is measured',
  family: 'Forming',
  severity: 'warning',
  what: 'The piece fits a wearer, and its form does not end in inside or outside. Measures are then taken at the middle of the thickness.',
  why: 'On a helm of 1.5 mm the way round differs by 9 mm between inside and outside: the difference between a fit and a headache.',
  todo: 'Say inside, if the measures come from the body and its liner.',
  formula: 'girth(outside) − girth(inside) = 2π × t',
  source: 'Geometry',
  example: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece band
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 700 mm, high 60 mm
  edge bottom rolled, hollow 6 mm
`,
  better: `wearer guard
  head round 585 mm
material plate
  mild steel 1.5 mm
piece band
  from plate
  fits guard head, liner 10 mm, ease 6 mm
  cylinder round 700 mm, high 60 mm, inside
  edge bottom rolled, hollow 6 mm
`,
  piece(piece, report) {
    const line = piece.formLine();
    if (!line || !FITTED.has(line.id) || piece.side() || !piece.line('fits')) return;
    report(placeIn(piece, line), {
      message: say`“${piece.name}” fits a wearer, and its form does not say whether it is measured inside or outside.`,
      fixes: isOwn(piece, line)
        ? [appending(line, 'inside', 'Measured inside', true), appending(line, 'outside', 'Measured outside')]
        : [],
    });
  },
};

/** Forms that go round the body. A flat plate has no inside, and a lame takes its girth from its neighbour. */
const FITTED = new Set(['dome', 'oval dome', 'half dome', 'gore dome', 'cylinder', 'cone', 'form']);

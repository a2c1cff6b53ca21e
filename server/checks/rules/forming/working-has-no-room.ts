import type { Span } from '../../../../grammar/tree.ts';
import { say } from '../../../../l10n/say.ts';
import { mostFlutes } from '../../../geometry/surface/relief.ts';
import { MOST_FLUTES, type NoRoom } from '../../../model/shapes/worked.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import type { FindingFix } from '../../../model/values/figure.ts';
import { show } from '../../../model/values/show.ts';
import { type Check, replacing } from '../../check.ts';
import { isOwn, placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'working-has-no-room',
  title: 'A flute, a crease or a flare that its form has no room for',
  family: 'Forming',
  severity: 'error',
  what: 'Flutes that are together wider than the widest level of their piece, or more than 60 on one piece, which are not worked out; a crease along a line that does not run up the form, or on a flat form without a width; a flare that is wider than the wall, or at an edge that cannot be turned out.',
  why: 'The surface, the blank and the pattern leave it out: what comes off the saw has no metal for it.',
  todo: 'Make it narrower, or fewer of them; say how wide the crease is; flare a whole edge of the form.',
  formula: 'n × w < level; w < way up the wall',
  source: 'Geometry of the form',
  example: `material plate
  mild steel 1.2 mm
piece hand
  from plate
  plate 60 x 90 mm
  flute 5, deep 3 mm, wide 14 mm
`,
  better: `material plate
  mild steel 1.2 mm
piece hand
  from plate
  plate 60 x 90 mm
  flute 3, deep 3 mm, wide 14 mm
`,
  piece(piece, report) {
    if (!piece.hasWorkings()) return;
    for (const found of piece.worked()?.noRoom ?? [])
      report(placeIn(piece, found.line, where(found)), {
        message: inWords(piece, found),
        fixes: fewer(piece, found),
      });
  },
};

/** As many flutes as there is room for. */
function fewer(piece: PieceModel, { line, what }: NoRoom): FindingFix[] {
  const count = line.expressions('count')[0];
  const chart = 'count' in what && isOwn(piece, line) ? piece.plainChart() : undefined;
  const left = MOST_FLUTES - (piece.worked()?.flutes ?? 0);
  const most = chart && 'count' in what ? Math.min(mostFlutes(chart, what), left) : 0;
  if (!count || most < 1) return [];
  return [
    replacing(
      line.file.uri,
      say`Make it ${most} ${most === 1 ? say`flute` : say`flutes`}`,
      placeOf(line, count),
      `${most}`,
    ),
  ];
}

/** The part of its line that is at fault. */
/** The words of its line that ask for too much. */
function where({ line, why }: NoRoom): Span | undefined {
  switch (why) {
    case 'too many':
      return line.filled('count');
    case 'no such line':
    case 'no such edge':
      return line.filled('edge');
    case 'flat':
      return line.bound('deep');
    default:
      return line.bound('wide');
  }
}

function inWords(piece: PieceModel, { what, why }: NoRoom): string {
  const wide = 'wide' in what && what.wide !== undefined ? show(what.wide, 'mm', piece.model.units()) : '';
  switch (why) {
    case 'crowded':
      return say`Flutes ${wide} wide have no room side by side on “${piece.name}”: the surface leaves them out.`;
    case 'too many':
      return say`More than ${MOST_FLUTES} flutes on one piece are not worked out: the surface leaves these out.`;
    case 'no such line':
      return `A crease runs up the form: along its middle, its front, its side or one of its side edges. The surface leaves this one out.`;
    case 'flat':
      return say`“${piece.name}” is not curved across this line, so the width of the crease does not follow from its depth: say “wide”. The surface leaves it out.`;
    case 'no such edge':
      return `Only a whole edge of the form can be flared here. The surface leaves this flare out.`;
    case 'too wide':
      return say`The wall of “${piece.name}” does not reach so far: a flare ${wide} wide has no metal. The surface leaves it out.`;
  }
}

import type { Point } from '../../../geometry/outline/span.ts';
import { NONE } from '../../../model/forms/answers.ts';
import { kindOf } from '../../../model/forms/index.ts';
import { ownOutline, placeInBox, placeOnOutline } from '../../../model/shapes/places.ts';
import type { Opening, PieceModel } from '../../../model/things/piece.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { webLeastOf } from '../../support/limits.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'web-too-thin',
  title: 'Too little metal between holes',
  family: 'Holes',
  severity: 'warning',
  what: 'Two holes or slots of a flat or rolled-out piece leave less than two thicknesses between them, or run into each other. Breathing holes stand so close that less than two thicknesses of metal are left between them; holes that run into each other are an error.',
  why: 'Thin webs tear from hole to hole, and the punch pulls the last one open.',
  todo: 'Set them wider apart, or make them smaller.',
  usual: ['web'],
  formula: 'p − d ≥ 2 × t',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece cheek
  from plate
  plate 140 x 100 mm
  breaths cheek-breaths 24 of 5 mm, rows 4, pitch 6.5 mm, at 50 mm from left and 50 mm from bottom
`,
  better: `material plate
  mild steel 1.5 mm
piece cheek
  from plate
  plate 140 x 100 mm
  breaths cheek-breaths 24 of 5 mm, rows 4, pitch 12 mm, at 70 mm from left and 50 mm from bottom
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    const least = webLeastOf(thickness).value;
    for (const { one, other, left } of tooNear(piece, least)) {
      report(placeIn(piece, one.line), {
        severity: left <= 0 ? 'error' : undefined,
        message:
          left <= 0
            ? `This ${one.kind} and ${nameOf(other)} run into each other.`
            : `Only ${show(left, 'mm', system)} is left between this ${one.kind} and ${nameOf(other)}: at least ${show(least, 'mm', system)} (2 t).`,
        related: [{ uri: other.line.file.uri, place: other.line.place, message: `The ${other.kind}` }],
      });
    }
    for (const { line, kind, long } of piece.openings()) {
      const pitch = kind === 'breaths' ? line.length('pitch', 'pitch') : undefined;
      if (pitch === undefined || pitch - long >= least - 0.02) continue;
      report(placeIn(piece, line, line.bound('pitch')), {
        severity: pitch <= long ? 'error' : undefined,
        message:
          pitch <= long
            ? `${show(long, 'mm', system)} holes ${show(pitch, 'mm', system)} apart run into each other.`
            : `Only ${show(pitch - long, 'mm', system)} is left between the holes: at least ${show(least, 'mm', system)} (2 t).`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'pitch', qualifier: 'pitch' },
              nextUp(long + least, line.expressions('pitch', 'pitch')[0]),
              (text) => `Set them ${text} apart`,
              true,
            )
          : [],
      });
    }
  },
};

interface Near {
  readonly one: Opening;
  readonly other: Opening;
  /** Metal between them, mm. */
  readonly left: number;
}

/** Holes and slots on a flat or rolled-out piece that leave less than `least` between them, each pair once, at the later one. */
function tooNear(piece: PieceModel, least: number): Near[] {
  const form = piece.form();
  const outline = ownOutline(piece);
  const square = form && kindOf(form).square(form);
  const single = piece.openings().filter(({ kind, count }) => (kind === 'hole' || kind === 'slot') && count === 1);
  if (single.length < 2 || single.length > MOST_OPENINGS) return [];
  const placed = single.flatMap((opening) => {
    const at = outline
      ? placeOnOutline(outline, opening.line)
      : square && square !== NONE && square.wide !== undefined
        ? within(placeInBox(opening.line, square.wide, square.high), square.wide, square.high)
        : undefined;
    if (!at) return [];
    const { long, wide, round } = opening;
    const half = round ? 0 : Math.abs(long - wide) / 2;
    const across = long >= wide ? half : 0;
    const up = long >= wide ? 0 : half;
    const radius = Math.min(long, wide) / 2;
    return [{ opening, radius, from: { x: at.x - across, y: at.y - up }, to: { x: at.x + across, y: at.y + up } }];
  });
  return placed.flatMap((one, i) =>
    placed.slice(0, i).flatMap((other) => {
      const left = between(one, other) - one.radius - other.radius;
      return left < least - 0.02 ? [{ one: one.opening, other: other.opening, left }] : [];
    }),
  );
}

/** Of more, each against each, nobody waits for the answer at every key. */
const MOST_OPENINGS = 60;

/** A way that is not said is the middle. */
const within = (place: { x?: number; y?: number } | undefined, wide: number, high: number): Point | undefined =>
  place && { x: place.x ?? wide / 2, y: place.y ?? high / 2 };

interface Stretch {
  readonly from: Point;
  readonly to: Point;
}

/** The distance of two stretches, each level or upright, mm. */
function between(a: Stretch, b: Stretch): number {
  const gap = (low: number, high: number, other: number, far: number) => Math.max(0, other - high, low - far);
  return Math.hypot(gap(a.from.x, a.to.x, b.from.x, b.to.x), gap(a.from.y, a.to.y, b.from.y, b.to.y));
}

const nameOf = ({ kind, name }: Opening): string => (name ? `“${name.text}”` : `the other ${kind}`);

import { say } from '../../../../l10n/say.ts';
import { between, holesOn } from '../../../model/figures/rows.ts';
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
  what: 'Two holes or slots, or those of a row, leave less than two thicknesses between them, or run into each other. Breathing holes stand so close that less than two thicknesses of metal are left between them; holes that run into each other are an error.',
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
            ? say`${one === other ? say`These holes` : say`This ${one.kind === 'holes' ? say`row` : one.kind} and ${nameOf(other)}`} run into each other.`
            : say`Only ${show(left, 'mm', system)} is left between ${one === other ? say`two of these holes` : say`this ${one.kind === 'holes' ? say`row` : one.kind} and ${nameOf(other)}`}: at least ${show(least, 'mm', system)} (2 t).`,
        related:
          one === other ? [] : [{ uri: other.line.file.uri, place: other.line.place, message: say`The ${other.kind}` }],
      });
    }
    for (const { line, kind, long } of piece.openings()) {
      const pitch = kind === 'breaths' ? line.length('pitch', 'pitch') : undefined;
      if (pitch === undefined || pitch - long >= least - 0.02) continue;
      report(placeIn(piece, line, line.bound('pitch')), {
        severity: pitch <= long ? 'error' : undefined,
        message:
          pitch <= long
            ? say`${show(long, 'mm', system)} holes ${show(pitch, 'mm', system)} apart run into each other.`
            : say`Only ${show(pitch - long, 'mm', system)} is left between the holes: at least ${show(least, 'mm', system)} (2 t).`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'pitch', qualifier: 'pitch' },
              nextUp(long + least, line.expressions('pitch', 'pitch')[0]),
              (text) => say`Set them ${text} apart`,
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

/** Holes, slots and rows that leave less than `least` between them, each pair once, at the later one. */
function tooNear(piece: PieceModel, least: number): Near[] {
  if (piece.openings().length < 2 && !piece.openings().some(({ kind }) => kind === 'holes')) return [];
  const nearest = new Map<Opening, Map<Opening, number>>();
  const placed = holesOn(piece, MOST_OPENINGS);
  for (const [i, one] of placed.entries())
    for (const other of placed.slice(0, i)) {
      const left = between(one.spine, other.spine) - one.radius - other.radius;
      const by = nearest.get(one.opening) ?? new Map<Opening, number>();
      nearest.set(one.opening, by.set(other.opening, Math.min(left, by.get(other.opening) ?? left)));
    }
  return [...nearest].flatMap(([one, others]) =>
    [...others].flatMap(([other, left]) => (left < least - 0.02 ? [{ one, other, left }] : [])),
  );
}

/** Of more, each against each, nobody waits for the answer at every key. */
const MOST_OPENINGS = 60;

const nameOf = ({ kind, name }: Opening): string => (name ? `“${name.text}”` : say`the other ${kind}`);

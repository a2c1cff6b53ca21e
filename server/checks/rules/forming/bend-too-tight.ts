import { say } from '../../../../l10n/say.ts';
import { creaseSectionsOf } from '../../../model/figures/turning.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'bend-too-tight',
  title: 'A bend tighter than the metal takes',
  family: 'Forming',
  severity: 'warning',
  what: 'The inside radius of a bend of 45° or more, or of a crease that is turned so far, is under the least radius of the metal and its temper, across the grain. Under the most favourable figure it is an error.',
  why: 'The outside of the bend cracks, at once or the first time it is struck.',
  todo: 'Bend it over a larger radius, anneal it first, or take softer stock.',
  formula: 'R ≥ r × t',
  source: 'Bend radii of the metal table, with their sources; the material’s own bend radius where the spec gives it',
  example: `material spring
  spring steel 1.5 mm, grade "1050"
piece clip
  from spring
  strip 120 x 20 mm
  bend 30 mm from left, 90 deg, radius 1 mm
`,
  better: `material spring
  spring steel 1.5 mm, grade "1050"
piece clip
  from spring
  strip 120 x 20 mm
  bend 30 mm from left, 90 deg, radius 5 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const least = piece.material()?.figures().get('bend-radius');
    if (!least) return;
    const bends = piece.bends().filter(({ kind }) => kind === 'bend');
    const isTight = (radius: number | undefined): radius is number =>
      radius !== undefined && radius < least.value - 0.02;
    // Where a ridge is blunt enough it need not be known how far it is turned.
    const creases = piece.all('crease').some((line) => isTight(line.length('radius', 'radius')))
      ? creaseSectionsOf(piece).map(({ line, turn }) => ({
          line,
          angle: turn.value,
          radius: line.length('radius', 'radius'),
        }))
      : [];
    for (const { line, radius, angle } of [...bends, ...creases]) {
      if (!isTight(radius) || (angle ?? 90) < 45) continue;
      const cannot = radius < (least.low ?? least.value) - 0.02;
      const metal = piece.material()!.metal();
      report(placeIn(piece, line, line.bound('radius')), {
        severity: cannot ? 'error' : undefined,
        message: say`A radius of ${show(radius, 'mm', system)} ${cannot ? say`is` : say`may be`} too tight for ${show(piece.thickness()!, 'mm', system)} ${metal ? say`${metal.title} (${metal.temper})` : say`metal`}: at least ${show(least.value, 'mm', system)}.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'radius', qualifier: 'radius' },
              nextUp(least.value, line.expressionsAt({ slot: 'radius', qualifier: 'radius' })[0]),
              (text) => say`Bend it over ${text}`,
              true,
            )
          : [],
        related: [{ uri: piece.material()!.named.file.uri, place: least.place, message: say`From ${least.source}` }],
      });
    }
  },
};

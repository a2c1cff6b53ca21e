import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { changingLength, isOwn, nextUp, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'bend-along-grain',
  title: 'A tight bend along the grain',
  family: 'Forming',
  severity: 'information',
  what: 'The piece says how its grain runs, and a bend of 45° or more lies along it with less than twice the radius that the stock takes at the tightest.',
  why: 'Rolled sheet is weaker across its grain: a bend along it opens on the outside before one across it does.',
  todo: 'Turn the blank so that the bend crosses the grain, or bend it over a larger radius.',
  usual: ['grain-bend'],
  formula: 'R ≥ 2 × R min, along the grain',
  source: 'That it cracks sooner stands in every bending guide; the factor is common practice (no source)',
  example: `material plate
  mild steel 2 mm
piece bracket
  from plate
  plate 120 x 80 mm
  bend 30 mm from left, 90 deg, radius 1.5 mm
  grain up
`,
  better: `material plate
  mild steel 2 mm
piece bracket
  from plate
  plate 120 x 80 mm
  bend 30 mm from left, 90 deg, radius 1.5 mm
  grain across
`,
  piece(piece, report, model) {
    const grain = piece.line('grain');
    const least = piece.material()?.figures().get('bend-radius');
    if (!grain || !least || piece.material()?.kind() !== 'sheet') return;
    const isUp = !grain.word('across');
    for (const { line, kind, edge, radius, angle } of piece.bends()) {
      if (kind !== 'bend' || radius === undefined || (angle ?? 0) < 45) continue;
      const runsUp = edge === 'left' || edge === 'right';
      const isSide = runsUp || edge === 'top' || edge === 'bottom';
      const wanted = usual('grain-bend') * least.value;
      // One that is too tight whichever way it runs is another check.
      if (!isSide || runsUp !== isUp || radius >= wanted - 0.02 || radius < least.value - 0.02) continue;
      report(placeIn(piece, line, line.bound('radius')), {
        message: say`This bend lies along the grain, where ${show(piece.thickness()!, 'mm', model.units())} sheet cracks sooner: bend it over ${show(wanted, 'mm', model.units())} or more, or turn the blank.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'radius', qualifier: 'radius' },
              nextUp(wanted, line.expressionsAt({ slot: 'radius', qualifier: 'radius' })[0]),
              (text) => say`Bend it over ${text}`,
            )
          : [],
        related: isOwn(piece, grain)
          ? [{ uri: model.file.uri, place: grain.place, message: 'How the grain runs' }]
          : [],
      });
    }
  },
};

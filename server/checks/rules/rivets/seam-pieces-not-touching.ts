import { say } from '../../../../l10n/say.ts';
import { NONE } from '../../../model/forms/answers.ts';
import { kindOf } from '../../../model/forms/index.ts';
import type { Along, SeamModel } from '../../../model/things/seam.ts';
import type { Check } from '../../check.ts';
import { edgeDistanceOf, rivetHoleOf } from '../../support/limits.ts';
import { lengthShown } from '../../support/rivets.ts';
import { changingLength, nextUp, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'seam-pieces-not-touching',
  title: 'A seam whose pieces do not reach each other',
  family: 'Rivets',
  severity: 'error',
  what: 'A seam runs along the edge of a piece that it does not join; or its pieces overlap no further than the row stands in from the edge, so that the rivets miss the other piece. An overlap that leaves less than two shanks beyond the row is a warning.',
  why: 'A rivet needs both plates under it, with metal to spare on every side.',
  todo: 'Name the pieces that meet at that edge, or widen the overlap.',
  formula: 'overlap ≥ inset + 2 × D',
  source: 'Geometry; FAA AC 43.13-1B: at least 2 D from rivet to edge',
  example: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
  overlap 8 mm
`,
  better: `material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
  overlap 18 mm
`,
  seam(seam, report, model) {
    const system = model.units();
    for (const along of seam.along()) {
      if (!seam.stacks().length || joins(seam, along)) continue;
      report(along.line.place, {
        message: say`“${seam.name}” runs along ${along.piece.name}.${along.edge}, and does not join “${along.piece.name}”.`,
      });
    }
    const line = seam.line('overlap');
    const overlap = line?.length('overlap');
    const inset = seam.inset();
    const shank = seam.rivet()?.size()?.shank;
    if (!line || overlap === undefined || inset === undefined || shank === undefined) return;
    const beyond = overlap - inset;
    const least = edgeDistanceOf(shank).least.value;
    if (beyond >= least - 0.05) return;
    const hole = rivetHoleOf(shank).value;
    const misses = beyond <= hole / 2;
    report(placeOf(line, line.filled('overlap') ?? line.line), {
      severity: misses ? undefined : 'warning',
      message: misses
        ? say`The pieces overlap by ${lengthShown(overlap, system)} and the row stands ${lengthShown(inset, system)} in: ${beyond <= 0 ? say`the rivets miss the other piece` : say`the holes break out of the other piece`}.`
        : say`Only ${lengthShown(beyond, system)} of the other piece is left beyond the row: at least ${lengthShown(least, system)} (2 D).`,
      fixes: changingLength(
        line,
        { slot: 'overlap' },
        nextUp(inset + least, line.expressions('overlap')[0]),
        (text) => say`Overlap by ${text}`,
        true,
      ),
    });
  },
};

/** Whether a seam joins the piece that it runs along, or a strip that follows that very edge. */
const joins = (seam: SeamModel, { piece, edge }: Along): boolean =>
  seam.stacks().some(({ layers }) =>
    layers.some(({ piece: layer, named }) => {
      // Something that is not a piece cannot be judged.
      if (!layer) return named?.kind !== 'piece';
      const form = layer.form();
      const band = form ? kindOf(form).band(form) : NONE;
      return layer === piece || (band !== NONE && band.along.toLowerCase() === `${piece.name}.${edge}`.toLowerCase());
    }),
  );

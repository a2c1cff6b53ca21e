import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { replacing } from '../../check.ts';
import { pitchLimitsOf } from '../../support/limits.ts';
import { lengthShown } from '../../support/rivets.ts';
import { changingLength, nextUp, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'pitch-too-close',
  title: 'Rivets stand too close together',
  family: 'Rivets',
  severity: 'warning',
  what: 'The distance from rivet to rivet, with the row divided evenly, is less than three shank diameters.',
  why: 'The plate tears along a row of close holes as paper does, and the heads get in each other’s way.',
  todo: 'Set fewer rivets, or thinner ones.',
  formula: 'p ≥ 3 × D',
  source: 'NAVEDTRA 14018 (US Navy): at least 3 D',
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
  rivets small, every 9 mm, inset 9 mm, peened domed
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
`,
  riveted({ seam, rivet, size }, report, model) {
    const system = model.units();
    const line = seam.rivetsLine()!;
    const pitch = seam.pitch()?.value;
    const count = seam.rivetCount()?.value;
    const least = pitchLimitsOf(size.shank).least.value;
    if (pitch === undefined || count === undefined || pitch >= least - 0.05) return;
    const gaps = seam.isClosed() ? count : count - 1;
    const run = pitch * gaps;
    const fewer = Math.floor(run / least);
    const counted = line.filled('count', 'count');
    const every = line.filled('every', 'every');
    report(placeOf(line, counted ?? every ?? line.line), {
      message: say`Rivets ${lengthShown(pitch, system)} apart are too close for a ${lengthShown(size.shank, system, rivet)} shank: at least ${lengthShown(least, system)} (3 D).`,
      fixes:
        fewer < 1
          ? []
          : counted
            ? [
                replacing(
                  line.file.uri,
                  say`Set ${seam.isClosed() ? fewer : fewer + 1} rivets`,
                  placeOf(line, counted),
                  String(seam.isClosed() ? fewer : fewer + 1),
                  true,
                ),
              ]
            : changingLength(
                line,
                { slot: 'every', qualifier: 'every' },
                nextUp(Math.max(run / fewer, least), line.expressions('every', 'every')[0]),
                (text) => say`Set one every ${text}`,
                true,
              ),
    });
  },
};

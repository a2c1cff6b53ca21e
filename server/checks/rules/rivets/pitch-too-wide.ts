import { say } from '../../../../l10n/say.ts';
import { rulebook } from '../../../model/figures/rulebook.ts';
import type { Check } from '../../check.ts';
import { pitchLimitsOf } from '../../support/limits.ts';
import { lengthShown } from '../../support/rivets.ts';
import { usualFor } from '../../support/usual.ts';
import { changingLength, nextDown, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'pitch-too-wide',
  title: 'Rivets stand too far apart',
  family: 'Rivets',
  severity: 'information',
  what: 'The distance from rivet to rivet is more than the rulebook of the build allows (a warning), or, where no rulebook says, more than ten shank diameters or what is usual for the duty (information: ordinary in armour to exceed). Two rivets alone are no row.',
  why: 'Between far rivets the plates gape, catch and pinch, and each rivet carries more.',
  todo: 'Set more rivets.',
  usual: ['rivet-pitch'],
  formula: 'p ≤ 10 × D, or what the rulebook says',
  source: 'NAVEDTRA 14018 (US Navy): usually 4 to 8 D; an aircraft trade journal allows 10 D; the spec’s own rules',
  example: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  rivets at most 50 mm
material plate
  mild steel 2 mm
rivet large
  mild steel 5 x 12 mm, domed
piece outer
  from plate
  plate 220 x 40 mm
piece inner
  from plate
  plate 220 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets large, every 80 mm, inset 12 mm, peened domed
`,
  better: `build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  rivets at most 50 mm
material plate
  mild steel 2 mm
rivet large
  mild steel 5 x 12 mm, domed
piece outer
  from plate
  plate 220 x 40 mm
piece inner
  from plate
  plate 220 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets large, every 40 mm, inset 12 mm, peened domed
`,
  riveted({ seam, rivet, size }, report, model) {
    const system = model.units();
    const rules = rulebook(model);
    const line = seam.rivetsLine()!;
    const pitch = seam.pitch()?.value;
    if (pitch === undefined) return;
    const limit = rules?.rivets?.value;
    const most = pitchLimitsOf(size.shank).most;
    // A rulebook goes before what is usual for the duty and before ten shanks.
    const duty = limit === undefined ? usualFor(model, 'rivet-pitch') : undefined;
    const shanks = most.high ?? most.value;
    const usual = Math.min(shanks, duty?.value ?? shanks);
    const broken = limit !== undefined && pitch > limit + 0.05;
    // Within its rulebook a row is as its book wants it, and two rivets alone hold what they hold wherever they stand.
    if (!broken && (limit !== undefined || pitch <= usual + 0.05 || (seam.rivetCount()?.value ?? 0) <= 2)) return;
    const at = line.filled('every', 'every') ?? line.filled('count', 'count') ?? line.line;
    const target = broken ? limit : usual;
    report(placeOf(line, at), {
      severity: broken ? 'warning' : undefined,
      message: broken
        ? say`Rivets ${lengthShown(pitch, system)} apart: “${rules!.name}” allows ${lengthShown(limit, system)} at most.`
        : usual < shanks
          ? say`Rivets ${lengthShown(pitch, system)} apart: for ${model.duty()} at most ${lengthShown(usual, system)} is usual.`
          : say`Rivets ${lengthShown(pitch, system)} apart are more than ten shanks (${lengthShown(shanks, system)} for ${lengthShown(size.shank, system, rivet)}): the plates may gape between them.`,
      fixes: changingLength(
        line,
        { slot: 'every', qualifier: 'every' },
        nextDown(target, line.expressions('every', 'every')[0]),
        (text) => say`Set one every ${text}`,
        broken,
      ),
      related: broken ? [{ uri: rules!.named.file.uri, place: rules!.rivets!.line.place, message: rules!.title }] : [],
    });
  },
};

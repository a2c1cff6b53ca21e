import { say } from '../../../../l10n/say.ts';
import type { RivetModel } from '../../../model/things/rivet.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { boughtLong, rivetsInRack } from '../../support/rack.ts';
import { lengthShown, sizedSeam, stackedSeam, stockedLength } from '../../support/rivets.ts';
import { seams } from '../../support/things.ts';

export const check: Check = {
  code: 'rivet-too-long',
  title: 'A rivet is longer than its stack needs',
  family: 'Rivets',
  severity: 'information',
  what: 'The shank is longer than the next length sold above what the thickest stack of the seam needs, even if that stack comes out as thick as it may.',
  why: 'Too much shank bends over instead of upsetting, and the head sits askew. More than one and a half diameters over is a warning; less is cut off before peening.',
  todo: 'Cut it to length before setting, or buy the shorter one.',
  usual: ['rivet-over'],
  formula: 'L = G × (hole/D)² + V(head) ÷ (π/4 × D²)',
  source: 'Volume constancy, with head sizes of DIN 660/661; common practice (no source) for 1.5 D',
  example: `material plate
  mild steel 1.2 mm
rivet small
  brass 4 x 20 mm, domed
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
  better: `material plate
  mild steel 1.2 mm
rivet small
  brass 4 x 8 mm, domed
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
  run(model, report) {
    const seams = stackedSeams(model);
    const most = new Map<RivetModel, number>();
    for (const { rivet, highest } of seams) most.set(rivet, Math.max(most.get(rivet) ?? 0, highest));
    for (const sized of seams) {
      const { rivet, size, place, rivetPlace, highest, enough } = sized;
      if (!enough) continue;
      const there = rivetsInRack(sized, highest, enough.value, model);
      const over = size.length - highest;
      const system = model.units();
      const bends = over > usual('rivet-over') * size.shank;
      report(place, {
        severity: bends ? 'warning' : undefined,
        message: say`“${rivet.name}” is ${lengthShown(size.length, system, rivet)} long and the seam needs at most ${lengthShown(highest, system, rivet)}: ${bends ? say`it bends before it upsets` : say`cut it down`}, or use ${enough.text}.`,
        fixes: [...there, ...(most.get(rivet)! <= enough.value + 0.05 ? boughtLong(rivet, enough, !there.length) : [])],
        related: [{ uri: rivet.named.file.uri, place: rivetPlace, message: say`rivet ${rivet.name}` }],
      });
    }
  },
};

/** Seams with what the thickest stack needs where it comes out as thick as it may, and the length that is enough where theirs is more. */
const stackedSeams = seams.list((seam) => {
  const sized = sizedSeam(seam);
  const stacked = sized && stackedSeam(sized);
  if (!stacked) return [];
  const highest = stacked.stacks.reduce((most, { needed }) => Math.max(most, needed.high ?? needed.value), 0);
  const enough = stockedLength(highest, stacked.rivet);
  const isTooLong = enough !== undefined && stacked.size.length > enough.value + 0.05;
  return [{ ...stacked, highest, enough: isTooLong ? enough : undefined }];
});

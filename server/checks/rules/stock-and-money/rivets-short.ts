import { say } from '../../../../l10n/say.ts';
import { rivetCounts } from '../../../model/figures/rivet-count.ts';
import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'rivets-short',
  title: 'Fewer rivets in the rack than the build takes',
  family: 'Stock and money',
  severity: 'information',
  what: 'All seams of all builds, spares too, take more of a rivet than its pack line says are in the rack.',
  why: 'A rivet of another batch has another head, and it shows on a row.',
  todo: 'Buy the packs that the message names, and a few over: some bend.',
  formula: 'Σ rivets × rows × builds ≤ have',
  source: 'Counts of the seams',
  example: `build "Lames"
  make 4
material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
  pack 50, have 12
piece outer
  from plate
  plate 220 x 40 mm
piece inner
  from plate
  plate 220 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  better: `build "Lames"
  make 4
material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
  pack 50, have 60
piece outer
  from plate
  plate 220 x 40 mm
piece inner
  from plate
  plate 220 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets small, every 28 mm, inset 9 mm, peened domed
`,
  run(model, report) {
    if (!model.buildSection()) return;
    const builds = model.make() + model.spare();
    for (const [rivet, each] of rivetCounts(model)) {
      const count = each * builds;
      const { have, pack } = rivet.pack();
      const line = rivet.line('pack');
      if (have === undefined || !line || have >= count || rivet.named.file !== model.file) continue;
      const packs = pack ? Math.ceil((count - have) / pack) : undefined;
      report(line.place, {
        message: say`The build takes ${count} of “${rivet.name}” and the rack holds ${have}: ${packs ? say`buy ${packs} ${packs === 1 ? say`pack` : say`packs`} of ${pack}` : say`${count - have} are missing`}.`,
      });
    }
  },
};

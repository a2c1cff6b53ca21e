import { say } from '../../../../l10n/say.ts';
import type { Check } from '../../check.ts';
import { finishes, pieces } from '../../support/things.ts';

export const check: Check = {
  code: 'unfinished-piece',
  title: 'Bare steel without a finish',
  family: 'Finish and order',
  severity: 'hint',
  what: 'In a build that has finishes, a piece of carbon steel that none of them is on.',
  why: 'Bare steel rusts in a night of dew, and a finish that is not written is not in the hours.',
  todo: 'Name the piece in a finish, if only to oil it.',
  source: 'Workshop practice',
  example: `build "Brow band"
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
piece nape
  from plate
  strip 280 x 40 mm
finish plain
  on brow
  oil
`,
  better: `build "Brow band"
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
piece nape
  from plate
  strip 280 x 40 mm
finish plain
  on brow, nape
  oil
`,
  run(model, report) {
    if (!model.buildSection() || !model.sectionsOf('finish').length) return;
    const finished = finishedThings(model);
    for (const piece of barePieces(model)) {
      if (finished.has(piece.named.section)) continue;
      report(piece.place, { message: say`“${piece.name}” is bare steel, and no finish is on it.` });
    }
  },
};

const finishedThings = finishes.tally((finish) => finish.on.flatMap((on) => on.named?.section ?? []));

/** Pieces of sheet that rusts. */
const barePieces = pieces.list((piece) => {
  const material = piece.material();
  if (material?.metal()?.family !== 'carbon steel' || material.kind() !== 'sheet') return [];
  return material.zincCoated() || material.plating() || material.metalId() === 'tinplate' ? [] : [piece];
});

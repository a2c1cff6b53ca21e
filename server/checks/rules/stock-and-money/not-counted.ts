import { say } from '../../../../l10n/say.ts';
import { notCounted } from '../../../model/figures/not-counted.ts';
import type { Check } from '../../check.ts';

export const check: Check = {
  code: 'not-counted',
  title: 'Something that is read and counted in no sum',
  family: 'Stock and money',
  severity: 'information',
  ofAll: true,
  what: 'Hardware of a joint, the skin of a soft edge, thread and solder, what a finish lays on, a rivet through a bought part, an hourly rate: the spec says it, and no list, mass or price holds it yet.',
  why: 'A sum that leaves something out looks like any other, and the shop finds out when the box is empty.',
  todo: 'Count it by hand, and add it to the order.',
  source: 'Planish',
  example: `build "Brow band"
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  paint "harbour grey", coats 2
`,
  better: `build "Brow band"
material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish parade
  on brow
  polish
`,
  run(model, report) {
    const found = notCounted(model);
    const [first] = found;
    if (!first) return;
    const build = model.buildSection();
    const at = build?.title ?? build?.header;
    const { uri } = model.file;
    const told = found.slice(0, MOST_TOLD);
    const more = found.length - told.length;
    report(build && at ? { section: build, from: at.from, to: at.to } : first.place, {
      message: say`In no list and no sum yet: ${told.map(({ what }) => what).join('; ')}${more ? say` and ${more} more: the order list has all of them` : ''}.`,
      related: told.map(({ place, what, reason }) => ({ uri, place, message: say`${what}: ${reason}` })),
    });
  },
};

/** So many are told with their places: the whole of a long spec would go to the editor anew at every key. */
const MOST_TOLD = 12;

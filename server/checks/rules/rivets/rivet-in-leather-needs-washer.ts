import { say } from '../../../../l10n/say.ts';
import { trim } from '../../../model/values/show.ts';
import { addingLine, type Check } from '../../check.ts';
import { outermost } from '../../support/rivets.ts';
import { appending, upTo } from '../../support/writing.ts';

export const check: Check = {
  code: 'rivet-in-leather-needs-washer',
  title: 'A head is peened on bare leather',
  family: 'Rivets',
  severity: 'warning',
  what: 'On the side where the head is made by hand, the last layer is leather, felt or foam, and no washer lies on it.',
  why: 'The made head is little wider than its hole: under load it pulls straight through the leather.',
  todo: 'Put a washer (burr) over the shank: hole as the shank, outside 2.2 to 2.5 diameters.',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
material flap-leather
  veg-tan leather 7 oz
rivet small
  brass 4 x 10 mm, domed
piece outer
  from plate
  plate 120 x 40 mm
piece flap
  from flap-leather
  plate 120 x 60 mm
seam hang
  joins outer, flap
  along outer.top
  rivets small, every 28 mm, inset 12 mm, peened domed
`,
  better: `material plate
  mild steel 1.5 mm
material flap-leather
  veg-tan leather 7 oz
rivet small
  brass 4 x 10 mm, domed
  washer 10 x 0.8 mm
piece outer
  from plate
  plate 120 x 40 mm
piece flap
  from flap-leather
  plate 120 x 60 mm
seam hang
  joins outer, flap
  along outer.top
  rivets small, every 28 mm, inset 12 mm, peened domed, washer inside
`,
  riveted({ seam, rivet, size, place, stacks }, report) {
    const line = seam.rivetsLine()!;
    const side = seam.headInside() ? 'outside' : 'inside';
    const laid = line.has('washer') ? (line.word('outside', 'washer') ? 'outside' : 'inside') : undefined;
    if (laid === side) return;
    const stack = stacks.find((each) => each.layers.length > 1 && outermost(each, side)?.soft);
    if (!stack) return;
    const leather = outermost(stack, side)!;
    const stock = rivet.stock();
    const fix = laid ? undefined : appending(line, `washer ${side}`, say`Put a washer ${side}`, true);
    // The rivet needs a washer of its own to be laid: about 2.4 shanks wide.
    const wide = trim(upTo(2.4 * size.shank, 1), 0);
    const washer =
      fix && stock && !rivet.washer()
        ? addingLine(rivet.named.file.uri, '', stock.place, `washer ${wide} x 0.8 mm`).edits
        : [];
    report(place, {
      message: say`The head of “${rivet.name}” is peened on “${leather.name}”, which is soft: it pulls through without a washer ${side}.`,
      fixes: fix ? [{ ...fix, edits: [...fix.edits, ...washer] }] : [],
      related: [{ uri: seam.named.file.uri, place: stack.line.place, message: 'The stack' }],
    });
  },
};

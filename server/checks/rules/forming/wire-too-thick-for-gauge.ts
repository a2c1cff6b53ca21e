import { say } from '../../../../l10n/say.ts';
import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { changingLength, downTo, isOwn, placeIn, upTo } from '../../support/writing.ts';

export const check: Check = {
  code: 'wire-too-thick-for-gauge',
  title: 'A wire that does not go with its sheet',
  family: 'Forming',
  severity: 'warning',
  what: 'The wire of a wired edge is more than six times as thick as the sheet, or thinner than the sheet. Under one and a half thicknesses it is information.',
  why: 'Thin sheet buckles round a thick wire and does not grip it; and plate will not close round a wire thinner than itself.',
  todo: 'Take a wire of two to four thicknesses.',
  usual: ['wire-sheets', 'wire-grip'],
  formula: 't ≤ d ≤ 6 × t',
  source: 'Common practice (no source)',
  example: `material plate
  mild steel 0.6 mm
material edge-wire
  mild steel wire 5 mm
piece brow
  from plate
  strip 300 x 60 mm
  edge bottom rolled over edge-wire
`,
  better: `material plate
  mild steel 0.6 mm
material edge-wire
  mild steel wire 2 mm
piece brow
  from plate
  strip 300 x 60 mm
  edge bottom rolled over edge-wire
`,
  piece(piece, report, model) {
    const system = model.units();
    const thickness = piece.thickness();
    if (thickness === undefined || piece.material()?.kind() !== 'sheet') return;
    for (const { line, wire } of piece.edgeWorks()) {
      const diameter = wire?.thickness()?.value;
      if (!wire || diameter === undefined) continue;
      const thick = diameter > usual('wire-sheets') * thickness + 0.02;
      if (!thick && diameter >= usual('wire-grip') * thickness - 0.02) continue;
      const thin = diameter < thickness - 0.02;
      const stock = wire.stock();
      const better = thick ? downTo(4 * thickness, 0.5) : upTo(2 * thickness, 0.5);
      report(placeIn(piece, line, line.filled('wire')), {
        severity: thick || thin ? undefined : 'information',
        message: thick
          ? say`“${wire.name}” (${show(diameter, 'mm', system)}) is ${(diameter / thickness).toFixed(1)} times as thick as the ${show(thickness, 'mm', system)} sheet, which will buckle round it: take ${show(2 * thickness, 'mm', system)} to ${show(4 * thickness, 'mm', system)}.`
          : say`“${wire.name}” (${show(diameter, 'mm', system)}) is thin for ${show(thickness, 'mm', system)} plate, which ${thin ? say`will not close` : say`hardly closes`} round it: take ${show(2 * thickness, 'mm', system)} or more.`,
        fixes:
          stock?.expressions('thickness')[0] &&
          stock.quantity('thickness')?.dimension === 'length' &&
          isOwn(piece, line)
            ? changingLength(stock, { slot: 'thickness' }, better, (text) => say`Make ${wire.name} ${text}`)
            : [],
        related: [{ uri: wire.named.file.uri, place: stock!.place, message: say`material ${wire.name}` }],
      });
    }
  },
};

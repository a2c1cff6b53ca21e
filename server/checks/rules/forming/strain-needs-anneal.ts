import { say } from '../../../../l10n/say.ts';
import { homeOf } from '../../../model/spec.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { trim } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { addingLine } from '../../check.ts';
import { usualFor } from '../../support/usual.ts';
import { addingBefore, counted, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'strain-needs-anneal',
  title: 'A form that wants an anneal on the way',
  family: 'Forming',
  severity: 'information',
  what: 'The strain of the whole form is more than the metal takes before an anneal is due, and the piece has no anneal line. In a build with a duty also a soft steel crown that thins more than is usual.',
  why: 'Work-hardened metal springs back, fights the hammer and at last cracks. Heats also have to be planned: torch, scale, time.',
  todo: 'Add an anneal line where it will be done.',
  usual: ['thinning-mind', 'thinning-stop'],
  formula: 'anneals = ε ÷ ε(allowed), rounded up, less 1',
  source: 'Strain before an anneal: common practice (no source); strain: least energy of the way of working',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 200 mm, deep 95 mm
  raise
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 200 mm, deep 95 mm
  anneal
  raise
`,
  piece(piece, report) {
    if (piece.line('anneal')) return;
    const anneals = piece.figure('anneals');
    if (!anneals || (anneals.high ?? anneals.value) < 1) return;
    const onZinc = piece.material()?.zincCoated() ?? false;
    if (anneals.value < 1) {
      const { line } = piece.method();
      const thinning = thinningOf(piece);
      const mind = usualFor(homeOf(piece), 'thinning-mind')?.value;
      if (thinning === undefined || mind === undefined || thinning <= mind) return;
      const stop = usualFor(homeOf(piece), 'thinning-stop')!.value;
      report(placeIn(piece, line ?? piece.formLine()), {
        severity: thinning > stop ? 'warning' : undefined,
        message: say`The crown of “${piece.name}” thins by ${trim(thinning, 0)} % without an anneal: past ${mind} % it wants watching, past ${stop} % it goes too far.${onZinc ? ZINC : ''}`,
        fixes: line && isOwn(piece, line) && !onZinc ? [addingBefore(line, 'anneal', 'Add an anneal')] : [],
      });
      return;
    }
    const strain = Math.max(
      Math.abs(piece.figure('strain.crown')?.value ?? 0),
      Math.abs(piece.figure('strain.edge')?.value ?? 0),
      piece.figure('strain.most')?.value ?? 0,
    );
    const { line } = piece.method();
    const form = piece.formLine();
    const low = anneals.low ?? anneals.value;
    const range =
      anneals.low !== undefined && anneals.high !== undefined && anneals.low !== anneals.high
        ? say` (${anneals.low} to ${anneals.high})`
        : '';
    report(placeIn(piece, line ?? form), {
      message: say`“${piece.name}” strains to ${trim(strain, 2)}, which ${low < 1 ? say`may want` : say`wants`} ${counted(anneals.value, 'anneal')}${range} on the way: the spec has none.${onZinc ? ZINC : ''}`,
      fixes: onZinc
        ? []
        : line && isOwn(piece, line)
          ? [addingBefore(line, 'anneal', 'Add an anneal')]
          : form && isOwn(piece, form)
            ? [addingLine(form.file.uri, 'Add an anneal', form.place, 'anneal')]
            : [],
    });
  },
};

/** To anneal is to heat: what is said of the one is said with the other. */
const ZINC =
  ' It is zinc coated, and heated zinc gives a fume that makes ill: strip the zinc first, or take bare steel.';

/** How much soft steel thins at the crown, percent; nothing for other metals, which harden by their own measure. */
function thinningOf(piece: PieceModel): number | undefined {
  const crown = piece.figure('thickness.crown');
  const start = piece.thickness();
  const metal = piece.material()?.metal();
  if (!crown || start === undefined || !metal?.keelerHolds) return undefined;
  return 100 * (1 - crown.value / start);
}

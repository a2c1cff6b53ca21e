import { say } from '../../../../l10n/say.ts';
import { trim } from '../../../model/values/show.ts';
import { metal as metalOf } from '../../../trade/metal/metals.ts';
import { type Interval, intervalOf, through } from '../../../trade/reckoning/interval.ts';
import type { Check } from '../../check.ts';
import { formingLimitOf } from '../../support/limits.ts';
import { inWords, isOver } from '../../support/sure.ts';
import { addingBefore, counted, isOwn, placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'strain-past-limit',
  title: 'A stretch that the metal does not bear',
  family: 'Forming',
  severity: 'warning',
  what: 'The thinning at the crown as true strain, or the stretch of the crest of a comb from one strip, shared over the anneals that the piece has, is more than the metal bears in one go: its forming limit for soft steel, else its elongation at break. Past the most favourable figure it is an error.',
  why: 'It cracks at the crown, after most of the work is done.',
  todo: 'Anneal before and between, take softer stock, or raise instead of dishing.',
  formula: 'ε(crown) ÷ (anneals + 1) ≤ ln(1 + A/100)',
  source: 'Keeler and Brazier (from memory) for soft steel; elongation from the metal table',
  example: `material binding
  brass 1.2 mm, hard
piece boss
  from binding
  dome 120 mm, deep 38 mm
  dish
`,
  better: `material binding
  brass 1.2 mm, soft
piece boss
  from binding
  dome 120 mm, deep 38 mm
  dish
`,
  piece(piece, report) {
    const thickness = piece.thickness();
    const bought = piece.material()?.metal();
    if (!bought || thickness === undefined) return;
    const crown = piece.figure('thickness.crown');
    const crest = piece.figure('crest.strain');
    if (!(crown ?? crest)) return;
    const heats = piece.all('anneal').length;
    const grade = bought.grade ? { grade: bought.grade } : {};
    const metal = heats ? metalOf(bought.id, { ...grade, temper: 'soft' }) : bought;
    const limit = metal.keelerHolds ? formingLimitOf(thickness, metal.hardening.value) : logOf(metal.elongation);
    const stretch = crown
      ? through((left) => Math.max(0, Math.log(thickness / left!)) / (heats + 1), intervalOf(crown))
      : through((strain) => strain! / (heats + 1), intervalOf(crest!));
    const sure = isOver(stretch, limit, 1e-6);
    // The held rim at the unkind end is the matter of dome-too-deep-for-gauge.
    if (!sure || sure === 'may') return;
    const share = stretch.value;
    const { line } = piece.method();
    report(placeIn(piece, line ?? piece.formLine()), {
      severity: sure === 'cannot' ? 'error' : undefined,
      message: say`The ${crown ? say`crown` : say`crest`} of “${piece.name}” ${inWords(sure, 'stretches', 'is likely to stretch')} by ${trim(share, 2)}${heats ? say` after each of ${counted(heats, 'anneal')}` : ''}, and ${metal.title} (${metal.temper}) bears ${trim(limit.value, 2)} in one go: ${heats ? say`anneal more often` : say`anneal it first`}, or ${crown ? say`make it shallower` : say`make it lower, or of two crescents`}.`,
      fixes: line && isOwn(piece, line) ? [addingBefore(line, 'anneal', 'Anneal it first')] : [],
    });
  },
};

const logOf = (elongation: { value: number; low?: number; high?: number }): Interval =>
  through((percent) => Math.log1p(percent! / 100), intervalOf(elongation));

import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import { type Check, replacing } from '../../check.ts';
import { formingLimitOf } from '../../support/limits.ts';
import { inWords, isUnder } from '../../support/sure.ts';
import { isOwn, placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'dome-too-deep-for-gauge',
  title: 'A dish too deep for its sheet',
  family: 'Forming',
  severity: 'warning',
  what: 'Dished so deep, the crown may end at less than half of the thickness it started from, if the rim does not draw in under the hammer. It happens from about seven tenths of the half diameter. As information also where soft steel of that gauge would thin so by more than it bears in one go, and one more for each anneal.',
  why: 'The crown takes the blows in use, and it is the place where dishing takes the metal away. Past this it cracks before it is deep enough.',
  todo: 'Raise it, or dish first and then raise; or make it shallower.',
  usual: ['crown-left'],
  formula: 't(low) ≥ t₀ ÷ 2 and ≥ t₀ × exp(−ε(t₀) × (anneals + 1)), with the rim held',
  source:
    'Least energy with the rim held, fitted to Chakrabarty and Alexander 1970 (from memory); half is common practice (no source); what a gauge bears by Keeler and Brazier (from memory)',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 200 mm, deep 85 mm
  dish
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 200 mm, deep 85 mm
  dish then raise
`,
  piece(piece, report, model) {
    const system = model.units();
    const { method, line } = piece.method();
    const crown = piece.figure('thickness.crown');
    const start = piece.thickness();
    const metal = piece.material()?.metal();
    if (method !== 'dish' || !line || crown?.low === undefined || start === undefined) return;
    const domed = piece.domed();
    // From a half sphere on, no dishing reaches it: that is another check.
    if (domed && domed.deep >= domed.wide / 2) return;
    const half = (start * usual('crown-left')) / 100;
    const sure = isUnder(crown, half);
    const heats = piece.all('anneal').length;
    // In one go a thin sheet bears less than a thick one; each anneal is another go.
    const borne = metal?.keelerHolds
      ? start * Math.exp(-(heats + 1) * formingLimitOf(start, metal.hardening.value).value)
      : undefined;
    const byGauge = !sure && borne !== undefined && borne > half ? isUnder(crown, borne) : undefined;
    if (!sure && byGauge !== 'may') return;
    const deep = domed ? ` ${show(domed.deep, 'mm', system)} deep` : '';
    const ends = sure ?? 'may';
    const left = ends === 'cannot' ? crown.value : crown.low;
    const even = ends === 'cannot' ? '' : ` (${show(crown.value, 'mm', system)} if the rim draws in evenly)`;
    const gauge = sure
      ? ''
      : ` Sheet of this gauge bears it down to ${show(borne!, 'mm', system)}${heats ? '' : ' in one go'}.`;
    report(placeIn(piece, line), {
      severity: sure ? undefined : 'information',
      message: `Dished${deep}, the crown of “${piece.name}” ${inWords(ends, 'thins', 'may thin')} from ${show(start, 'mm', system)} to ${show(left, 'mm', system)}${even}: ${sure ? 'raise it, or dish and then raise' : 'let the rim draw in, or anneal on the way'}.${gauge}`,
      fixes: isOwn(piece, line)
        ? [replacing(line.file.uri, 'Dish, then raise', placeOf(line, line.line), 'dish then raise')]
        : [],
    });
  },
};

import { say } from '../../../../l10n/say.ts';
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
  what: 'Dished so deep, the crown may end at less than half of the thickness it started from, if the rim does not draw in under the hammer. It happens from about seven tenths of the half diameter. Soft steel under some 1.1 mm bears less than that half in two goes, with an anneal between them, and is held to what it bears; each further anneal is another go.',
  why: 'The crown takes the blows in use, and it is the place where dishing takes the metal away. Past this it cracks before it is deep enough.',
  todo: 'Raise it, or dish first and then raise; or make it shallower.',
  usual: ['crown-left'],
  formula: 't(low) ≥ t₀ ÷ 2 and ≥ t₀ × exp(−ε(t₀) × goes), with the rim held',
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
    const domed = piece.domed();
    const start = piece.thickness();
    const metal = piece.material()?.metal();
    if (method !== 'dish' || !line || start === undefined) return;
    // A dome is thinnest at its crown, another form where it is rounded most.
    const crown = piece.figure(domed ? 'thickness.crown' : 'thickness.least');
    if (crown?.low === undefined) return;
    // From a half sphere on, no dishing reaches it: that is another check.
    if (domed && domed.deep >= domed.wide / 2) return;
    // A thin sheet bears less in one go than a thick one; one anneal on the way is taken for granted.
    const goes = Math.max(2, piece.all('anneal').length + 1);
    const borne = metal?.keelerHolds ? Math.exp(-goes * formingLimitOf(start, metal.hardening.value).value) : 0;
    const half = usual('crown-left') / 100;
    const sure = isUnder(crown, start * Math.max(half, borne));
    if (!sure) return;
    const deep = domed ? say` ${show(domed.deep, 'mm', system)} deep` : '';
    const left = sure === 'cannot' ? crown.value : crown.low;
    const even = sure === 'cannot' ? '' : say` (${show(crown.value, 'mm', system)} if the rim draws in evenly)`;
    const gauge =
      borne > half
        ? say` Sheet of this gauge bears it down to ${show(start * borne, 'mm', system)}, annealed ${goes > 2 ? say`${goes - 1} times` : say`once`}.`
        : '';
    report(placeIn(piece, line), {
      message: say`Dished${deep}, ${domed ? say`the crown` : say`the thinnest place`} of “${piece.name}” ${inWords(sure, 'thins', 'may thin')} from ${show(start, 'mm', system)} to ${show(left, 'mm', system)}${even}: raise it, or dish and then raise.${gauge}`,
      fixes: isOwn(piece, line)
        ? [replacing(line.file.uri, 'Dish, then raise', placeOf(line, line.line), 'dish then raise')]
        : [],
    });
  },
};

import { show } from '../../../model/values/show.ts';
import { usual } from '../../../trade/usual/practice.ts';
import { type Check, replacing } from '../../check.ts';
import { inWords, isUnder } from '../../support/sure.ts';
import { isOwn, placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'dome-too-deep-for-gauge',
  title: 'A dish too deep for its sheet',
  family: 'Forming',
  severity: 'warning',
  what: 'Dished so deep, the crown may end at less than half of the thickness it started from, if the rim does not draw in under the hammer. It happens from about seven tenths of the half diameter.',
  why: 'The crown takes the blows in use, and it is the place where dishing takes the metal away. Past this it cracks before it is deep enough.',
  todo: 'Raise it, or dish first and then raise; or make it shallower.',
  usual: ['crown-left'],
  formula: 't(low) ≥ t₀ ÷ 2, with the rim held',
  source:
    'Least energy with the rim held, fitted to Chakrabarty and Alexander 1970 (from memory); half is common practice (no source)',
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
    const domed = piece.domed();
    if (method !== 'dish' || !line || !crown || crown.low === undefined || start === undefined) return;
    if (!domed) return;
    const half = domed.wide / 2;
    // From a half sphere on, no dishing reaches it: that is another check.
    const sure = isUnder(crown, (start * usual('crown-left')) / 100);
    if (!sure || domed.deep >= half) return;
    report(placeIn(piece, line), {
      message: `Dished ${show(domed.deep, 'mm', system)} deep, the crown of “${piece.name}” ${inWords(sure, 'thins', 'may thin')} from ${show(start, 'mm', system)} to ${show(sure === 'cannot' ? crown.value : crown.low, 'mm', system)}${sure === 'cannot' ? '' : ` (${show(crown.value, 'mm', system)} if the rim draws in evenly)`}: raise it, or dish and then raise.`,
      fixes: isOwn(piece, line)
        ? [replacing(line.file.uri, 'Dish, then raise', placeOf(line, line.line), 'dish then raise')]
        : [],
    });
  },
};

import { say } from '../../../../l10n/say.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import { usual } from '../../../trade/usual/practice.ts';
import type { Check } from '../../check.ts';
import { isOwn, placeIn, removingQualifier } from '../../support/writing.ts';

export const check: Check = {
  code: 'opening-before-forming',
  title: 'A hole that forming pulls out of shape',
  family: 'Forming',
  severity: 'warning',
  what: 'An opening is made in the flat blank of a piece that is dished or raised, where the metal moves by 5 % or more.',
  why: 'A round hole comes out oval and in another place, and a slot is where the crack begins.',
  todo: 'Cut it after forming; leave “before forming” for pieces that are only bent.',
  usual: ['opening-moves'],
  formula: '|ε| ≥ 0.05 at the crown or the rim',
  source: 'Strain by the least energy of the way of working; the limit is common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 50 mm
  dish
  slot eye 60 x 12 mm, at 40 mm from rim, before forming
`,
  better: `material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 50 mm
  dish
  slot eye 60 x 12 mm, at 40 mm from rim
`,
  piece(piece, report) {
    if (!piece.openings().some(({ beforeForming }) => beforeForming)) return;
    const crown = piece.figure('strain.crown');
    const edge = piece.figure('strain.edge');
    if (!crown || !edge) return;
    const ends = [intervalOf(crown), intervalOf(edge)];
    const likely = Math.max(...ends.map(({ value }) => Math.abs(value)));
    const most = Math.max(...ends.flatMap(({ low, high }) => [Math.abs(low), Math.abs(high)]));
    const limit = usual('opening-moves') / 100;
    if (most < limit) return;
    const sure = likely >= limit;
    const strain = sure ? likely : most;
    for (const { line, beforeForming } of piece.openings()) {
      const bound = line.bound('before forming');
      if (!beforeForming || !bound) continue;
      report(placeIn(piece, line, bound), {
        severity: sure ? undefined : 'information',
        message: say`“${piece.name}” ${sure ? say`moves` : say`may move`} by up to ${Math.round(Math.expm1(strain) * 100)} % in forming: cut this opening after it.`,
        fixes: isOwn(piece, line) ? removingQualifier(line, 'before forming', 'Cut it after forming', true) : [],
      });
    }
  },
};

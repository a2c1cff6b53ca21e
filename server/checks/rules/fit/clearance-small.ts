import { fitOf, insideGirth } from '../../../model/figures/fit.ts';
import { rulebook } from '../../../model/figures/rulebook.ts';
import { show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { usualFor } from '../../support/usual.ts';
import { changingLength, isOwn, placeIn, written } from '../../support/writing.ts';

export const check: Check = {
  code: 'clearance-small',
  title: 'Too little room between body and plate',
  family: 'Fit',
  severity: 'warning',
  what: 'The room beside the liner, all round, in front or at the side, is less than nothing; or the liner is thinner than the padding that the rulebook asks for. For a head also: liner and ease together, or the liner alone, are less than is usual for the duty (information).',
  why: 'A plate that touches bone passes every blow on, and one that is too tight does not go on at all.',
  todo: 'Make the form larger, or the liner thinner; pad it where the rulebook asks.',
  formula: '(inside − body)/2 − liner ≥ 0',
  usual: ['head-clearance', 'head-liner'],
  source: 'Geometry; the spec’s own rules; what is usual is common practice (no source)',
  example: `wearer fighter
  forearm round 300 mm
material plate
  mild steel 1.2 mm
piece vambrace
  from plate
  fits fighter forearm, liner 6 mm
  cylinder round 320 mm, high 180 mm, inside
  edge top rolled, hollow 5 mm
  edge bottom rolled, hollow 5 mm
`,
  better: `wearer fighter
  forearm round 300 mm
material plate
  mild steel 1.2 mm
piece vambrace
  from plate
  fits fighter forearm, liner 6 mm
  cylinder round 350 mm, high 180 mm, inside
  edge top rolled, hollow 5 mm
  edge bottom rolled, hollow 5 mm
`,
  piece(piece, report, model) {
    const system = model.units();
    const rules = rulebook(model);
    const fit = fitOf(piece);
    if (!fit) return;
    const { line, liner, ease, region } = fit;
    const place = placeIn(piece, line);
    for (const suffix of ['', '.front-back', '.side']) {
      const room = piece.figure(`clearance${suffix}`);
      // Whether the head goes in at all is another check.
      if (!room || (suffix === '' && region === 'head' && insideGirth(piece) !== undefined)) continue;
      if (room.value >= -0.05) continue;
      report(placeIn(piece, piece.formLine()), {
        message: `“${piece.name}” is ${show(-room.value, 'mm', system)} too tight for “${fit.wearer.name}” ${WHERE[suffix]}, over a liner of ${show(liner, 'mm', system)}.`,
        related: [{ uri: line.file.uri, place: line.place, message: 'Whom it fits' }],
      });
    }
    const padding = rules?.padding;
    if (rules && padding && liner < padding.value - 0.05) {
      report(place, {
        message: `A liner of ${show(liner, 'mm', system)}: “${rules.name}” asks for ${show(padding.value, 'mm', system)} of padding.`,
        fixes:
          line.has('liner') && isOwn(piece, line)
            ? changingLength(
                line,
                { slot: 'liner', qualifier: 'liner' },
                padding.value,
                () => `Make the liner ${written(padding.value, undefined)}`,
              )
            : [],
        related: [{ uri: rules.named.file.uri, place: padding.line.place, message: rules.title }],
      });
      return;
    }
    if (region !== 'head') return;
    const [clear, lined] = [usualFor(model, 'head-clearance'), padding ? undefined : usualFor(model, 'head-liner')];
    const thin = lined && liner < lined.value - 0.05 ? lined : undefined;
    const near = clear && liner + ease < clear.value - 0.05 ? clear : undefined;
    const least = near ?? thin;
    if (least)
      report(place, {
        severity: 'information',
        message: near
          ? `Liner and ease are ${show(liner + ease, 'mm', system)} together: for ${model.duty()} at least ${show(least.value, 'mm', system)} is usual on a head.`
          : `A liner of ${show(liner, 'mm', system)}: for ${model.duty()} at least ${show(least.value, 'mm', system)} is usual on a head.`,
      });
  },
};

const WHERE: Readonly<Record<string, string>> = {
  '': 'all round',
  '.front-back': 'in front and behind',
  '.side': 'at the sides',
};

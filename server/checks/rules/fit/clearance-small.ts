import { say } from '../../../../l10n/say.ts';
import { type Fit, fitOf, fitsOf, isClosedRound, levelOf, saysLevel } from '../../../model/figures/fit.ts';
import { rulebook } from '../../../model/figures/rulebook.ts';
import type { PieceModel } from '../../../model/things/piece.ts';
import { type System, show } from '../../../model/values/show.ts';
import { intervalOf } from '../../../trade/reckoning/interval.ts';
import type { Check, Report } from '../../check.ts';
import { usualFor } from '../../support/usual.ts';
import { appending, changingLength, isOwn, nextDown, placeIn, written } from '../../support/writing.ts';

export const check: Check = {
  code: 'clearance-small',
  title: 'Too little room between body and plate',
  family: 'Fit',
  severity: 'warning',
  what: 'The room beside the liner, all round, in front or at the side, is less than nothing at the height of a `fits` line, or between two of them with the body straight between; it may be where nothing says the height (information); it is less than the ease that the line asks for (information); or the liner is thinner than the padding that the rulebook asks for. For a head also: liner and ease together, or the liner alone, are less than is usual for the duty (information).',
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
    for (const each of fitsOf(piece)) reportRoom(piece, each, report, system);
    reportBetween(piece, report, system);
    const { line, liner, ease, region } = fit;
    const place = placeIn(piece, line);
    const padding = rules?.padding;
    if (rules && padding && liner < padding.value - 0.05) {
      report(place, {
        message: say`A liner of ${show(liner, 'mm', system)}: “${rules.name}” asks for ${show(padding.value, 'mm', system)} of padding.`,
        fixes:
          line.has('liner') && isOwn(piece, line)
            ? changingLength(
                line,
                { slot: 'liner', qualifier: 'liner' },
                padding.value,
                () => say`Make the liner ${written(padding.value, undefined)}`,
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
          ? say`Liner and ease are ${show(liner + ease, 'mm', system)} together: for ${model.duty()} at least ${show(least.value, 'mm', system)} is usual on a head.`
          : say`A liner of ${show(liner, 'mm', system)}: for ${model.duty()} at least ${show(least.value, 'mm', system)} is usual on a head.`,
      });
  },
};

/** The room at the height of one `fits` line: less than nothing, or less than the ease that is asked for. */
function reportRoom(piece: PieceModel, fit: Fit, report: Report, system: System): void {
  const { line, liner, ease, region, suffix: own, wearer } = fit;
  const told = (room: number) => show(room, 'mm', system);
  const related = [{ uri: line.file.uri, place: line.place, message: 'Whom it fits' }];
  const who = `“${piece.name}” ${own ? `${levelWords(piece, fit)} ` : ''}`;
  for (const suffix of ['', '.front-back', '.side']) {
    const room = piece.figure(`clearance${own}${suffix}`);
    // Whether the head goes in at all is another check.
    if (!room || (suffix === '' && region === 'head' && isClosedRound(piece))) continue;
    const { low } = intervalOf(room);
    if (room.value < -SLACK)
      report(placeIn(piece, piece.formLine()), {
        message: say`${who}is ${told(-room.value)} too tight for “${wearer.name}” ${WHERE[suffix]}, over a liner of ${told(liner)}.`,
        related,
      });
    else if (low < -SLACK)
      report(placeIn(piece, line), {
        severity: 'information',
        message: saysLevel(fit)
          ? say`${who}may be ${told(-low)} too tight for “${wearer.name}” ${WHERE[suffix]}, over a liner of ${told(liner)}.`
          : say`“${piece.name}” has ${told(room.value)} of room for the ${region} of “${wearer.name}” ${levelWords(piece, fit)}, and is ${told(-low)} too tight at its narrowest: say where the ${region} is, and give the other end a line of its own.`,
        fixes:
          !saysLevel(fit) && isOwn(piece, line)
            ? endsOf(piece).map((edge) => appending(line, `along ${edge}`, say`The ${region} is along ${edge}`))
            : [],
      });
    else if (line.has('ease') && room.value < ease - EASE_SLACK)
      report(placeIn(piece, line, line.filled('ease', 'ease')), {
        severity: 'information',
        message: say`${who}leaves ${told(room.value)} ${WHERE[suffix]} besides the liner, of the ${told(ease)} of ease that is asked for.`,
        fixes: isOwn(piece, line)
          ? changingLength(
              line,
              { slot: 'ease', qualifier: 'ease' },
              nextDown(room.value, line.expressions('ease', 'ease')[0]),
              (text) => say`Ask for ${text} of ease`,
            )
          : [],
      });
  }
}

/** Between the heights of two lines it can be tighter than at both. */
function reportBetween(piece: PieceModel, report: Report, system: System): void {
  const fits = fitsOf(piece);
  if (fits.length < 2) return;
  const least = piece.figure('clearance');
  if (
    !least ||
    least.value >= -SLACK ||
    fits.some(({ suffix }) => least.inputs[0] === `${piece.name}.clearance${suffix}`)
  )
    return;
  report(placeIn(piece, piece.formLine()), {
    message: say`“${piece.name}” is ${show(-least.value, 'mm', system)} too tight between what its fits lines tell of: ${least.title}.`,
  });
}

const levelWords = (piece: PieceModel, fit: Fit): string => {
  const level = levelOf(piece, fit);
  return level && 'words' in level ? level.words : '';
};

const endsOf = (piece: PieceModel): readonly string[] =>
  ['top', 'bottom', 'rim'].filter((edge) => piece.edgeNames().includes(edge));

const SLACK = 0.05;
/** Nobody bends plate to less than this, mm. */
const EASE_SLACK = 0.25;

const WHERE: Readonly<Record<string, string>> = {
  '': 'all round',
  '.front-back': 'in front and behind',
  '.side': 'at the sides',
};

import { say } from '../../../../l10n/say.ts';
import type { Model } from '../../../model/spec.ts';
import { show } from '../../../model/values/show.ts';
import type { Check, Report } from '../../check.ts';
import { type HotStep, hotStepsOfFinish, hotStepsOfPiece, hotStepsOfSeam } from '../../support/heat.ts';
import { placeIn } from '../../support/writing.ts';

export const check: Check = {
  code: 'heat-after-temper',
  title: 'Heat that draws a temper',
  family: 'Forming',
  severity: 'warning',
  what: 'A piece that was tempered is annealed after it, welded or soldered, or blued at a higher heat than it was tempered at.',
  why: 'Every heat above the temper softens the piece for good: the spring is gone, and nothing shows it.',
  todo: 'Do the hot work first and harden last, or hold the later heat below the temper.',
  source: 'Workshop practice; temper colours of a public-domain heat treatment book',
  example: `material plate
  spring steel 1.5 mm, grade "1050"
piece brow
  from plate
  strip 300 x 40 mm
  harden 830 C, quench oil
  temper 240 C
finish blued
  on brow
  blue 300 C
`,
  better: `material plate
  spring steel 1.5 mm, grade "1050"
piece brow
  from plate
  strip 300 x 40 mm
  harden 830 C, quench oil
  temper 320 C
finish blued
  on brow
  blue 300 C
`,
  piece(piece, report, model) {
    for (const step of hotStepsOfPiece(piece)) judge(step, report, model);
  },
  seam(seam, report, model) {
    for (const step of hotStepsOfSeam(seam)) judge(step, report, model);
  },
  finish(finish, report, model) {
    for (const step of hotStepsOfFinish(finish, model)) judge(step, report, model);
  },
};

function judge(step: HotStep, report: Report, model: Model): void {
  if (step.kind === 'harden' || step.kind === 'temper') return;
  const system = model.units();
  for (const piece of step.pieces) {
    const temper = piece.line('temper');
    const heat = temper?.measure('temperature', 'heat');
    if (!temper || !piece.material()?.metal()?.hardens) continue;
    if (step.kind === 'anneal') {
      const lines = piece.lines();
      if (lines.findIndex(({ line }) => line === step.line.line) < lines.indexOf(temper)) continue;
    } else if (step.kind === 'blue' || step.kind === 'blacken') {
      const later = step.line.measure('temperature', 'heat');
      if (heat === undefined || later === undefined || later <= heat) continue;
      report(step.place, {
        message: say`Bluing at ${show(later, 'C', system)} draws the temper of “${piece.name}” (${show(heat, 'C', system)}).`,
        related: [
          { uri: piece.named.file.uri, place: placeIn(piece, temper), message: say`${piece.name} is tempered here` },
        ],
      });
      break;
    }
    report(step.place, {
      message: say`“${piece.name}” was tempered${heat === undefined ? '' : say` at ${show(heat, 'C', system)}`}: ${WORDS[step.kind]} takes its hardness away.`,
      related: [
        { uri: piece.named.file.uri, place: placeIn(piece, temper), message: say`${piece.name} is tempered here` },
      ],
    });
    break;
  }
}

const WORDS = {
  anneal: 'annealing',
  weld: 'welding',
  solder: 'soldering',
  blue: 'bluing',
  blacken: 'blackening by heat',
};

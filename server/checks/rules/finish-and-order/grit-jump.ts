import { say, translated } from '../../../../l10n/say.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import { numberOf } from '../../../model/values/quantity.ts';
import { trim } from '../../../model/values/show.ts';
import { gritRatio, gritSize } from '../../../trade/finish/finish.ts';
import { usual } from '../../../trade/usual/practice.ts';
import { type Check, replacing } from '../../check.ts';
import { addingBefore, placeOf } from '../../support/writing.ts';

/** How many times finer a step may be. */
const STEP = usual('grit-step');

export const check: Check = {
  code: 'grit-jump',
  title: 'A step of grit that is too large',
  family: 'Finish and order',
  severity: 'warning',
  what: 'From one grit to the next the grain gets more than twice as fine, or coarser again. Grain is compared in micrometres, by the FEPA P table, since the numbers themselves do not run evenly and P and CAMI part from 240 up. A polish that follows a paper coarser than 240 is told too.',
  why: 'The finer grit never reaches the bottom of the coarse scratches: they show through the polish.',
  todo: 'Put a grit in between.',
  usual: ['grit-step', 'polish-grit'],
  formula: 'grain ÷ next grain ≤ 2',
  source: 'FEPA P (ISO 6344) grain sizes; a step of 1.5 to 2 is common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish bright
  on brow
  grind 80 grit
  sand 240 grit
`,
  better: `material plate
  mild steel 1.5 mm
piece brow
  from plate
  strip 300 x 40 mm
finish bright
  on brow
  grind 80 grit
  sand 120, 180, 240 grit
`,
  finish(finish, report, model) {
    let before: { grit: number; grain: number } | undefined;
    for (const line of finish.steps) {
      if (line.id === 'polish' && before && before.grit < LAST) {
        const steps = [...stepsBetween(before.grit, LAST), LAST];
        report(line.place, {
          message: say`After ${before.grit} grit (${trim(before.grain * 1000, 0)} µm, P) a polish only shines the scratches: sand to ${LAST} or finer first.`,
          fixes: [addingBefore(line, `sand ${steps.join(', ')} grit`, say`Sand ${steps.join(', ')} grit before it`)],
        });
      }
      if (line.id !== 'grind' && line.id !== 'sand') continue;
      for (const { grit, grain, at } of gritsOf(line)) {
        if (before) {
          const ratio = gritRatio(before.grain, grain).value;
          if (ratio > STEP + 0.02 || ratio < 0.98) {
            const between = ratio > STEP ? stepsBetween(before.grit, grit) : [];
            report(placeOf(line, at), {
              message:
                ratio > STEP
                  ? say`From ${before.grit} to ${grit} grit the grain goes from ${trim(before.grain * 1000, 0)} to ${trim(grain * 1000, 0)} µm (P), ${trim(ratio, 1)} times finer: at most twice.${
                      between.length
                        ? between.length > 1
                          ? say` ${between.join(translated(' and '))} go between.`
                          : say` ${between[0]} goes between.`
                        : ''
                    }`
                  : say`${grit} grit (${trim(grain * 1000, 0)} µm, P) is coarser than the ${before.grit} before it (${trim(before.grain * 1000, 0)} µm).`,
              fixes: between.length
                ? [
                    replacing(
                      model.file.uri,
                      say`Put ${between.join(translated(' and '))} in between`,
                      placeOf(line, { from: at.from, to: at.from }),
                      `${between.join(', ')}, `,
                      true,
                    ),
                  ]
                : [],
            });
          }
        }
        before = { grit, grain };
      }
    }
  },
};

function gritsOf(line: LineReading): { grit: number; grain: number; at: { from: number; to: number } }[] {
  return line.expressions('grits').flatMap((at) => {
    const quantity = line.file.quantity(at, line.line.section);
    if (quantity?.dimension !== 'grit') return [];
    const grit = numberOf(quantity);
    const grain = gritSize('P', grit)?.value;
    return grain === undefined ? [] : [{ grit, grain, at }];
  });
}

/** The coarsest paper that a polish takes out. */
const LAST = usual('polish-grit');

/** Usual papers, from which the steps in between are taken. */
const LADDER = [40, 60, 80, 120, 180, 240, 320, 400, 600, 800, 1000, 1200, 1500, 2000, 2500];

/** As few papers as lead from one to the other in steps of no more than two. */
function stepsBetween(from: number, to: number): number[] {
  const steps: number[] = [];
  const grain = (grit: number) => gritSize('P', grit)?.value ?? Number.NaN;
  let at = from;
  while (grain(at) / grain(to) > STEP + 0.02) {
    const next = LADDER.filter((grit) => grit > at && grit < to && grain(at) / grain(grit) <= 2.02).pop();
    if (next === undefined) return [];
    steps.push(next);
    at = next;
  }
  return steps;
}

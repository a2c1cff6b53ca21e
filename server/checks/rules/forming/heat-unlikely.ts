import { say, translated } from '../../../../l10n/say.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { MaterialModel } from '../../../model/things/material.ts';
import { type System, show } from '../../../model/values/show.ts';
import { type PracticeId, usual } from '../../../trade/usual/practice.ts';
import type { Check, Report } from '../../check.ts';
import { placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'heat-unlikely',
  title: 'A heat at which nothing of the kind happens',
  family: 'Forming',
  severity: 'warning',
  what: 'Steel is hardened, tempered, annealed or blued at a heat at which it does not harden, temper, soften or colour, or is spoilt. Often Fahrenheit is meant.',
  why: 'Under its heat nothing happens, and over it the grain grows or the hardening is lost: either way the piece goes back into the fire.',
  todo: 'Correct the heat, or its unit.',
  usual: ['harden-least', 'harden-most', 'temper-least', 'temper-most', 'anneal-least', 'blue-least', 'blue-most'],
  source:
    'That steel must pass 727 °C to harden: the iron-carbon diagram (from memory); the other bounds are common practice (no source), wider than any recipe',
  example: `material plate
  spring steel 1.5 mm, grade "1050"
piece brow
  from plate
  strip 300 x 40 mm
  harden 400 C, quench oil
  temper 290 C
`,
  better: `material plate
  spring steel 1.5 mm, grade "1050"
piece brow
  from plate
  strip 300 x 40 mm
  harden 830 C, quench oil
  temper 290 C
`,
  piece(piece, report, model) {
    for (const line of piece.lines())
      judge(line, piece.material(), (at, message) => report(placeIn(piece, line, at), { message }), model.units());
  },
  finish(finish, report, model) {
    const piece = finish.on.map(({ named }) => named).find((named) => named?.kind === 'piece');
    const material = piece && model.pieceOf(piece).material();
    for (const line of finish.steps)
      judge(line, material, (at, message) => report(placeOf(line, at), { message }), model.units());
  },
};

type Mark = (at: Parameters<Report>[0] | { readonly from: number; readonly to: number }, message: string) => void;

/** What is done, its bounds and what happens beyond them. */
const BOUNDS: Readonly<
  Record<
    string,
    {
      readonly done: string;
      readonly least: PracticeId;
      readonly under: string;
      readonly most?: PracticeId;
      readonly over?: string;
    }
  >
> = {
  harden: {
    done: 'hardened',
    least: 'harden-least',
    under: 'under it steel does not change, and the quench does nothing',
    most: 'harden-most',
    over: 'past it the grain grows and the edges burn',
  },
  temper: {
    done: 'tempered',
    least: 'temper-least',
    under: 'under it the steel stays as brittle as it was',
    most: 'temper-most',
    over: 'past it the hardening is gone',
  },
  anneal: { done: 'annealed', least: 'anneal-least', under: 'under it steel stays as hard as it was' },
  blue: {
    done: 'blued',
    least: 'blue-least',
    under: 'under it steel takes no colour',
    most: 'blue-most',
    over: 'past it the colour is gone to grey',
  },
};

function judge(line: LineReading, material: MaterialModel | undefined, mark: Mark, system: System): void {
  const bounds = BOUNDS[line.id];
  const metal = material?.metal();
  if (!bounds || !metal || !/steel|iron/.test(metal.family)) return;
  const [heat, filled] = [line.measure('temperature', 'heat'), line.filled('heat')];
  if (heat === undefined || !filled) return;
  const [least, most] = [usual(bounds.least), bounds.most ? usual(bounds.most) : Number.POSITIVE_INFINITY];
  if (heat >= least && heat <= most) return;
  const limit = heat < least ? least : most;
  mark(
    filled,
    say`Steel is not ${translated(bounds.done)} at ${show(heat, 'C', system)}: at ${heat < least ? say`least` : say`most`} ${show(limit, 'C', system)}, for ${translated(heat < least ? bounds.under : bounds.over!)}.`,
  );
}

import { clearanceAcross, clearanceRound, insideRound, passRoom } from '../../trade/fit/clearance.ts';
import { NONE, NOT_KNOWN } from '../forms/answers.ts';
import type { Girths } from '../forms/form.ts';
import { kindOf } from '../forms/index.ts';
import type { LineReading } from '../names/line-reading.ts';
import { homeOf } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { WearerModel } from '../things/wearer.ts';
import type { Figure } from '../values/figure.ts';
import type { FigureSet } from '../values/figure-set.ts';

/** Whom a piece fits and with what between: its `fits` line. */
export interface Fit {
  readonly line: LineReading;
  readonly wearer: WearerModel;
  readonly region: string;
  readonly liner: number;
  readonly ease: number;
  measure(words: string): Figure | undefined;
}

export function fitOf(piece: PieceModel): Fit | undefined {
  const line = piece.line('fits');
  const named = line?.named('wearer');
  if (!line || named?.kind !== 'wearer') return undefined;
  const wearer = homeOf(piece).wearerOf(named);
  return {
    line,
    wearer,
    region: line.text('region') ?? 'head',
    liner: Math.max(0, line.length('liner', 'liner') ?? 0),
    ease: Math.max(0, line.length('ease', 'ease') ?? 0),
    measure: (words) => wearer.measure(words),
  };
}

/** What a fitted piece leaves between itself and its wearer. */
export function addFit(piece: PieceModel, set: FigureSet): void {
  const fit = fitOf(piece);
  const form = piece.form();
  const thickness = piece.material()?.thickness();
  const girths = girthsOf(piece);
  if (!fit || !form || !thickness || !girths) return;
  const place = form.line.place;
  const inside = set.add(
    'inside-round',
    'way round inside, at its widest',
    insideRound({ middle: girths.widest, thickness: thickness.value }),
    place,
    [thickness.name],
  );
  if (!inside) return;
  const at = fit.line.place;
  // A cop lies on a joint, it does not go round it: only a helm's dome goes round what it fits.
  const goesRound = fit.region === 'head' || girths.wraps;
  const round = goesRound ? roundMeasure(fit) : undefined;
  if (round)
    set.add(
      'clearance',
      'room all round besides the liner',
      clearanceRound({ inside: inside.value, body: round.value, liner: fit.liner }),
      at,
      [inside.name, round.name],
    );
  for (const [suffix, title, words, across] of crossMeasures(girths, fit.region)) {
    const body = fit.measure(words);
    if (body)
      set.add(
        `clearance.${suffix}`,
        title,
        clearanceAcross({ inside: across - thickness.value, body: body.value, liner: fit.liner }),
        at,
        [body.name, thickness.name],
      );
  }
  const head = fit.measure('head round');
  const narrow = girths.closed && (fit.region === 'head' || fit.region === 'neck') ? girths.narrowest : undefined;
  if (head && narrow !== undefined)
    set.add(
      'head-passes',
      'room round the head where it must pass',
      passRoom({ opening: narrow - Math.PI * thickness.value, head: head.value }),
      at,
      [head.name, thickness.name],
    );
}

/** The measure round the part of the body: of a joint, straight or bent, the larger. */
function roundMeasure(fit: Fit): Figure | undefined {
  return [`${fit.region} round`, `bent ${fit.region} round`]
    .flatMap((words) => fit.measure(words) ?? [])
    .reduce<Figure | undefined>((most, each) => (most && most.value >= each.value ? most : each), undefined);
}

function crossMeasures(
  { long, wide, closed }: Girths,
  region: string,
): readonly (readonly [string, string, string, number])[] {
  const [deep, broad] =
    region === 'head' ? ['head length', 'head breadth'] : region === 'chest' ? ['chest depth', 'chest breadth'] : [];
  if (!closed || !deep || !broad) return [];
  return [
    ['front-back', 'room at the front and at the back, besides the liner', deep, long],
    ['side', 'room at each side, besides the liner', broad, wide],
  ];
}

/** The ways round a form at the middle of its thickness; nothing for one that goes round nothing, or of which it is not known. */
function girthsOf(piece: PieceModel): Girths | undefined {
  const form = piece.form();
  const girths = form ? kindOf(form).girths(form) : NOT_KNOWN;
  return girths === NOT_KNOWN || girths === NONE ? undefined : girths;
}

/** The widest inside girth of a form that goes all the way round, mm. */
export function insideGirth(piece: PieceModel): number | undefined {
  const thickness = piece.thickness();
  const girths = girthsOf(piece);
  return !girths?.closed || thickness === undefined ? undefined : girths.widest - Math.PI * thickness;
}

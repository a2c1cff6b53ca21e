import type { PieceLine } from '../../../grammar/typed-line.ts';
import { say } from '../../../l10n/say.ts';
import {
  type Contour,
  type ContourMeasures,
  contourInSteps,
  measuresOf,
  planeAlong,
  profileAlong,
  type Reach,
  reachOf,
} from '../../geometry/surface/contour.ts';
import { once } from '../../incremental/memo.ts';
import { Dear } from '../../incremental/steps.ts';
import { NONE } from '../forms/answers.ts';
import { kindOf } from '../forms/index.ts';
import type { LineReading } from '../names/line-reading.ts';
import { type System, show } from '../values/show.ts';
import { keyOf, type Surfaced } from './surface.ts';

/* Templates: the boards that are held against a piece while it is worked. */

/** What is asked of a piece that boards are held against. */
export interface Templated extends Surfaced {
  readonly model: { units(): System };
  figure(suffix: string): { readonly value: number } | undefined;
  formLine(): LineReading<PieceLine> | undefined;
}

export interface Template {
  readonly line: LineReading;
  /** Templates have no names: they are counted as they stand, `template-1`. */
  readonly name: string;
  /** Held in the hollow; else against the outside. */
  readonly inside: boolean;
  /** Of a level, mm as the line says it, and the name that stands for it there. */
  readonly height?: number;
  readonly called?: string;
  /** The line that a profile runs along. */
  readonly along?: string;
  /** Where a height of nought lies on the form's surface, mm up. */
  readonly zero?: number;
  /** Why there is none, in words, and the height nearest to what is asked that has one. */
  readonly refused?: { readonly why: string; readonly nearest?: number };
  /** What its board is cut to; worked out when it is asked for. */
  contour(): Contour | undefined;
  /** What its section measures, kept: on the way to one figure those of hundreds are asked for, again from the first each time. */
  measures(): ContourMeasures | undefined;
}

/** The last level sections, by all that they hang on. */
const contours = new Dear<Contour | undefined>(32);

/** The templates of a piece, as far as they are written. */
export function templatesOf(piece: Templated): readonly Template[] {
  // Of all of them alike: thousands of points of the form are looked at.
  let reach: Reach | undefined;
  return piece.all('template').flatMap((line, i): Template[] => {
    const base = { line, name: `template-${i + 1}`, inside: line.has('inside') };
    const none = (why: string, nearest?: number): Template[] => [
      {
        ...base,
        ...asked(line),
        refused: { why, ...(nearest === undefined ? {} : { nearest }) },
        contour: () => undefined,
        measures: () => undefined,
      },
    ];
    const { height, along } = asked(line);
    const thickness = piece.thickness();
    if ((height === undefined && along === undefined) || thickness === undefined) return [];
    const chart = piece.chart();
    if (!chart || isFlat(piece)) return hasNoForm(piece) ? none('it has no formed surface') : [];
    // Asked only when the board is: what forming leaves of the sheet is dear.
    const options = once(() => ({
      out: ((base.inside ? -1 : 1) * thicknessUnder(piece, thickness)) / 2,
      cut: piece.cutForm(),
    }));
    reach ??= reachOf(chart);
    const { low, high } = reach;
    const from = lowestHeight(piece, low);
    const zero = low - from;
    if (along !== undefined) {
      const found = planeAlong(chart, along);
      if (found === 'no such line') {
        const names = [...new Set([...chart.lines.keys(), ...chart.edges.keys()])];
        return none(say`the form has no edge or line “${along}” to run along: it has ${names.join(', ')}`);
      }
      if (found === 'not in one plane')
        return none(say`“${along}” does not lie in one upright plane, and a board is flat`);
      const profile = once((): Contour | undefined => {
        const made = profileAlong(chart, along, options());
        return typeof made === 'string' ? undefined : made;
      });
      return [{ ...base, along, zero, contour: profile, measures: measured(profile) }];
    }
    const contour = once(() =>
      contours.get(`${height! + zero} ${options().out} ${keyOf(piece)}`, () =>
        contourInSteps(chart, height! + zero, options()),
      ),
    );
    if (height! < from - 1e-6 || height! > from + high - low + 1e-6) {
      const nearest = height! < from ? from : from + high - low;
      const units = piece.model.units();
      return none(
        say`it reaches from ${show(from, 'mm', units)} to ${show(from + high - low, 'mm', units)} up`,
        nearest,
      );
    }
    return [{ ...base, ...asked(line), zero, contour, measures: measured(contour) }];
  });
}

const measured = (contour: () => Contour | undefined) =>
  once(() => {
    const found = contour();
    return found && measuresOf(found);
  });

/** What forming leaves of the sheet where a board is held, mm: the mean of the piece. */
export const thicknessUnder = (piece: Pick<Templated, 'figure'>, start: number): number =>
  piece.figure('thickness.mean')?.value ?? start;

/** `at brow, 120 mm up` or `along middle`. */
export function placeInWords({ height, called, along }: Template, piece: Templated): string {
  if (along !== undefined) return `along ${along}`;
  const high = show(height!, 'mm', piece.model.units());
  return called ? say`at ${called}, ${high} up` : say`at ${high}`;
}

function asked(line: LineReading): Pick<Template, 'height' | 'called' | 'along'> {
  const along = line.text('edge');
  if (along !== undefined) return { along };
  const height = line.length('height');
  const said = line.expressions('height')[0];
  return {
    ...(height === undefined ? {} : { height }),
    ...(said?.kind === 'name' && line.scale === 1 && !said.name.text.includes('.') ? { called: said.name.text } : {}),
  };
}

/** The height that a form's lowest place bears: a form by its levels counts as they do, every other one from there. */
function lowestHeight(piece: Templated, low: number): number {
  return piece.formLine()?.id === 'form' ? low : 0;
}

/** Flat all over: its section is a straight line. */
function isFlat(piece: Templated): boolean {
  const form = piece.form();
  return form !== undefined && kindOf(form).isFlat;
}

/** Whether its form is one that never has a surface; one that is at fault or not finished is marked by others. */
function hasNoForm(piece: Templated): boolean {
  const form = piece.form();
  return form !== undefined && (isFlat(piece) || kindOf(form).chart(form, piece) === NONE);
}

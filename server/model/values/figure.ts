import type { Place } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { workedInInches } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { inUnits } from './prose.ts';
import { isInches, type ShowOptions, type System, show } from './show.ts';

/**
 * A computed number under its dotted name. Hover, inlay hint, check, cut list and `explain` read the same one:
 * nothing is computed twice in two ways.
 */
export interface Figure extends Result {
  /** `skull.blank.area` */
  readonly name: string;
  /** What a smith calls it: `blank area`. */
  readonly title: string;
  /** `piece skull` */
  readonly of: string;
  /** The dotted names of the figures and measures it was made from. */
  readonly inputs: readonly string[];
  /** The line it belongs beside. */
  readonly place: Place;
  readonly shape: ShowOptions;
}

/** The figure as it is shown, with its range where it has one: `1.09 mm (0.83 to 1.2)`. */
export function shown(
  figure: Pick<Figure, 'value' | 'unit' | 'low' | 'high' | 'shape'> & Partial<Pick<Figure, 'basis'>>,
  system: System,
  withRange = true,
): string {
  const written = figure.basis === 'from the spec';
  const text = show(figure.value, figure.unit, system, written ? { ...figure.shape, written } : figure.shape);
  if (!withRange || figure.low === undefined || figure.high === undefined) return text;
  const low = show(figure.low, figure.unit, system, figure.shape);
  const high = show(figure.high, figure.unit, system, figure.shape);
  return low === high ? text : say`${text} (${low.replace(/ [^\d ]+$/, '')} to ${high})`;
}

/** The formula, with what is a length in it in the units of the build. */
export const formulaIn = ({ formula, basis }: Pick<Result, 'formula' | 'basis'>, system: System): string =>
  basis === 'from the spec' ? formula : inUnits(formula, system);

/** The sum with its numbers, in the units of the build; the bare formula where it cannot be worked in them. */
export function workedIn(figure: Pick<Result, 'formula' | 'worked' | 'measures' | 'basis'>, system: System): string {
  if (!isInches(system)) return figure.worked;
  return figure.measures ? inUnits(workedInInches(figure.measures), system) : formulaIn(figure, system);
}

/** What is found wrong or worth knowing: by the reader, the model or a check. */
export interface Finding {
  readonly code: string;
  readonly place: Place;
  readonly message: string;
  readonly fixes: readonly FindingFix[];
  readonly related: readonly Related[];
  /** Where it is not the check's own: `cannot` is an error, `may not` a warning. */
  readonly severity?: Severity;
}

export type Severity = 'error' | 'warning' | 'information' | 'hint';

export interface Related {
  /** The file it stands in, where that is not the one looked at. */
  readonly uri: string;
  readonly place: Place;
  readonly message: string;
}

export interface FindingFix {
  readonly title: string;
  readonly edits: readonly { readonly uri: string; readonly place: Place; readonly text: string }[];
  /** The one fix that is surely meant. */
  readonly preferred?: boolean;
}

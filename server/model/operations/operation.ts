import type { Place, Section } from '../../../grammar/tree.ts';
import type { Interval } from '../../trade/reckoning/interval.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { rateOf, type WorkKind } from '../../trade/usual/rates.ts';
import { workTime } from '../../trade/work/hours.ts';
import type { Figure } from '../values/figure.ts';
import type { ReasonId } from './reasons.ts';

/** One thing that is done at the bench, on all copies of what it is done to in one build. */
export interface Operation {
  /** What it is told apart by: `skull raise`, `ridge-line rivet`, `parade paint 2`. */
  readonly key: string;
  readonly kind: WorkKind;
  /** The thing whose lines it comes from. */
  readonly of: { readonly kind: 'piece' | 'seam' | 'hinge' | 'joint' | 'finish'; readonly name: string };
  readonly section: Section;
  readonly place: Place;
  /** `Raise skull` */
  readonly title: string;
  /** Of an opening: its name, by which an order calls it. */
  readonly called?: string;
  /** What else has to be known at the bench: `4 courses`. */
  readonly says: readonly string[];
  /** Time of hands for one build, minutes, without the set-up; nothing where how much there is of it is not known. */
  readonly time?: Result;
  /** Names of the figures that its time comes from. */
  readonly inputs: readonly string[];
  /** What passes afterwards without hands, minutes. */
  readonly wait?: Interval;
}

/** One that comes before another, and why. */
export interface Arrow {
  readonly from: Operation;
  readonly to: Operation;
  readonly reason: ReasonId;
  /** Of the smith's own order: the line that says so. */
  readonly place?: Place;
}

/** Each of the one before each of the other. */
export const before = (from: readonly Operation[], to: readonly Operation[], reason: ReasonId): Arrow[] =>
  from.flatMap((a) => to.map((b): Arrow => ({ from: a, to: b, reason })));

/** What a quantity comes from. */
export interface Quantity extends Pick<Result, 'value' | 'low' | 'high'> {
  readonly inputs?: readonly string[];
}

/** What is done at one thing, and what of it comes before what. */
export interface ThingWork {
  readonly operations: readonly Operation[];
  readonly arrows: readonly Arrow[];
}

interface Asked {
  readonly of: Operation['of'];
  readonly section: Section;
  readonly place: Place;
  readonly kind: WorkKind;
  readonly quantity: Quantity | undefined;
  readonly says?: readonly string[];
  readonly title?: string;
  /** Where one thing has several of a kind. */
  readonly nth?: number;
  readonly called?: string;
}

export function operation({ of, section, place, kind, quantity, says = [], title, nth, called }: Asked): Operation {
  const rate = rateOf(kind);
  return {
    key: `${of.name} ${kind}${nth === undefined ? '' : ` ${nth}`}`.toLowerCase(),
    kind,
    of,
    section,
    place,
    title: title ?? `${rate.does} ${of.name}`,
    says,
    ...(called === undefined ? {} : { called }),
    inputs: quantity?.inputs ?? [],
    ...(quantity ? { time: workTime(rate, quantity) } : {}),
    ...(rate.wait ? { wait: rate.wait } : {}),
  };
}

/** The same with hours of the smith's own, minutes. */
export const taking = (operation: Operation, minutes: number): Operation => ({
  ...operation,
  time: fromSpec(minutes, 'min', 't'),
  inputs: [],
});

export const quantityOf = ({ value, low, high, name }: Figure): Quantity => ({
  value,
  ...(low === undefined || high === undefined ? {} : { low, high }),
  inputs: [name],
});

/** The same for so many. */
export const times = ({ value, low, high, inputs }: Quantity, count: number): Quantity => ({
  value: value * count,
  ...(low === undefined || high === undefined ? {} : { low: low * count, high: high * count }),
  ...(inputs ? { inputs } : {}),
});

/** Those of which something holds, and the others. */
export function parted<T>(all: readonly T[], holds: (each: T) => boolean): [T[], T[]] {
  const yes: T[] = [];
  const no: T[] = [];
  for (const each of all) (holds(each) ? yes : no).push(each);
  return [yes, no];
}

import { say } from '../../../l10n/say.ts';
import { type Formed, type Readings, readingsOf } from '../../geometry/flatten/formed.ts';
import { type RoundFlat, roundFlat } from '../../geometry/flatten/round.ts';
import type { Way } from '../../geometry/flatten/way.ts';
import type { Basis, Result, Unit } from '../reckoning/result.ts';
import { result } from '../reckoning/working.ts';
import { type Bracket, bracketOf, CUT_TO_PROFILE, type FormingMethod, WAYS } from './ways.ts';

/*
 * What a hammered plate comes to: by the way it is worked, by those between which it may come out, and from the blank that is
 * cut for it. Blank, thickness, strain and mass of every such form are read here.
 */

/** One end of a range: how it is worked, and what that makes of the plate beside the way that leads. */
export interface End {
  readonly formed: Formed;
  /** The leading way on the same mesh: how far an end lies from it is told well enough by a coarse one. */
  readonly beside: Formed;
}

/** A formed plate, by its way of working and by those between which it may come out. */
export interface FormedBy {
  readonly bracket: Bracket;
  readonly value: Formed;
  readonly least: End;
  readonly most: End;
  /** With the rim held, all stretch: no way of working needs a smaller blank. */
  readonly held: End;
  /** How it was found: the parameters, and of how many triangles or rings. */
  readonly asked: number;
  readonly count: number;
  readonly parts: 'triangles' | 'rings';
  /** Of rings: how far out a place lies on the disc, as a share of its half diameter, by its share of the way from crown to rim. */
  readonly radiusAt?: (share: number) => number;
}

/** A plain round dome, by rings. Nothing for one that is no dome. */
export function formedRound(diameter: number, deep: number, method: FormingMethod | undefined): FormedBy | undefined {
  const bracket = bracketOf(method);
  const by = (way: Way): RoundFlat | undefined => roundFlat({ diameter, deep }, way);
  const [value, least, most] = [bracket.way, bracket.least, bracket.most].map(by);
  const held = bracket.least === WAYS.held ? least : by(WAYS.held);
  if (!value || !least || !most || !held) return undefined;
  const end = ({ formed }: RoundFlat): End => ({ formed, beside: value.formed });
  return {
    bracket,
    value: value.formed,
    least: end(least),
    most: end(most),
    held: end(held),
    asked: value.asked,
    count: value.rings,
    parts: 'rings',
    radiusAt: (share) => (2 * value.radiusAt(share)) / value.formed.long,
  };
}

// ---- reading -------------------------------------------------------------------------------------------------------

/** Areas and thicknesses come out as many times those of the leading way as on the coarse mesh. */
const BY_SHARE = ['long', 'wide', 'area', 'mean', 'crown', 'mid', 'edge', 'least', 'most'] as const;
/** Strains are told by how far they lie apart, since one of them may be nought. */
const APART = ['strainCrown', 'strainEdge', 'strain', 'edgeAlong', 'edgeAcross'] as const;

/**
 * What one end of the range comes to on the fine mesh, made of no more metal than `limit` mm²: where there is less than it
 * asks for, it is all the thinner.
 */
export function endOf({ value }: Pick<FormedBy, 'value'>, { formed, beside }: End, limit = Infinity): Readings {
  const whole = (value.area * formed.area) / beside.area;
  const end = readingsOf(formed, Math.min(1, limit / whole));
  if (beside === value) return end;
  const [fine, coarse] = [readingsOf(value), readingsOf(beside)];
  const made: { -readonly [Key in keyof Readings]: number } = { ...fine };
  for (const name of BY_SHARE) made[name] = (fine[name] * end[name]) / coarse[name];
  for (const name of APART) made[name] = fine[name] + end[name] - coarse[name];
  for (const name of ['strainCrown', 'strainEdge', 'strain'] as const) made[name] = Math.max(0, made[name]);
  const places = [made.crown, made.mid, made.edge, made.mean];
  made.least = Math.min(made.least, ...places);
  made.most = Math.max(made.most, ...places);
  return made;
}

/** What the leading way comes to, made of no more than `limit` mm². */
const leadingOf = ({ value }: Pick<FormedBy, 'value'>, limit = Infinity): Readings =>
  readingsOf(value, Math.min(1, limit / value.area));

const ENERGY =
  'Least E = ½ × (e1 − e2)² + k/2 × (e1 + e2 − q)² over the surface, e the logarithms of flat over formed length (derived)';

/** What forming makes of a piece from the blank that is cut for it: as it leads, and at both ends of the range. */
export interface Outcome {
  readonly by: FormedBy;
  readonly value: Readings;
  readonly ends: readonly [least: Readings, most: Readings];
}

/** From a blank that has no more than `limit` mm² for the form; what is beyond its need is trimmed off at the end. */
export const outcomeOf = (by: FormedBy, limit = Number.POSITIVE_INFINITY): Outcome => ({
  by,
  value: leadingOf(by, limit),
  ends: [endOf(by, by.least, limit), endOf(by, by.most, limit)],
});

export const runsFrom = ({ bracket }: FormedBy): string =>
  say`The range runs from ${bracket.runs}; nothing of it was tested on metal.`;

interface Read {
  readonly what: string;
  readonly unit: Unit;
  readonly value: number;
  /** The same at the ends of the range. */
  readonly ends?: readonly number[] | undefined;
  readonly parts?: readonly { readonly name: string; readonly value: number }[];
  readonly note?: string;
}

/** A number that was read off the flat plate, with the model and its parameters in the formula. */
export function solved(by: FormedBy, read: Read): Result {
  const { way } = by.bracket;
  return readOff(say`flat ${by.parts === 'rings' ? say`disc` : say`plate`}`, by.parts, read, {
    symbols: { k: way.k, q: by.asked, n: by.count },
    basis: 'common practice',
    source: say`${ENERGY}; ${way.name}: ${way.source}`,
    note: runsFrom(by),
  });
}

/** The same of a plate that rolls out flat. */
export const rolledOut = (triangles: number, k: number, read: Read): Result =>
  readOff('flat plate', 'triangles', read, {
    symbols: { k, q: 0, n: triangles },
    basis: 'geometry',
    source: say`Rolls out flat. ${ENERGY}`,
  });

function readOff(
  plate: string,
  parts: string,
  read: Read,
  told: { symbols: Record<string, number>; basis: Basis; source: string; note?: string },
): Result {
  const { symbols } = told;
  let grown = '';
  for (const { name, value } of read.parts ?? []) {
    const symbol = `a(${name})`;
    if (symbols[symbol] === undefined) grown += say`, {${symbol}|mm} further out`;
    symbols[symbol] = (symbols[symbol] ?? 0) + value;
  }
  let low: number | undefined;
  let high: number | undefined;
  if (read.ends) {
    low = Number.POSITIVE_INFINITY;
    high = Number.NEGATIVE_INFINITY;
    for (const end of [read.value, ...read.ends]) {
      if (!Number.isFinite(end)) continue;
      low = Math.min(low, end);
      high = Math.max(high, end);
    }
  }
  return result({
    value: read.value,
    low,
    high,
    unit: read.unit,
    formula: say`${read.what} = ${plate} of least E({k|}, {q|}), {n|} ${parts}${grown}`,
    symbols,
    basis: told.basis,
    source: told.source,
    note: read.note ?? told.note,
  });
}

/** A size of what is cut up its columns to the length of its profile and trimmed after. Source: Rose 1906. */
export const profiled = ({ bracket }: Pick<FormedBy, 'bracket'>, { what, unit, value }: Read): Result =>
  result({
    value,
    unit,
    formula: say`${what} = the way up the form's profile, laid out from the crown`,
    symbols: {},
    basis: 'published',
    source: CUT_TO_PROFILE,
    note: say`What the form needs of it is told beside it; ${bracket.way.name}, the rest is trimmed off.`,
  });

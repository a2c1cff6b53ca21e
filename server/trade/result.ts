/**
 * What every computation of the trade hands back: a number that can be questioned.
 *
 * Units throughout `server/trade`: lengths mm, areas mm², volumes mm³, masses g, angles degrees, times minutes,
 * forces N, stresses MPa (= N/mm²), densities g/cm³, temperatures °C. Strains are true strains, without unit.
 */
export type Unit =
  | 'mm'
  | 'mm2'
  | 'mm3'
  | 'g'
  | 'g/cm3'
  | 'deg'
  | 'min'
  | 'N'
  | 'MPa'
  | 'C'
  | 'count'
  | 'ratio'
  | 'money'
  | 'g/m2'
  | 'tpi';

/**
 * Where a number's authority comes from.
 * `geometry` is exact; `published` names its source; `common practice` is a rule of thumb with no source;
 * `your log` is tuned by the shop's own measurements; `from the spec` is what the smith wrote.
 */
export type Basis = 'geometry' | 'published' | 'common practice' | 'your log' | 'from the spec';

export interface Result {
  readonly value: number;
  readonly unit: Unit;
  /** The honest range where hand work or disagreeing models leave one; both or neither are given. */
  readonly low?: number;
  readonly high?: number;
  /** The formula with its symbols, e.g. `D = √(d² + 4h²)`. */
  readonly formula: string;
  /** The same formula with the numbers put in, e.g. `√(210² + 4 × 60²)`. */
  readonly worked: string;
  readonly basis: Basis;
  /** The document, table or derivation the formula comes from; with "from memory" or "common practice (no source)" where that is so. */
  readonly source: string;
  /** Set when an input is outside what the formula holds for: says so in words for a smith. The value is then not to be trusted. */
  readonly outside?: string;
  /** Anything else worth reading beside the number, e.g. a rule of thumb that gives another one. */
  readonly note?: string;
}

/** A number in a worked formula: up to four significant decimals, no trailing noughts, a real minus sign. */
export function plain(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  const magnitude = Math.abs(value);
  // From here on toFixed writes an exponent, and trimming noughts would change the number.
  if (magnitude >= 1e21) return value.toPrecision(4).replace('-', '−');
  const decimals = magnitude >= 1000 ? 1 : magnitude >= 100 ? 2 : magnitude >= 1 ? 3 : 4;
  const text = value.toFixed(decimals);
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return (trimmed === '-0' ? '0' : trimmed).replace('-', '−');
}

/** What {@link result} needs: the formula's symbols stand in braces, `D = √({d}² + 4{h}²)`, and `symbols` gives each its number. */
export interface Working {
  readonly value: number;
  readonly unit: Unit;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly formula: string;
  readonly symbols: Readonly<Record<string, number | string>>;
  readonly basis: Basis;
  readonly source: string;
  readonly outside?: string | undefined;
  readonly note?: string | undefined;
}

const SYMBOL = /\{([^{}]+)\}/g;

/**
 * Makes a {@link Result}: the formula is written once, with its symbols in braces, and both the readable formula and
 * the one with the numbers put in are made from it, so that they cannot drift apart.
 *
 * @throws if the formula names a symbol that `symbols` does not give (a mistake in our own code, caught by its test).
 */
export function result(working: Working): Result {
  const { formula, symbols, low, high, outside, note, ...rest } = working;
  const right = formula.includes('=') ? formula.slice(formula.indexOf('=') + 1).trim() : formula;
  return {
    ...rest,
    formula: formula.replace(SYMBOL, '$1'),
    worked: right.replace(SYMBOL, (_, name: string) => {
      const value = symbols[name];
      if (value === undefined) throw new Error(`no value for ${name} in "${formula}"`);
      return typeof value === 'number' ? (value < 0 ? `(${plain(value)})` : plain(value)) : value;
    }),
    ...(low === undefined || high === undefined ? {} : { low: Math.min(low, high), high: Math.max(low, high) }),
    ...(outside === undefined ? {} : { outside }),
    ...(note === undefined ? {} : { note }),
  };
}

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
  | 'percent'
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
  const magnitude = Math.abs(value);
  if (!(magnitude < FAR_OUT)) return farOut(value);
  const decimals = magnitude >= 1000 ? 1 : magnitude >= 100 ? 2 : magnitude >= 1 ? 3 : 4;
  const text = value.toFixed(decimals);
  // By hand: a regular expression here is felt, since every figure passes through.
  let end = text.length;
  while (text.charCodeAt(end - 1) === ZERO) end--;
  if (text.charCodeAt(end - 1) === POINT) end--;
  const trimmed = text.slice(0, end);
  if (value >= 0) return trimmed;
  return trimmed === '-0' ? '0' : `−${trimmed.slice(1)}`;
}

/** From here on a number written out would be digits that nobody counts, and an exponent soon after. */
export const FAR_OUT = 1e15;

/** `1.2 × 10⁴⁰`; what is no number at all is not shown. */
export function farOut(value: number): string {
  if (!Number.isFinite(value)) return '–';
  const [digits, power] = value.toExponential(1).split('e');
  const raised = [...String(Number(power))].map((digit) => SUPERSCRIPTS[Number(digit)]).join('');
  return `${digits!.replace(/\.0$/, '').replace('-', '−')} × 10${raised}`;
}
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

const ZERO = 48;
const POINT = 46;

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

/** A formula taken apart once: figures are made by the thousand while a smith types. */
interface Template {
  readonly formula: string;
  /** What stands between the symbols of the right-hand side, one more than there are symbols. */
  readonly between: readonly string[];
  readonly symbols: readonly string[];
}

const templates = new Map<string, Template>();
/** Formulas are our own and few; those made from a spec's names could be many over a day. */
const MOST_TEMPLATES = 5_000;

function templateOf(formula: string): Template {
  let template = templates.get(formula);
  if (template) return template;
  const right = formula.includes('=') ? formula.slice(formula.indexOf('=') + 1).trim() : formula;
  const parts = right.split(SYMBOL);
  template = {
    formula: formula.replace(SYMBOL, '$1'),
    between: parts.filter((_, i) => i % 2 === 0),
    symbols: parts.filter((_, i) => i % 2 === 1),
  };
  if (templates.size >= MOST_TEMPLATES) templates.clear();
  templates.set(formula, template);
  return template;
}

/**
 * Makes a {@link Result}: the formula is written once, with its symbols in braces, and both the readable formula and
 * the one with the numbers put in are made from it, so that they cannot drift apart.
 *
 * @throws if the formula names a symbol that `symbols` does not give (a mistake in our own code, caught by its test).
 */
export function result(working: Working): Result {
  const { symbols, low, high, outside, note } = working;
  const template = templateOf(working.formula);
  let worked = template.between[0]!;
  for (let i = 0; i < template.symbols.length; i++) {
    const value = symbols[template.symbols[i]!];
    if (value === undefined) throw new Error(`no value for ${template.symbols[i]} in "${working.formula}"`);
    worked += typeof value !== 'number' ? value : value < 0 ? `(${plain(value)})` : plain(value);
    worked += template.between[i + 1]!;
  }
  const made: { -readonly [Key in keyof Result]: Result[Key] } = {
    value: working.value,
    unit: working.unit,
    formula: template.formula,
    worked,
    basis: working.basis,
    source: working.source,
  };
  if (low !== undefined && high !== undefined) {
    made.low = Math.min(low, high);
    made.high = Math.max(low, high);
  }
  if (outside !== undefined) made.outside = outside;
  if (note !== undefined) made.note = note;
  return made;
}

/** A number that the smith wrote. */
export function fromSpec(value: number, unit: Unit, symbol: string): Result {
  return result({
    value,
    unit,
    formula: `${symbol} = {${symbol}}`,
    symbols: { [symbol]: value },
    basis: 'from the spec',
    source: 'As written in the spec',
  });
}

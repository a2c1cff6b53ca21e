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
  /** What the sum can be worked from again in inches; nothing where its own constants are of millimetres. */
  readonly measures?: Measures;
  /** Anything else worth reading beside the number, e.g. a rule of thumb that gives another one. */
  readonly note?: string;
}

/** A formula with its symbols in braces, those of lengths and areas told by `|mm` and `|mm²`, and what each stands for. */
export interface Measures {
  readonly formula: string;
  readonly symbols: Readonly<Record<string, number | string>>;
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

import { type Basis, plain, type Result, type Unit } from './result.ts';

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

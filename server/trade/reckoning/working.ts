import { translated } from '../../../l10n/say.ts';
import { type Basis, type Measures, plain, type Result, type Unit } from './result.ts';

/**
 * What {@link result} needs: the formula's symbols stand in braces, `D = √({d}² + 4{h}²)`, and `symbols` gives each its number. Where
 * the sum is the same in inches it says which of them are lengths and areas: `D = √({d|mm}² + 4{h|mm}²)`; `{n|}` is a number of a sum that
 * has no lengths, `{t|metric}` one that its constants want in millimetres.
 */
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
const NAMED = /\{([^{}|]+)(?:\|[^{}]*)?\}/g;

/** A formula taken apart once: figures are made by the thousand while a smith types. */
interface Template {
  readonly formula: string;
  /** What stands between the symbols of the right-hand side, one more than there are symbols. */
  readonly between: readonly string[];
  readonly symbols: readonly string[];
  /** What each is divided by to be in inches. */
  readonly inInches: readonly number[];
  /** In what units it can be worked. */
  readonly unit: 'mm' | 'any' | 'unsaid';
}

const INCH = 25.4;
const POWERS: Readonly<Record<string, number>> = { mm: 1, 'mm²': 2, 'mm³': 3 };

const templates = new Map<string, Template>();
/** Formulas are our own and few; those made from a spec's names could be many over a day. */
const MOST_TEMPLATES = 5_000;

function templateOf(formula: string): Template {
  let template = templates.get(formula);
  if (template) return template;
  const right = formula.includes('=') ? formula.slice(formula.indexOf('=') + 1).trim() : formula;
  const parts = right.split(SYMBOL);
  const named = parts.filter((_, i) => i % 2 === 1).map((part) => part.split('|'));
  template = {
    formula: formula.replace(NAMED, '$1'),
    between: parts.filter((_, i) => i % 2 === 0),
    symbols: named.map(([name]) => name!),
    inInches: named.map(([, unit]) => INCH ** (POWERS[unit ?? ''] ?? 0)),
    unit: named.some(([, unit]) => unit === 'metric')
      ? 'mm'
      : named.some(([, unit]) => unit !== undefined)
        ? 'any'
        : 'unsaid',
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
  const template = templateOf(translated(working.formula));
  const made: { -readonly [Key in keyof Result]: Result[Key] } = {
    value: working.value,
    unit: working.unit,
    formula: template.formula,
    worked: workedBy(template, working, false),
    basis: working.basis,
    source: translated(working.source),
  };
  if (low !== undefined && high !== undefined) {
    made.low = Math.min(low, high);
    made.high = Math.max(low, high);
  }
  if (outside !== undefined) made.outside = translated(outside);
  if (note !== undefined) made.note = translated(note);
  if (template.unit === 'any' || (template.unit === 'unsaid' && PURE.has(working.unit)))
    made.measures = { formula: translated(working.formula), symbols };
  return made;
}

/** What has no length in it unless its formula says so. */
export const PURE: ReadonlySet<Unit> = new Set([
  'count',
  'ratio',
  'percent',
  'deg',
  'min',
  'C',
  'MPa',
  'g/cm3',
  'tpi',
  'money',
]);

/** The sum with its numbers in inches. */
export const workedInInches = (measures: Measures): string => workedBy(templateOf(measures.formula), measures, true);

function workedBy(template: Template, { formula, symbols }: Measures, isInches: boolean): string {
  let worked = template.between[0]!;
  for (let i = 0; i < template.symbols.length; i++) {
    const given = symbols[template.symbols[i]!];
    if (given === undefined) throw new Error(`no value for ${template.symbols[i]} in "${formula}"`);
    const value = isInches && typeof given === 'number' ? given / template.inInches[i]! : given;
    worked += typeof value !== 'number' ? value : value < 0 ? `(${plain(value)})` : plain(value);
    worked += template.between[i + 1]!;
  }
  return worked;
}

/** The measures of a sum that goes on from another one; none where that has none. */
export function remeasured(
  base: Pick<Result, 'measures'>,
  on: (sum: string) => string,
  more: Measures['symbols'] = {},
): Pick<Result, 'measures'> {
  if (!base.measures) return {};
  const { formula, symbols } = base.measures;
  return {
    measures: { formula: on(formula.slice(formula.indexOf('=') + 1).trim()), symbols: { ...symbols, ...more } },
  };
}

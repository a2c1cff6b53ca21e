import { reckon } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { remeasured } from '../reckoning/working.ts';

/* A finished measure with what worked edges add to it. Lengths mm. */

/** What one edge adds. */
export interface Added {
  readonly name: string;
  readonly value: number;
}

/** A finished measure with what edges add to it, each named in the formula: `long = w + left + right`. */
export function grown(symbol: string, base: number, parts: readonly Added[], times: 1 | 2, source: string): Result {
  const own = symbol === 'D' ? 'd' : symbol === 'wide' ? 'h' : 'w';
  const symbols: Record<string, number> = { [own]: base };
  for (const part of parts) symbols[part.name] = (symbols[part.name] ?? 0) + part.value;
  const factor = times === 2 ? '2 × ' : '';
  const added = Object.keys(symbols)
    .slice(1)
    .map((name) => ` + ${factor}{${name}|mm}`);
  return reckon({
    value: base + times * parts.reduce((total, part) => total + part.value, 0),
    unit: 'mm',
    formula: `${symbol} = {${own}|mm}${added.join('')}`,
    symbols,
    basis: 'geometry',
    source,
  });
}

/** The same, on a measure that has a formula of its own. */
export function grownFrom(base: Result, parts: readonly Added[], times: 1 | 2): Result {
  if (!parts.length) return base;
  const total = parts.reduce((sum, part) => sum + part.value, 0);
  const had = Object.keys(base.measures?.symbols ?? {}).length;
  const added = parts.map(({ value }, i) => [`part ${had + i}`, value] as const);
  const factor = times === 2 ? '2 × ' : '';
  return {
    ...base,
    value: base.value + times * total,
    ...(base.low === undefined || base.high === undefined
      ? {}
      : { low: base.low + times * total, high: base.high + times * total }),
    formula: `${base.formula}${parts.map((part) => ` + ${factor}${part.name}`).join('')}`,
    worked: `${base.worked}${parts.map((part) => ` + ${factor}${plain(part.value)}`).join('')}`,
    ...remeasured(
      base,
      (sum) => `${sum}${added.map(([name]) => ` + ${factor}{${name}|mm}`).join('')}`,
      Object.fromEntries(added),
    ),
  };
}

/** Area (mm²) of an outline that is rounded everywhere and moved out square to itself. Source: Steiner’s formula. */
export function movedOutArea({ area, round, by }: { area: number; round: number; by: number }): Result {
  return reckon({
    value: area + by * round + Math.PI * by * by,
    unit: 'mm2',
    formula: 'A = {A0|mm²} + {a|mm} × {P|mm} + π × {a|mm}²',
    symbols: { A0: area, a: by, P: round },
    basis: 'geometry',
    source: 'Steiner’s formula for a rounded outline moved out square to itself (geometry)',
  });
}

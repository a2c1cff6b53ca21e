import { say } from '../../../l10n/say.ts';
import { ends, intervalOf } from '../reckoning/interval.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import type { Result } from '../reckoning/result.ts';

/* A row of rivets and the stack that each of them passes. Lengths mm. */

/** The length of a row along a part of an edge, which is `whole` long. Source: the spec. */
export function rowLength({
  from,
  to,
  whole,
  edge,
}: {
  from: number;
  to: number;
  whole: number;
  edge: string;
}): Result {
  const end = Math.min(to, whole);
  return reckon({
    value: Math.max(0, end - from),
    unit: 'mm',
    formula: 'L = {to} − {from}',
    symbols: { to: end, from },
    basis: 'from the spec',
    source: say`Part of ${edge}`,
    outside: when(to > whole + 0.05, say`the edge is only ${whole.toFixed(1)} mm long`),
  });
}

/** A row: its length, how far its ends stay from those of the piece, and whether it closes on itself and so has none. */
interface Row {
  readonly length: number;
  readonly margin: number;
  readonly closed: boolean;
}

/** How many rivets are no further apart than `every`. Range: above nothing. Source: the row divided (derived). */
export function rivetsInRow({ length, margin, closed, every }: Row & { readonly every: number }): Result {
  const run = Math.max(0, length - (closed ? 0 : 2 * margin));
  // A row that comes out even is not given one more for a rounding.
  const gaps = Math.ceil(run / every - 1e-9);
  return reckon({
    value: closed ? Math.max(1, gaps) : gaps + 1,
    unit: 'count',
    formula: closed ? 'n = {L} ÷ {e}, rounded up' : 'n = ({L} − 2 × {m}) ÷ {e}, rounded up, + 1',
    symbols: { L: length, e: every, m: margin },
    basis: 'geometry',
    source: closed
      ? 'A row that closes on itself'
      : 'An open row: its ends stay as far from the piece’s ends as the row from the edge',
    outside: firstOf(notAtLeastNothing('the row', length), notAboveNothing('the pitch', every)),
  });
}

/** How far apart so many rivets are. Range: two at least in an open row, and room for its ends. Source: the row divided (derived). */
export function evenPitch({ length, margin, closed, count }: Row & { readonly count: number }): Result {
  const gaps = closed ? count : count - 1;
  const value = (length - (closed ? 0 : 2 * margin)) / gaps;
  return reckon({
    value,
    unit: 'mm',
    formula: closed ? 'p = {L} ÷ {n}' : 'p = ({L} − 2 × {m}) ÷ ({n} − 1)',
    symbols: { L: length, m: margin, n: count },
    basis: 'geometry',
    source: 'The row divided evenly',
    outside: firstOf(
      when(gaps < 1, 'one rivet has no pitch'),
      when(!(value > 0), 'the ends of the row leave no room between them'),
    ),
  });
}

/** One layer that a rivet passes, so many times: twice through a hem. */
export interface Passed {
  readonly name: string;
  readonly thickness: Pick<Result, 'value' | 'low' | 'high'>;
  readonly times: number;
}

/** The sum of a stack, with its range: the ends of every layer's range added up. Source: geometry. */
export function stackOf(layers: readonly Passed[], washer: number | undefined): Result {
  const names = layers.map(({ name }, i) => {
    const earlier = layers.slice(0, i).filter((layer) => layer.name === name).length;
    return earlier ? `${name} ${earlier + 1}` : name;
  });
  const symbols: Record<string, number> = {};
  for (const [i, { thickness }] of layers.entries()) symbols[names[i]!] = thickness.value;
  if (washer !== undefined) symbols['washer'] = washer;
  const sum = (end: 'value' | 'low' | 'high') =>
    layers.reduce((total, { thickness, times }) => total + times * intervalOf(thickness)[end], washer ?? 0);
  return reckon({
    value: sum('value'),
    ...ends({ value: sum('value'), low: sum('low'), high: sum('high') }),
    unit: 'mm',
    formula: `G = ${[
      ...layers.map(({ times }, i) => (times > 1 ? `${times} × {${names[i]}}` : `{${names[i]}}`)),
      ...(washer === undefined ? [] : ['{washer}']),
    ].join(' + ')}`,
    symbols,
    basis: 'geometry',
    source: say`Every layer where the rivet passes, metal as formed, leather as compressed under the head${layers.some(({ times }) => times > 1) ? say`, a hem as often as it is folded` : ''}`,
  });
}

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { Result } from '../../server/trade/reckoning/result.ts';

/** Any double a slip of the pen could make: NaN, infinities, noughts, negatives, giants. */
export const anyNumber = fc.double();

/** Lengths of the trade, mm: from a shim to a sheet. */
export const length = fc.double({ min: 1, max: 3000, noNaN: true });

/** Thicknesses of the trade, mm. */
export const thickness = fc.double({ min: 0.3, max: 6, noNaN: true });

/** Depths as a share of the half width, from flat to three times as deep as a half sphere. */
export const share = fc.double({ min: 0, max: 3, noNaN: true });

/** Every {@link Result} within a value, however it is wrapped. */
export function resultsIn(value: unknown): Result[] {
  if (typeof value !== 'object' || value === null) return [];
  if ('worked' in value && 'formula' in value) return [value as Result];
  return Object.values(value).flatMap(resultsIn);
}

/** What holds for every result, whatever went in. */
export function soundResult(figure: Result): void {
  assert.equal(typeof figure.value, 'number');
  assert.ok(Number.isFinite(figure.value) || Number.isNaN(figure.value), `neither finite nor NaN: ${figure.value}`);
  assert.ok(!Number.isNaN(figure.value) || figure.outside !== undefined, `${figure.formula}: NaN without a reason`);
  assert.doesNotMatch(figure.worked, /[{}]/);
  assert.doesNotMatch(figure.formula, /[{}]/);
  assert.ok(figure.worked.length > 0 && figure.source.length > 0);
  assert.equal(figure.low === undefined, figure.high === undefined, 'a range has two ends');
  if (figure.low === undefined || figure.high === undefined || figure.outside !== undefined) return;
  const slack = 1e-9 * Math.max(1e-12, Math.abs(figure.value));
  assert.ok(
    figure.low <= figure.value + slack && figure.value <= figure.high + slack,
    `${figure.formula}: ${figure.low} … ${figure.value} … ${figure.high}`,
  );
}

/** Equal to twelve digits or so, which is what a long sum of doubles keeps. */
export function near(one: number, other: number, relative = 1e-10): void {
  const allowed = relative * Math.max(Math.abs(one), Math.abs(other), Number.MIN_VALUE);
  assert.ok(Math.abs(one - other) <= allowed, `${one} is not ${other}`);
}

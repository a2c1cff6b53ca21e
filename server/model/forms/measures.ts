import type { CutOut } from '../../geometry/drawings/outline-in.ts';
import { lengthOfPath, signedArea } from '../../geometry/outline/measure.ts';
import type { Path } from '../../geometry/outline/path.ts';
import { ellipsePerimeter } from '../../trade/blank/plane-shapes.ts';
import { type Result, result } from '../../trade/reckoning/result.ts';

/* Areas and lengths that several forms have, or that are taken out of one. */

/** Length of an arc of so many degrees of a circle, mm. */
export const arcOfGirth = (girth: number, wrap: number): Result =>
  result({
    value: (girth * wrap) / 360,
    unit: 'mm',
    formula: 'L = {C} × {w}/360',
    symbols: { C: girth, w: wrap },
    basis: 'geometry',
    source: 'Girth and wrap',
  });

/** Area of an outline out of a drawing, less what the drawing cuts out of it (clockwise paths), mm². */
export function drawnArea(outline: Path, openings: readonly Path[], source: string): Result {
  const whole = signedArea(outline);
  const out = openings.reduce((sum, path) => sum - signedArea(path), 0);
  return result({
    value: whole - out,
    unit: 'mm2',
    formula: openings.length ? 'A = {outline} − {openings}' : 'A = {outline}',
    symbols: openings.length ? { outline: whole, openings: out } : { outline: whole },
    basis: 'geometry',
    source,
  });
}

/** What pierced work takes out of a plate, mm². */
export function cutOutArea({ shapes }: CutOut): Result {
  const area = shapes.reduce((sum, path) => sum + signedArea(path), 0);
  return result({
    value: area,
    unit: 'mm2',
    formula: 'A = sum of {n} shapes',
    symbols: { n: shapes.length },
    basis: 'geometry',
    source: 'The shapes in the drawing, arcs as arcs; what lies inside one falls out with it',
  });
}

/** What the saw goes along, mm. */
export function sawnLength({ shapes }: CutOut): Result {
  return result({
    value: shapes.reduce((sum, path) => sum + lengthOfPath(path), 0),
    unit: 'mm',
    formula: 'L = way round {n} shapes',
    symbols: { n: shapes.length },
    basis: 'geometry',
    source: 'The shapes in the drawing, arcs as arcs',
  });
}

/** A slot has half-round ends: its narrower measure is the tool's. */
export function slotArea(long: number, wide: number): number {
  const longer = Math.max(long, wide);
  const narrower = Math.min(long, wide);
  return (longer - narrower) * narrower + (Math.PI / 4) * narrower * narrower;
}

/** The width of an oval of this way round and this length; nothing when no oval has both. */
export function widthOfOval(girth: number, long: number): number | undefined {
  if (!(girth > 2 * long) || !Number.isFinite(girth)) return undefined;
  let low = 0;
  let high = girth;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (ellipsePerimeter(Math.max(long, middle), Math.min(long, middle)).value < girth) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A measure that the form gives as it stands. */
export function given(value: number, symbol: string, source: string): Result {
  return result({
    value,
    unit: 'mm',
    formula: `${symbol} = {${symbol}}`,
    symbols: { [symbol]: value },
    basis: 'geometry',
    source,
  });
}

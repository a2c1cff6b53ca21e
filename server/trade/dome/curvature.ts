import { say } from '../../../l10n/say.ts';
import { firstOf, notAboveNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';
import { remeasured } from '../reckoning/working.ts';

/* How sharply a form is curved: which stake goes into it, which hollow takes it. */

/**
 * Tightest radius (mm) of a dome at the middle of its thickness: the stake must be at least so round.
 *
 * Of a round cap it is the sphere's; of one stretched lengthwise it lies at the ends of its long axis; of half an
 * ellipsoid, at the end of its longest axis. Range: above nothing in each. Source: curvature of an ellipsoid (derived).
 */
export function domeTightestRadius(long: number, wide: number, deep: number): Result {
  const a = Math.max(long, wide) / 2;
  const b = Math.min(long, wide) / 2;
  const outside = firstOf(
    notAboveNothing('the rim’s length', long),
    notAboveNothing('the rim’s width', wide),
    notAboveNothing('the depth', deep),
  );
  if (deep > b) {
    const most = Math.max(a, deep);
    const least = Math.min(b, deep);
    return reckon({
      value: (least * least) / most,
      unit: 'mm',
      formula: 'R = {least|mm}²/{most|mm}',
      symbols: { least, most },
      basis: 'geometry',
      source: 'Half an ellipsoid: the shortest half axis squared, over the longest (derived)',
      outside,
      note: a >= deep ? 'At the ends of the long axis, by the rim.' : 'At the crown.',
    });
  }
  const sphere = (b * b + deep * deep) / (2 * deep);
  if (a === b) {
    return reckon({
      value: sphere,
      unit: 'mm',
      formula: 'R = ({a|mm}² + {h|mm}²)/(2 × {h|mm})',
      symbols: { a, h: deep },
      basis: 'geometry',
      source: 'Radius of the sphere that the cap is of (derived)',
      outside,
    });
  }
  // The cap of a sphere, stretched k times along one axis; curvature grows from the crown to the long ends of the rim.
  const k = a / b;
  const cos = b / sphere;
  const root = Math.sqrt(k * k - (k * k - 1) * cos * cos);
  return reckon({
    value: (sphere * root) / k,
    unit: 'mm',
    formula: 'R = {S|mm}/{k} × √({k}² − ({k}² − 1) × ({b|mm}/{S|mm})²)',
    symbols: { S: sphere, k, b },
    basis: 'geometry',
    source: 'Spherical cap of the narrow axis, stretched lengthwise: its radius across the long axis (derived)',
    outside,
    note: 'At the ends of the long axis, by the rim.',
  });
}

/**
 * Tightest radius (mm) of a cone at the middle of its thickness, square to its slant: at the smaller end.
 * Girths and height in mm; equal girths give a cylinder's. Range: above nothing. Source: Meusnier’s theorem (derived).
 */
export function coneTightestRadius({ top, bottom, high }: { top: number; bottom: number; high: number }): Result {
  const small = Math.min(top, bottom) / (2 * Math.PI);
  const apart = Math.abs(top - bottom) / (2 * Math.PI);
  const slant = Math.hypot(apart, high);
  return reckon({
    value: (small * slant) / high,
    unit: 'mm',
    formula: 'R = {C|mm}/2π × {s|mm}/{H|mm}',
    symbols: { C: Math.min(top, bottom), s: slant, H: high },
    basis: 'geometry',
    source: 'Radius at the smaller end, square to the slant (derived)',
    outside: firstOf(
      notAboveNothing('a girth', Math.min(top, bottom)),
      notAboveNothing('the height', high),
      when(!Number.isFinite(top + bottom), 'a girth is not a number'),
    ),
  });
}

/** A radius of the middle of the thickness, mm, at the inside face: a stake goes inside. Range: more than half the thickness. */
export const atInside = (middle: Result, thickness: number): Result => ({
  ...middle,
  value: middle.value - thickness / 2,
  formula: say`${middle.formula}, less t/2`,
  worked: `${middle.worked} − ${plain(thickness)}/2`,
  ...remeasured(middle, (sum) => `${sum} − {thickness|mm}/2`, { thickness }),
  note: say`${middle.note ? say`${middle.note} ` : ''}A stake, a hollow or a hammer face goes in if it is no flatter than this.`,
  ...(middle.outside === undefined && middle.value <= thickness / 2
    ? { outside: 'the plate is too thick to be curved so sharply' }
    : {}),
});

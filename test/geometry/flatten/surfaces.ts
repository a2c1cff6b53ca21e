import type { Surface } from '../../../server/geometry/surface/surface.ts';

/* Plain surfaces for the tests of flattening, worked out here so that they do not lean on the generators of the trade. */

export type Vec = readonly [number, number, number];
/** A point of a surface and a vector square to it, outward, of any length. */
export type Spot = { readonly at: Vec; readonly out: Vec };

/** A surface over a square of parameters, 0 to 1 each way: across is `u`, up is `v`, and up × across points inward. */
export function sheet(across: number, up: number, spot: (u: number, v: number) => Spot): Surface {
  const wide = across + 1;
  const number = (i: number, j: number) => j * wide + i;
  const spots: Spot[] = [];
  const parameters: number[] = [];
  for (let j = 0; j <= up; j++) {
    for (let i = 0; i <= across; i++) {
      spots.push(spot(i / across, j / up));
      parameters.push(i / across, j / up);
    }
  }
  const triangles: number[] = [];
  for (let j = 0; j < up; j++) {
    for (let i = 0; i < across; i++) {
      const [a, b, c, d] = [number(i, j), number(i + 1, j), number(i + 1, j + 1), number(i, j + 1)];
      // Diagonals mirror about the middle, so that a form that is the same left and right has such a mesh too.
      if (i < across / 2) triangles.push(a, b, d, b, c, d);
      else triangles.push(a, b, c, a, c, d);
    }
  }
  const row = (j: number) => Uint32Array.from({ length: wide }, (_, i) => number(i, j));
  const column = (i: number) => Uint32Array.from({ length: up + 1 }, (_, j) => number(i, j));
  return surfaceOf(spots, parameters, triangles, {
    edges: { bottom: row(0), top: row(up), left: column(0), right: column(across) },
    lines: across % 2 ? {} : { middle: column(across / 2) },
  });
}

/** A round form about the z axis: rings from the crown to the rim, six more vertices in each. `part` runs from 0 to 1. */
function round(rings: number, profile: (part: number, turn: number) => Spot): Surface {
  const spots: Spot[] = [profile(0, 0)];
  const parameters: number[] = [0, 0];
  const first = (ring: number) => (ring ? 1 + 3 * ring * (ring - 1) : 0);
  const triangles: number[] = [];
  for (let ring = 1; ring <= rings; ring++) {
    const count = 6 * ring;
    for (let i = 0; i < count; i++) {
      const turn = (2 * Math.PI * i) / count;
      spots.push(profile(ring / rings, turn));
      parameters.push((ring * Math.cos(turn)) / rings, (ring * Math.sin(turn)) / rings);
    }
    const inner = (i: number) => (ring === 1 ? 0 : first(ring - 1) + (i % (count - 6)));
    for (let sector = 0; sector < 6; sector++) {
      for (let i = 0; i < ring; i++) {
        const outer = first(ring) + sector * ring + i;
        const next = first(ring) + ((sector * ring + i + 1) % count);
        const within = sector * (ring - 1) + i;
        triangles.push(inner(within), outer, next);
        if (i < ring - 1) triangles.push(inner(within), next, inner(within + 1));
      }
    }
  }
  const rim = Uint32Array.from({ length: 6 * rings + 1 }, (_, i) => first(rings) + (i % (6 * rings)));
  const spoke = (sector: number) => Array.from({ length: rings }, (_, i) => first(i + 1) + sector * (i + 1));
  const middle = Uint32Array.from([...spoke(0).reverse(), 0, ...spoke(3)]);
  return surfaceOf(spots, parameters, triangles, { edges: { rim }, lines: { middle } });
}

/** The cap of a sphere with rim diameter and depth, mm; deeper than half the diameter it goes past its widest place. */
export function cap(diameter: number, deep: number, rings: number): Surface {
  const a = diameter / 2;
  const radius = (a * a + deep * deep) / (2 * deep);
  const angle = 2 * Math.atan2(deep, a);
  return round(rings, (part, turn) => {
    const [sin, cos] = [Math.sin(angle * part), Math.cos(angle * part)];
    const out: Vec = [sin * Math.cos(turn), sin * Math.sin(turn), cos];
    return { at: [radius * out[0], radius * out[1], radius * out[2]], out };
  });
}

/** Half of a half ellipsoid, split along its length, as a patch over crown and rim: front to back across, rim to seam up. */
export function halfEllipsoid(long: number, wide: number, deep: number, across: number, up: number): Surface {
  const [a, b] = [long / 2, wide / 2];
  // Turned about the long axis from the rim to the seam, along it from front to back: the two ends are single points,
  // so the pole angle stops short of none: the square is mapped onto the half disc first, and that onto the form.
  return sheet(across, up, (u, v) => {
    const [x, y] = halfDisc(2 * u - 1, v);
    const s = Math.min(1, Math.hypot(x, y));
    const angle = (Math.PI / 2) * s;
    const [cx, cy] = s > 0 ? [x / s, y / s] : [1, 0];
    const unit: Vec = [cx * Math.sin(angle), cy * Math.sin(angle), Math.cos(angle)];
    return {
      at: [-b * unit[1], a * unit[0], deep * unit[2]],
      out: [-unit[1] / b, unit[0] / a, unit[2] / deep],
    };
  });
}

/** The square −1…1 by 0…1 onto the half disc, 0 on the straight side to 1 on the round one; equal shares stay equal. */
function halfDisc(x: number, y: number): [number, number] {
  const r = Math.max(Math.abs(x), y);
  if (r === 0) return [0, 0];
  // Concentric squares to concentric circles (Shirley and Chiu 1997, from memory).
  const turn =
    Math.abs(x) >= y
      ? x > 0
        ? (Math.PI / 4) * (y / x)
        : Math.PI - (Math.PI / 4) * (y / -x)
      : Math.PI / 2 - (Math.PI / 4) * (x / y);
  return [r * Math.cos(turn), r * Math.sin(turn)];
}

function surfaceOf(
  spots: readonly Spot[],
  parameters: readonly number[],
  triangles: readonly number[],
  named: { edges: Record<string, Uint32Array>; lines: Record<string, Uint32Array> },
): Surface {
  return {
    positions: Float64Array.from(spots.flatMap(({ at }) => at)),
    normals: Float64Array.from(
      spots.flatMap(({ out }) => {
        const length = Math.hypot(...out);
        return out.map((each) => each / length);
      }),
    ),
    parameters: Float64Array.from(parameters),
    triangles: Uint32Array.from(triangles),
    edges: new Map(Object.entries(named.edges)),
    lines: new Map(Object.entries(named.lines)),
  };
}

import type { Way } from '../../geometry/flatten/way.ts';

/*
 * How the metal is taken to move. k and q are what the hammer does, not geometry: they cannot be worked out from the form,
 * and the blanks of a half sphere from the held rim to the whole arc are all possible. Nothing here was tested on metal.
 *
 * q, the ln of the thickness asked for, is a share of φ (`conformalLog` in laplace.ts): how far, as a logarithm, the map that
 * keeps angles and the border has to shrink the surface. It is a measure of how much of a bowl lies within, it falls to
 * nought at every free edge and with the width of a gore, and below nought (a flare) it asks for less metal.
 */

export type FormingMethod = 'dish' | 'raise' | 'dish then raise';

const FITTED = 'fitted to the same models for caps of four depths; not tested on metal';
const PLANE_STRESS = 'k = 3 is plane stress of metal that keeps its volume';

export const WAYS = {
  /** Even stretch along the meridian, the rim drawn in: the area is kept. */
  dish: {
    name: 'dished, the rim drawing in',
    k: 1.9,
    gather: 0,
    at: 'crown',
    rim: 'free',
    source: `k = 1.9 gives the even stretch along the meridian of Kruglov 2002 (from memory): ${FITTED}`,
  },
  held: {
    name: 'dished with the rim held',
    k: 0.2,
    gather: 0,
    at: 'crown',
    rim: 'held',
    source: `k = 0.2 gives the thickness of Chakrabarty and Alexander 1970 for n = 0.2 (from memory): ${FITTED}`,
  },
  /**
   * Every ring is shrunk along its length and free to grow in thickness and up the wall alike, t = t0·√(R/r), so that the
   * crown stays as it is. On a shallow cap that is q = 2/7 φ exactly; 0.22 to 0.28 over caps and half ellipsoids up to twice
   * as deep as a half sphere, and nearly the same from crown to rim (see the test of it).
   */
  raise: {
    name: 'raised, every ring free to thicken and to lengthen',
    k: 3,
    gather: 0.25,
    at: 'crown',
    rim: 'free',
    source: `${PLANE_STRESS}; q = φ/4 leaves the crown as it is and shrinks every ring freely, √(R/r) thick (derived; not tested on metal)`,
  },
  'dish then raise': {
    name: 'dished, then raised',
    k: 3,
    gather: 0,
    at: 'crown',
    rim: 'free',
    source: `${PLANE_STRESS}: a free edge ends √(D/d) thick (derived)`,
  },
  /**
   * The most that raising can gather: lengths toward the crown are kept, R/r thick. On a shallow cap q = 2/3 of what φ has
   * fallen from the crown; 0.6 keeps the blank within a hundredth of the arc for caps up to a half sphere and a little beyond.
   */
  'all shrink': {
    name: 'raised, all of it gathered as thickness',
    k: 10,
    gather: 0.6,
    at: 'edge',
    rim: 'free',
    source: `q = 0.6 × (φ at the crown − φ), k = 10 keeps lengths toward the crown, R/r thick: ${FITTED}`,
  },
  even: {
    name: 'kept as even in thickness as can be',
    k: 10,
    gather: 0,
    at: 'crown',
    rim: 'free',
    source: 'k = 10 keeps areas almost alone; more locks a mesh of plane triangles',
  },
  /** The kindest map: angles kept. With the rim held it is the bulge of Hill 1950. */
  conformal: {
    name: 'bulged with the rim held, by Hill',
    k: 0.01,
    gather: 0,
    at: 'crown',
    rim: 'held',
    source: 'A map that keeps angles, its rim held, is Hill’s bulge of 1950 (derived; Hill from memory)',
  },
} as const satisfies Record<string, Way>;

/** Between which ways of working a form that is worked one way comes out, and where that is from. */
export interface Bracket {
  readonly way: Way;
  readonly least: Way;
  readonly most: Way;
  /** What runs from where to where, after “The range runs from”. */
  readonly runs: string;
  /** Whether the plate is cut to the length of its profile, and trimmed level at the end. */
  readonly cutsToProfile: boolean;
}

export const CUT_TO_PROFILE =
  'A. F. Rose, Copper Work, 1906, chapter VI: a string laid along the profile gives how far out to cut; after raising the edge is trimmed level';

const STRING = 'one whose profile keeps its length, as A. F. Rose cuts it (Copper Work, 1906, chapter VI)';

const BRACKETS: Readonly<Record<FormingMethod | 'unsaid', Bracket>> = {
  dish: {
    way: WAYS.dish,
    least: WAYS.held,
    most: WAYS['dish then raise'],
    runs: 'a rim that is held, all stretch, to one that draws in by itself and keeps the area, as handbooks cut bowls',
    cutsToProfile: false,
  },
  raise: {
    way: WAYS.raise,
    least: WAYS['dish then raise'],
    most: WAYS['all shrink'],
    runs: `a plate that keeps its area, as handbooks cut raised pans, to ${STRING}`,
    cutsToProfile: true,
  },
  'dish then raise': {
    way: WAYS['dish then raise'],
    least: WAYS.dish,
    most: WAYS.raise,
    runs: 'dishing alone, the rim drawing in, to raising alone',
    cutsToProfile: false,
  },
  unsaid: {
    way: WAYS['dish then raise'],
    least: WAYS.held,
    most: WAYS.raise,
    runs: 'a rim that is held to one that is raised, since no way of working is said',
    cutsToProfile: false,
  },
};

export const bracketOf = (method: FormingMethod | undefined): Bracket => BRACKETS[method ?? 'unsaid'];

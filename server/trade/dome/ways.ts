import type { Way } from '../../geometry/flatten/way.ts';

/*
 * How the metal is taken to move. k and q are what the hammer does, not geometry: they cannot be worked out from the form,
 * and the blanks of a half sphere from the held rim to the whole arc are all possible. Nothing here was tested on metal.
 */

const FITTED = 'fitted to the same models for caps of four depths; not tested on metal';

export const WAYS = {
  /** Even stretch along the meridian, the rim drawn in: the area is kept. */
  dish: {
    name: 'dished, the rim drawing in',
    k: 1.9,
    gather: 0,
    rim: 'free',
    source: `k = 1.9 gives the even stretch along the meridian of Kruglov 2002 (from memory): ${FITTED}`,
  },
  held: {
    name: 'dished with the rim held',
    k: 0.2,
    gather: 0,
    rim: 'held',
    source: `k = 0.2 gives the thickness of Chakrabarty and Alexander 1970 for n = 0.2 (from memory): ${FITTED}`,
  },
  raise: {
    name: 'raised, the edge free to thicken',
    k: 3,
    gather: 0.045,
    rim: 'free',
    source: `k = 3 is plane stress of metal that keeps its volume; metal gathered, 0.045 for each steradian: ${FITTED}`,
  },
  'dish then raise': {
    name: 'dished, then raised',
    k: 3,
    gather: 0,
    rim: 'free',
    source: 'k = 3 is plane stress of metal that keeps its volume: a free edge ends √(D/d) thick (derived)',
  },
  even: {
    name: 'kept as even in thickness as can be',
    k: 10,
    gather: 0,
    rim: 'free',
    source: 'k = 10 keeps areas almost alone; more locks a mesh of plane triangles',
  },
  /** The kindest map: angles kept. With the rim held it is the bulge of Hill 1950. */
  conformal: {
    name: 'bulged with the rim held, by Hill',
    k: 0.01,
    gather: 0,
    rim: 'held',
    source: 'A map that keeps angles, its rim held, is Hill’s bulge of 1950 (derived; Hill from memory)',
  },
} as const satisfies Record<string, Way>;

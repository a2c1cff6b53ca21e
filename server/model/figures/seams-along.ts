import { broughtTo } from './brought.ts';

/** The seams that run along an edge of a piece. */
export const seamsAlong = broughtTo('seam', (seam) => seam.along().map(({ piece }) => piece));

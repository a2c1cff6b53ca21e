import { broughtTo } from './brought.ts';

/** The joints that a piece is a plate of. */
export const jointsWith = broughtTo('joint', (joint) => joint.plates().map(({ piece }) => piece));

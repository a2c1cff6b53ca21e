import type { Bounds } from '../../geometry/drawings/outline-in.ts';

/*
 * What lengths there can be. What lies outside is no armour but a slip of the finger (`412 m` on the way to `412 mm`), and is
 * marked before anything is worked out from it. Common practice (no source): wide of everything that a shop has.
 */

/** mm. No measure of a piece, nor of anything that is drawn for one, is longer: a horse's whole side is a third of it. */
export const LONGEST_PIECE = 10_000;

/** mm. No side of a sheet or of a hide is longer. */
export const LONGEST_SHEET = 20_000;

/** mm. No wire, strip or strap comes longer on one coil. */
export const LONGEST_COIL = 10_000_000;

/** mm. No side of a piece is shorter: half the thickness of the thinnest foil. */
export const SHORTEST_PIECE = 0.01;

/** mm. No sheet, wire, hide or sheet of felt is thicker, none thinner. */
export const THICKEST_STOCK = 100;
export const THINNEST_STOCK = 0.01;

/** No measure of a form is so many times another one of it: a wire of 0.2 mm ten metres long. */
export const MOST_SLENDER = 50_000;

/** mm². The box of a hide that is drawn is no larger: a big bull's is half of it. */
export const LARGEST_HIDE = 25_000_000;

/** What a drawing may be as large as. */
export const OF_PIECE: Bounds = { of: 'piece', longest: LONGEST_PIECE };
export const OF_HIDE: Bounds = { of: 'hide', longest: LONGEST_SHEET, largest: LARGEST_HIDE };

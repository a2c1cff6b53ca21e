/* The words for what cannot be known of a form, each a value of its own. */

/** What nobody can say: never the same as straight, flat or none. */
export const NOT_KNOWN = 'not known';
export type NotKnown = typeof NOT_KNOWN;

/** No formula says it: it is measured on the form's surface. */
export const MEASURED = 'measured';
export type Measured = typeof MEASURED;

/** Its blank has no formula: its surface is laid flat by numbers. */
export const LAID_FLAT = 'laid flat by numbers';
export type LaidFlat = typeof LAID_FLAT;

export const NONE = 'none';
export type None = typeof NONE;

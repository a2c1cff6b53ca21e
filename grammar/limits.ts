/*
 * How much of a text is read. What goes beyond is no spec, but something that was pasted or that a program wrote: it stays in
 * the text as it stands, is marked where the reading stops, and costs no more than its letters.
 * Common practice (no source): wide of everything that a shop has.
 */

/** Sections of a spec: twenty times the stock of a large shop. */
export const MOST_SECTIONS = 10_000;

/** Rows of one section, comments and blank ones with them. */
export const MOST_ROWS = 500;

/** Letters of one section. */
export const MOST_LETTERS = 50_000;

/** Words, numbers and signs of one line, with the rows that go on with it. */
export const MOST_SIGNS = 2_000;

/** Letters of a name: it has to go on a label, and into the name of a file. */
export const LONGEST_NAME = 100;

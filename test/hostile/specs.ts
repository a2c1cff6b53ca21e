/** What the hostile specs are made of. */

/** A plate to cut from, and the rivet that goes with it. */
export const STOCK = `planish 1

build "Hostile"
  duty stage

material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, have 3

rivet small
  mild steel 3 x 8 mm, domed

`;

/** A spec of one piece with these lines. */
export const pieceOf = (...lines: readonly string[]): string => `${STOCK}piece p\n  from plate\n${indented(lines)}`;

export const indented = (lines: readonly string[]): string => lines.map((line) => `  ${line}\n`).join('');

/** `make(0) + make(1) + …` */
export const many = (count: number, make: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => make(i)).join('');

/** A case of one spec. */
export const spec = (text: () => string) => () => ({ 'spec.planish': text() });

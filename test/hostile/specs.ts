/** What the hostile specs are made of. */

/** A plate to cut from, and the rivet that goes with it. */
export const STOCK = `planish 1

build "Hostile"
  duty stage

material plate
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, have 3

material hide
  veg-tan leather 7 oz
  hide 2.2 m2

material edge-wire
  mild steel wire 3 mm
  coil 10 m

rivet small
  mild steel 3 x 8 mm, domed
  washer 9 x 0.8 mm

`;

export const indented = (lines: readonly string[]): string => lines.map((line) => `  ${line}\n`).join('');

/** A piece of this name with these lines. */
export const piece = (name: string, ...lines: readonly string[]): string =>
  `piece ${name}\n  from plate\n${indented(lines)}\n`;

/** A spec of one piece with these lines. */
export const pieceOf = (...lines: readonly string[]): string => STOCK + piece('p', ...lines);

/** `make(0) + make(1) + …` */
export const many = (count: number, make: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => make(i)).join('');

/** The files of a case of one spec. */
export const spec = (text: () => string) => () => ({ 'spec.planish': text() });

/** The files of a case of one piece. */
export const one = (...lines: readonly string[]) => spec(() => pieceOf(...lines));

/** Every shape of the language at measures that a smith means, with what is worked into it. */
export const SHAPES: Readonly<Record<string, readonly string[]>> = {
  plate: [
    'plate 120 x 80 mm',
    'bend 30 mm from left, 90 deg, radius 2 mm',
    'hole crest 6 mm, at 13 mm from left and 12 mm from bottom',
  ],
  disc: ['disc 90 mm', 'breaths cheek 24 of 4 mm, rows 4, pitch 9 mm, at 45 mm from rim'],
  oval: ['oval 120 x 80 mm', 'slot eye 60 x 12 mm, at 40 mm from rim'],
  strip: ['strip 400 x 18 mm', 'edge top rolled over edge-wire, outward'],
  outline: [
    'outline',
    'to 95 mm right and 0 mm up',
    'arc to 72 mm right and 105 mm up, radius 130 mm',
    'to 0 mm right and 0 mm up',
  ],
  dome: ['dome 210 mm, deep 60 mm, inside', 'dish', 'holes lining 12 of 3 mm, along rim, inset 10 mm'],
  'oval dome': ['oval dome 235 x 195 mm, deep 150 mm', 'raise', 'slot sight 110 x 12 mm, at 62 mm from rim'],
  'half dome': ['half dome 248 x 204 mm, deep 160 mm', 'raise', 'hold middle'],
  'gore dome': ['gore dome 210 mm, deep 105 mm, gores 6'],
  cylinder: [
    'cylinder round 300 mm, high 120 mm, wrap 200 deg',
    'cut bay from 20 mm on top to 90 mm on top, deep 25 mm',
    'edge bottom hemmed 6 mm',
  ],
  cone: ['cone round 260 to 200 mm, high 220 mm, wrap 300 deg', 'crease along middle, deep 4 mm, radius 3 mm'],
  'form with flutes': [
    'form wrap 190 deg',
    'at 0 mm, round 296 mm, long 98 mm, ridge',
    'at 110 mm, round 338 mm, long 112 mm',
    'flute 4, deep 5 mm, wide 14 mm',
    'raise',
  ],
  'form with a flare': [
    'form wrap 300 deg, inside',
    'at 0 mm, round 690 mm, long 235 mm, wide 190 mm',
    'at 200 mm, round 600 mm, long 200 mm, offset 12 mm front',
    'flare bottom, 25 deg, wide 40 mm',
    'template at 100 mm',
  ],
  'half form with a point': [
    'form half',
    'at 0 mm, round 680 mm, long 240 mm, deep 120 mm',
    'at 150 mm, round 500 mm, long 180 mm, deep 90 mm',
    'at 260 mm, point',
    'hold middle',
  ],
  'form with a flat top': ['form wrap 360 deg', 'at 0 mm, round 660 mm', 'at 120 mm, round 600 mm', 'at 170 mm, flat'],
};

/** The measures of these lines, each as another gives it. */
export const measured = (lines: readonly string[], other: (number: string, i: number) => string): string[] => {
  let i = 0;
  return lines.map((line) => line.replace(/\d+/g, (number) => other(number, i++)));
};

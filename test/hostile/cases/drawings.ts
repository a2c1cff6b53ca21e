import type { HostileCase } from '../case.ts';

/*
 * Drawings that no smith means: too large, too fine, too far away, too many, cut off. What a drawing decides of the work is
 * counted before it is done.
 */

type Files = ReturnType<HostileCase['files']>;

const spec = (lines: string): string => `planish 1
material steel
  mild steel 1.5 mm
  sheet 2500 x 1250 mm
  kerf 0.3 mm
piece front
  from steel
  ${lines}
`;
const hide = `planish 1
material leather
  veg tan 3 mm
  hide "a.svg"
  margin 10 mm
piece strap
  from leather
  plate 300 x 40 mm
`;
const svg = (body: string, wide = 1000, high = 1000, unit = 'mm'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}${unit}" height="${high}${unit}" viewBox="0 0 ${wide} ${high}">${body}</svg>`;
const dxf = (...groups: readonly (string | number)[]): string =>
  `${[0, 'SECTION', 2, 'HEADER', 9, '$INSUNITS', 70, 4, 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES', ...groups, 0, 'ENDSEC', 0, 'EOF'].join('\n')}\n`;

const outline = (drawing: string): Files => ({ 'main.planish': spec('outline "a.svg"'), 'a.svg': drawing });
const outlineOfDxf = (drawing: string): Files => ({ 'main.planish': spec('outline "a.dxf"'), 'a.dxf': drawing });
const pierced = (drawing: string): Files => ({
  'main.planish': spec('plate 900 x 900 mm\n  pierce "a.svg", at 450 mm from left and 450 mm from bottom'),
  'a.svg': drawing,
});
const hideOf = (drawing: string): Files => ({ 'main.planish': hide, 'a.svg': drawing });

const repeated = (count: number, made: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => made(i)).join('');
const circles = (count: number): string => {
  const across = Math.ceil(Math.sqrt(count));
  return repeated(count, (i) => `<circle cx="${4 * (i % across) + 5}" cy="${4 * Math.floor(i / across) + 5}" r="1"/>`);
};
/** Teeth so high, side by side over 900 mm. */
const comb = (teeth: number, high: number): string => {
  const x = (i: number) => ((900 * i) / teeth).toFixed(4);
  return `<path d="M 0 -9 ${repeated(teeth, (i) => `L${x(i)} 0V${high}H${x(i + 0.5)}V0`)} H 900 V -9 Z"/>`;
};
const ring = (points: number, radius: (i: number) => number): string =>
  `<polygon points="${repeated(points, (i) => {
    const [angle, r] = [(2 * Math.PI * i) / points, radius(i)];
    return `${(500 + r * Math.cos(angle)).toFixed(4)},${(500 + r * Math.sin(angle)).toFixed(4)} `;
  })}"/>`;
/** Numbers that look random and are the same every time. */
const wild = (i: number, most: number): number => (i * 7919 + 104729) % most;

const unusable = 'drawing-unusable';
const second = { budget: { seconds: 3, mebibytes: 600 } };
const seconds = { budget: { seconds: 8, mebibytes: 700 } };
const papers = ['cutlist', 'patterns', 'layouts'] as const;

/** Three lines that close, of which one corner lies so far away. */
const farCorner = (x: number): string =>
  dxf(
    0,
    'LINE',
    8,
    0,
    10,
    0,
    20,
    0,
    11,
    x,
    21,
    0,
    0,
    'LINE',
    8,
    0,
    10,
    x,
    20,
    0,
    11,
    0,
    21,
    50,
    0,
    'LINE',
    8,
    0,
    10,
    0,
    20,
    50,
    11,
    0,
    21,
    0,
  );
const polyline = (bulge: number | string): string =>
  dxf(0, 'LWPOLYLINE', 8, 0, 90, 2, 70, 1, 10, 0, 20, 0, 42, bulge, 10, 100, 20, 0, 42, 1);
const circle = (radius: number | string): string => dxf(0, 'CIRCLE', 8, 0, 10, 0, 20, 0, 40, radius);

const far = [1e5, 1e8, 1e20, 1e160, 1e308, -1e308];

export const cases: readonly HostileCase[] = [
  // Hides and outlines in the wrong unit.
  ...['m', 'km', 'mm'].map(
    (unit): HostileCase => ({
      name: `a hide of 2200 × 1400, said in ${unit}`,
      files: () => {
        const scale = unit === 'm' ? 1000 : unit === 'km' ? 1_000_000 : 1;
        return hideOf(
          svg('<rect width="2200" height="1400"/>').replace(
            /width="1000mm" height="1000mm"/,
            `width="${1000 * scale}mm" height="${1000 * scale}mm"`,
          ),
        );
      },
      ...(unit === 'mm' ? { isClean: false } : { finds: unusable }),
      exports: ['layouts', 'cutlist'],
      ...second,
    }),
  ),
  {
    name: 'a hide as long as a ship',
    files: () => hideOf(svg('<rect width="19000" height="10"/><rect width="5" height="19000"/>', 20000, 20000)),
    finds: unusable,
    exports: ['layouts'],
    ...second,
  },
  {
    name: 'a hide with an edge of 40,000 teeth',
    files: () => hideOf(svg(comb(10_000, 900))),
    exports: ['layouts'],
    ...seconds,
  },
  {
    name: 'an outline 92 m long',
    files: () => outline(svg('<rect width="92000" height="26000"/>', 92000, 26000)),
    finds: unusable,
    exports: papers,
    ...second,
  },

  // Numbers of any size.
  ...far.map(
    (x): HostileCase => ({
      name: `three lines with a corner at ${x}`,
      files: () => outlineOfDxf(farCorner(x)),
      finds: unusable,
      exports: papers,
      ...second,
    }),
  ),
  ...far.slice(0, 5).map(
    (bulge): HostileCase => ({
      name: `a bulge of ${bulge}`,
      files: () => outlineOfDxf(polyline(bulge)),
      finds: unusable,
      exports: papers,
      ...second,
    }),
  ),
  ...far.slice(0, 5).map(
    (radius): HostileCase => ({
      name: `a circle of radius ${radius}`,
      files: () => outlineOfDxf(circle(radius)),
      finds: unusable,
      exports: papers,
      ...second,
    }),
  ),
  { name: 'a bulge that is no number', files: () => outlineOfDxf(polyline('NaN')), finds: unusable, ...second },
  {
    name: 'a scale of 1e308 in another',
    files: () =>
      outline(svg('<g transform="scale(1e200)"><g transform="scale(1e200)"><rect width="9" height="9"/></g></g>')),
    finds: unusable,
    exports: papers,
    ...second,
  },
  {
    name: 'a view box of 1e-300',
    files: () =>
      outline(
        '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 1e-300 1e-300"><rect width="50" height="50"/></svg>',
      ),
    finds: unusable,
    ...second,
  },
  {
    name: 'a Bézier curve by way of 1e308',
    files: () => outline(svg('<path d="M 0 0 C 1e308 1e308 -1e308 1e308 100 0 Z"/>')),
    finds: unusable,
    exports: papers,
    ...second,
  },
  {
    name: 'an arc of radius 1e160',
    files: () => outline(svg('<path d="M 0 0 A 1e160 1e160 0 1 1 100 0 Z"/>')),
    finds: unusable,
    ...second,
  },
  {
    name: 'an ellipse of 1e300 by 1e-300',
    files: () => outline(svg('<ellipse cx="0" cy="0" rx="1e300" ry="1e-300"/>')),
    finds: unusable,
    ...second,
  },
  {
    name: 'a skew of 89.9999999 degrees',
    files: () => outline(svg('<rect width="100" height="100" transform="skewX(89.9999999)"/>')),
    finds: unusable,
    ...second,
  },
  {
    name: 'a spline with knots of 1e308',
    files: () =>
      outlineOfDxf(
        dxf(0, 'SPLINE', 8, 0, 71, 1, 40, -1e308, 40, -1e308, 40, 1e308, 40, 1e308, 10, 0, 20, 0, 10, 100, 20, 100),
      ),
    finds: unusable,
    ...second,
  },

  // As many as one likes.
  {
    name: '2,000 circles pierced, as real work has',
    files: () => pierced(svg(circles(2_000))),
    exports: papers,
    budget: { seconds: 30, mebibytes: 900 },
  },
  { name: '8,000 circles pierced', files: () => pierced(svg(circles(8_000))), ...seconds },
  { name: '20,000 circles pierced', files: () => pierced(svg(circles(20_000))), ...seconds },
  {
    name: '8,000 circles about one middle',
    files: () => pierced(svg(repeated(8_000, (i) => `<circle cx="400" cy="400" r="${1 + i / 20}"/>`))),
    finds: unusable,
    ...seconds,
  },
  { name: '60,000 circles', files: () => pierced(svg(circles(60_000))), finds: unusable, ...second },
  { name: 'a comb of 20,000 points', files: () => outline(svg(comb(5_000, 100))), exports: ['patterns'], ...seconds },
  {
    name: 'a comb of 20,000 points with a rolled rim',
    files: () => ({ 'main.planish': spec('outline "a.svg"\n  edge rim hemmed 6 mm'), 'a.svg': svg(comb(5_000, 100)) }),
    ...seconds,
  },
  { name: 'a comb askew', files: () => outline(svg(`<g transform="rotate(45)">${comb(5_000, 100)}</g>`)), ...seconds },
  {
    name: 'a round of 50,000 points, as a traced one has',
    files: () => outline(svg(ring(50_000, (i) => 300 + 20 * Math.sin(i / 200)))),
    ...seconds,
  },
  {
    name: 'a saw blade of 20,000 teeth with a hem',
    files: () => ({
      'main.planish': spec('outline "a.svg"\n  edge rim hemmed 6 mm'),
      'a.svg': svg(ring(20_000, (i) => 300 + (i % 2))),
    }),
    ...seconds,
  },
  {
    name: 'a million wiggles',
    files: () => outline(svg(`<path d="M0 0${repeated(1_000_000, (i) => `L${i % 97} ${i % 7}`)}Z"/>`)),
    finds: unusable,
    ...second,
  },
  {
    name: 'a million points in a row',
    files: () => outline(svg(`<polygon points="${repeated(1_000_000, (i) => `${i % 97},${i % 7} `)}"/>`)),
    finds: unusable,
    ...second,
  },
  {
    name: '20,000 wild splines in a path',
    files: () =>
      outline(
        svg(
          `<path d="M0 0${repeated(20_000, (i) => `C${wild(i, 997)} ${wild(i, 991)} ${wild(i, 983)} ${wild(i, 977)} ${wild(i, 971)} ${wild(i, 967)}`)}Z"/>`,
        ),
      ),
    finds: unusable,
    ...seconds,
  },
  {
    name: 'a wild spline of degree 11 through 2,000 points',
    files: () => {
      const points = Array.from({ length: 2_000 }, (_, i) => [10, wild(i, 997), 20, wild(i, 991)]).flat();
      const knots = Array.from({ length: 2_012 }, (_, i) => [40, i]).flat();
      return outlineOfDxf(dxf(0, 'SPLINE', 8, 0, 71, 11, ...knots, ...points));
    },
    finds: unusable,
    ...seconds,
  },
  {
    name: 'a polyline of a million corners',
    files: () =>
      outlineOfDxf(
        dxf(
          0,
          'LWPOLYLINE',
          8,
          0,
          70,
          1,
          `10\n0\n20\n0\n${repeated(300_000, (i) => `10\n${i % 97}\n20\n${i % 89}\n`)}10\n9\n20`,
          9,
        ),
      ),
    finds: unusable,
    ...second,
  },
  {
    name: '40,000 lines from one point',
    files: () =>
      outline(
        svg(
          repeated(
            40_000,
            (i) => `<line x1="500" y1="500" x2="${500 + 400 * Math.cos(i)}" y2="${500 + 400 * Math.sin(i)}"/>`,
          ),
        ),
      ),
    finds: unusable,
    ...seconds,
  },
  {
    name: '40,000 lines whose ends lie within a hair',
    files: () =>
      outline(
        svg(
          repeated(
            40_000,
            (i) =>
              `<line x1="${500 + i * 1e-6}" y1="500" x2="${500 + 400 * Math.cos(i)}" y2="${500 + 400 * Math.sin(i)}"/>`,
          ),
        ),
      ),
    finds: unusable,
    budget: { seconds: 12, mebibytes: 700 },
  },
  {
    name: 'a use of a use of a use, 300 of each',
    files: () =>
      outline(
        svg(
          `<g id="c"/>${['b', 'a'].map((id, i) => `<g id="${id}">${repeated(300, () => `<use href="#${'cb'[i]}"/>`)}</g>`).join('')}${repeated(300, () => '<use href="#a"/>')}`,
        ),
      ),
    finds: unusable,
    ...second,
  },
  {
    name: 'a block of a thousand blocks of a thousand blocks',
    files: () => {
      const block = (name: string, of: string) => [
        0,
        'BLOCK',
        2,
        name,
        10,
        0,
        20,
        0,
        0,
        'INSERT',
        8,
        0,
        2,
        of,
        70,
        1000,
        71,
        1000,
        44,
        1,
        45,
        1,
        0,
        'ENDBLK',
      ];
      const groups = [
        0,
        'SECTION',
        2,
        'BLOCKS',
        ...block('A', 'B'),
        ...block('B', 'C'),
        ...block('C', 'D'),
        0,
        'ENDSEC',
        0,
        'SECTION',
        2,
        'ENTITIES',
        0,
        'INSERT',
        8,
        0,
        2,
        'A',
        0,
        'ENDSEC',
        0,
        'EOF',
      ];
      return outlineOfDxf(`${groups.join('\n')}\n`);
    },
    finds: unusable,
    ...second,
  },
  {
    name: '190 groups in each other, each with a name',
    files: () =>
      outline(
        svg(
          `${repeated(190, (i) => `<g id="n${i}">`)}${repeated(20_000, (i) => `<circle id="c${i}" cx="${4 * (i % 140)}" cy="${4 * Math.floor(i / 140)}" r="1"/>`)}${repeated(190, () => '</g>')}`,
        ),
      ),
    finds: unusable,
    budget: { seconds: 8, mebibytes: 1200 },
  },

  // Cut off, or something else.
  {
    name: 'a drawing that stops in the middle of a number',
    files: () => outline(svg(comb(100, 20)).slice(0, 900)),
    finds: unusable,
    ...second,
  },
  {
    name: 'a DXF of nothing but zeros',
    files: () => outlineOfDxf('0\n'.repeat(1_000_000)),
    finds: unusable,
    ...second,
  },
  {
    name: 'a DXF in one line of four million letters',
    files: () => outlineOfDxf('9'.repeat(4_000_000)),
    finds: unusable,
    ...second,
  },
  {
    name: 'bytes that are no text',
    files: () => ({ ...outline(''), 'a.svg': Uint8Array.from({ length: 100_000 }, (_, i) => wild(i, 256)) }),
    finds: 'drawing-missing',
    ...second,
  },

  // Many openings on a form.
  {
    name: '400 holes in a breastplate with bays',
    files: () => ({
      'main.planish': spec(
        [
          'form wrap 180 deg, inside',
          'at 0 mm, round 900 mm, long 310 mm',
          'at 220 mm, round 960 mm, long 360 mm',
          'at 340 mm, round 900 mm, long 320 mm',
          'dish',
          'cut neck from 120 mm on top to 120 mm on top, deep 50 mm',
          ...Array.from(
            { length: 400 },
            (_, i) =>
              `hole 3 mm, at ${20 + (i % 100) * 2.5} mm above bottom and ${20 + Math.floor(i / 100) * 20} mm left of middle`,
          ),
        ].join('\n  '),
      ),
    }),
    exports: ['explain'],
    budget: { seconds: 60, mebibytes: 900 },
  },
];

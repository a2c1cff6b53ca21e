import type { HostileCase } from '../case.ts';
import { measured, one, piece, pieceOf, SHAPES, STOCK, spec } from '../specs.ts';

/** The shapes of the language at measures that no smith means, with all that is worked into them. */
const EXTREMES = ['0', '-5', '0.0001', '0.5', '5000', '90000', '1000000000', '9'.repeat(160), '1/0'];

/** Each number of a shape at each of its extremes, a piece for each. */
const atExtremes = (lines: readonly string[]): string => {
  const count = lines.join('\n').match(/\d+/g)!.length;
  return Array.from({ length: count }, (_, at) =>
    EXTREMES.map((extreme, j) =>
      piece(`p${at}-${j}`, ...measured(lines, (number, i) => (i === at ? extreme : number))),
    ).join(''),
  ).join('');
};

/** All measures of a shape so many times as large. */
const scaled = (lines: readonly string[], times: number): string[] =>
  measured(lines, (number) => String(Number((Number(number) * times).toFixed(6))));

const oddly = Object.entries(SHAPES).map(
  ([name, lines]): HostileCase => ({
    name: `${name}, a thousand times too large, too small, and in metres`,
    files: spec(
      () =>
        STOCK +
        piece('large', ...scaled(lines, 1000)) +
        piece('small', ...scaled(lines, 0.001)) +
        piece('metres', ...lines.map((line) => line.replaceAll(' mm', ' m'))),
    ),
  }),
);

const extremely = Object.entries(SHAPES).map(
  ([name, lines]): HostileCase => ({
    name: `${name}, each number at its extremes`,
    files: spec(() => STOCK + atExtremes(lines)),
    isDear: true,
    budget: { seconds: 40 },
  }),
);

const typedHalf = Object.entries(SHAPES).map(
  ([name, lines]): HostileCase => ({
    name: `${name}, each line broken off at each word`,
    files: spec(
      () =>
        STOCK +
        lines
          .flatMap((line, at) =>
            line.split(' ').map((_, words) => [...lines.slice(0, at), line.split(' ').slice(0, words).join(' ')]),
          )
          .map((half, i) => piece(`p${i}`, ...half))
          .join(''),
    ),
    isDear: true,
    budget: { seconds: 30 },
  }),
);

/** A form of so many levels, each as `level` says it. */
const levels = (count: number, level: (i: number) => string) =>
  spec(() => pieceOf('form wrap 200 deg', ...Array.from({ length: count }, (_, i) => level(i))));

export const cases: readonly HostileCase[] = [
  ...oddly,
  ...extremely,
  ...typedHalf,
  {
    name: 'a wrapped form whose last girth is in metres',
    files: one(
      'form wrap 190 deg, inside',
      'at 0 mm, round 296 mm, long 98 mm, ridge',
      'at 330 mm, round 412 m, long 130 mm',
    ),
  },
  { name: 'a half dome 248 metres long', files: one('half dome 248000 x 204 mm, deep 160 mm') },
  {
    name: 'a form 69 metres round at its foot',
    files: one('form wrap 300 deg', 'at 0 mm, round 69000 mm, long 235 mm', 'at 100 mm, round 600 mm, long 200 mm'),
  },
  {
    name: 'a cylinder thinner than a hair, with a bay',
    files: one('cylinder round 300 mm, high 0.0001 mm', 'cut bay from 10 mm on top to 20 mm on top, deep 5 mm'),
  },
  {
    name: 'a dome of 1e160 mm',
    files: one(`dome 1${'0'.repeat(160)} mm, deep 60 mm`, 'dish'),
    finds: 'number-impossible',
  },
  { name: 'a dome of 1e40 mm', files: one(`dome 1${'0'.repeat(40)} mm, deep 60 mm`, 'dish') },
  { name: 'a dome as deep as a well', files: one('dome 210 mm, deep 9000 mm', 'raise') },
  { name: 'a dome as flat as paper', files: one('dome 210 mm, deep 0.000001 mm', 'dish') },
  { name: 'an oval dome a hundred times as long as wide', files: one('oval dome 9000 x 90 mm, deep 80 mm', 'raise') },
  { name: 'a dome of 10,000 gores', files: one('gore dome 210 mm, deep 105 mm, gores 10000') },
  { name: 'a dome of one gore', files: one('gore dome 210 mm, deep 105 mm, gores 1') },
  { name: 'an oval dome of 1,000 gores', files: one('gore dome 400 x 200 mm, deep 105 mm, gores 1000') },
  { name: 'a loft of 5,000 levels', files: levels(5000, (i) => `at ${i / 10} mm, round ${300 + (i % 7)} mm`) },
  {
    name: 'a loft of 200 levels, to and fro',
    files: levels(200, (i) => `at ${i * 3} mm, round ${i % 2 ? 300 : 900} mm, long ${i % 2 ? 100 : 300} mm`),
  },
  { name: 'a loft whose levels all lie at one height', files: levels(40, () => 'at 100 mm, round 300 mm') },
  {
    name: 'a loft whose levels lie a hair apart',
    files: levels(60, (i) => `at ${(i * 0.000001).toFixed(6)} mm, round ${300 + i} mm`),
  },
  {
    name: 'a loft told from the top down, and from the middle',
    files: levels(60, (i) => `at ${(i * 37) % 61} mm, round ${300 + i} mm`),
  },
  { name: 'a loft of points', files: levels(20, (i) => `at ${i * 10} mm, point`) },
  {
    name: 'levels longer than their girth',
    files: levels(5, (i) => `at ${i * 50} mm, round 300 mm, long ${i * 1000} mm`),
  },
  {
    name: 'levels squarer than square',
    files: levels(
      6,
      (i) => `at ${i * 50} mm, round 600 mm, long 200 mm, wide ${50 + i * 60} mm, deep ${i * 80} mm, ridge`,
    ),
  },
  {
    name: 'levels that wander off',
    files: levels(
      8,
      (i) => `at ${i * 40} mm, round 500 mm, long 170 mm, offset ${i * 3000} mm ${i % 2 ? 'front' : 'back'}`,
    ),
  },
  { name: 'a wrap of a million degrees', files: one('cylinder round 300 mm, high 120 mm, wrap 1000000 deg') },
  {
    name: 'a wrap of nothing',
    files: one('cone round 260 to 200 mm, high 220 mm, wrap 0 deg', 'flute 3, deep 5 mm, wide 14 mm'),
  },
  {
    name: 'a wrap of a millionth of a degree',
    files: one('form wrap 0.000001 deg', 'at 0 mm, round 300 mm', 'at 90 mm, round 350 mm'),
  },
  {
    name: 'a cone that ends in nothing',
    files: one('cone round 260 to 0 mm, high 220 mm', 'holes row 40 of 3 mm, along top, inset 4 mm'),
  },
  { name: 'a cone flatter than flat', files: one('cone round 2600 to 20 mm, high 0.001 mm', 'raise') },
  {
    name: '60 flutes where there is room for six',
    files: one('cone round 260 to 20 mm, high 220 mm', 'flute 60, deep 5 mm, wide 14 mm'),
  },
  {
    name: 'a hundred thousand flutes',
    files: one('cylinder round 300 mm, high 120 mm', 'flute 100000, deep 5 mm, wide 1 mm'),
  },
  {
    name: 'flutes a hair wide and a metre deep',
    files: one('cylinder round 600 mm, high 300 mm', 'flute 20, deep 1000 mm, wide 0.01 mm'),
  },
  {
    name: 'forty lines of flutes on one another',
    files: one(
      'cylinder round 600 mm, high 300 mm, wrap 180 deg',
      ...Array.from({ length: 40 }, (_, i) => `flute ${i + 1}, deep 3 mm, wide 8 mm`),
    ),
  },
  {
    name: 'a hundred creases along one line',
    files: one(
      'cylinder round 600 mm, high 300 mm',
      ...Array.from({ length: 100 }, (_, i) => `crease along middle, deep ${i % 9} mm, radius 3 mm`),
    ),
  },
  {
    name: 'a crease sharper than a hair',
    files: one(
      'cylinder round 600 mm, high 300 mm',
      'crease along middle, deep 40 mm, radius 0.00001 mm, wide 0.001 mm',
    ),
  },
  {
    name: 'a flare over its own middle',
    files: one(
      'form wrap 300 deg',
      'at 0 mm, round 690 mm, long 235 mm',
      'at 60 mm, round 600 mm, long 200 mm',
      'flare bottom, 179 deg, wide 400 mm',
      'flare top, 90 deg, wide 59.999 mm',
    ),
  },
  { name: 'every edge held', files: one('half dome 248 x 204 mm, deep 160 mm', 'hold middle', 'hold rim', 'raise') },
  {
    name: 'a form held at all four edges, fluted, creased and cut',
    files: one(
      'form wrap 200 deg',
      'at 0 mm, round 690 mm, long 235 mm',
      'at 300 mm, round 500 mm, long 190 mm',
      'hold top',
      'hold bottom',
      'hold left',
      'hold right',
      'flute 6, deep 6 mm, wide 20 mm',
      'crease along middle, deep 8 mm, radius 3 mm',
      'cut neck from 30 mm on top to 30 mm on top, deep 60 mm',
    ),
  },
  {
    name: 'a hundred bays in one edge',
    files: one(
      'cylinder round 900 mm, high 200 mm, wrap 200 deg',
      ...Array.from(
        { length: 100 },
        (_, i) => `cut bay${i} from ${i * 4} mm on top to ${490 - i * 4} mm on top, deep ${5 + (i % 30)} mm`,
      ),
    ),
  },
  {
    name: 'a bay that leaves nothing',
    files: one(
      'cylinder round 300 mm, high 120 mm, wrap 200 deg',
      'cut bay from 0 mm on top to 0 mm on top, deep 119.9999 mm',
    ),
  },
  {
    name: 'a bay deeper than its piece',
    files: one(
      'form wrap 200 deg',
      'at 0 mm, round 690 mm',
      'at 90 mm, round 600 mm',
      'cut bay from 5 mm on top to 5 mm on left, deep 5000 mm, mirrored',
    ),
  },
  {
    name: '2,000 bends',
    files: spec(() =>
      pieceOf(
        'plate 5000 x 100 mm',
        ...Array.from({ length: 2000 }, (_, i) => `bend ${i + 1} mm from left, 10 deg, radius 2 mm`),
      ),
    ),
    finds: 'too-long',
    exports: ['patterns', 'layouts'],
  },
  {
    name: 'bends of a million degrees on one another',
    files: one(
      'plate 120 x 80 mm',
      ...Array.from({ length: 30 }, () => 'bend 30 mm from left, 1000000 deg, radius 0.0001 mm'),
    ),
  },
  {
    name: 'an outline of 20,000 corners',
    files: spec(() =>
      pieceOf(
        'outline',
        ...Array.from({ length: 20_000 }, (_, i) => `to ${(i * 7919) % 997} mm right and ${(i * 104_729) % 991} mm up`),
      ),
    ),
  },
  {
    name: 'an outline of 5,000 arcs, each a hair',
    files: spec(() =>
      pieceOf(
        'outline',
        ...Array.from(
          { length: 5000 },
          (_, i) => `arc to ${(i / 100).toFixed(2)} mm right and ${i % 2} mm up, radius 0.51 mm`,
        ),
      ),
    ),
  },
  {
    name: 'an outline of arcs larger than the earth',
    files: one(
      'outline',
      'to 100 mm right and 0 mm up',
      `arc to 100 mm right and 100 mm up, radius 1${'0'.repeat(30)} mm`,
      'arc to 0 mm right and 0 mm up, radius 0.001 mm',
    ),
  },
  {
    name: 'an outline that runs back over itself',
    files: one('outline', ...Array.from({ length: 50 }, (_, i) => `to ${i % 2 ? 0 : 100} mm right and 0 mm up`)),
  },
  {
    name: 'a comb higher than a house, along a line that is none',
    files: spec(
      () =>
        STOCK +
        piece('skull', 'dome 210 mm, deep 60 mm') +
        piece('c', 'comb along skull.middle, high 22000 mm, foot 0.001 mm, radius 90000 mm') +
        piece('d', 'comb along c.top, high 22 mm, foot 16 mm, radius 3 mm') +
        piece('e', 'trim along d.left, wide 9000 mm, inset -40 mm'),
    ),
  },
  {
    name: 'a strip wider than what it follows',
    files: spec(
      () =>
        STOCK +
        piece('skull', 'dome 210 mm, deep 60 mm') +
        piece('t', 'trim along skull.rim, wide 100000 mm, inset 50 mm'),
    ),
  },
  {
    name: 'lames on lames on lames',
    files: spec(
      () =>
        STOCK +
        piece('l0', 'cylinder round 400 mm, high 50 mm, wrap 200 deg') +
        Array.from({ length: 60 }, (_, i) =>
          piece(`l${i + 1}`, `lies under l${i}, gap 1 mm, high 45 mm, wrap 200 deg`),
        ).join(''),
    ),
  },
  {
    name: 'covers on covers on covers',
    files: spec(
      () =>
        STOCK +
        piece('l0', 'form wrap 200 deg', 'at 0 mm, round 690 mm, long 235 mm', 'at 300 mm, round 500 mm, long 190 mm') +
        Array.from({ length: 12 }, (_, i) =>
          piece(`l${i + 1}`, `lies over l${i}, gap 1 mm, from top to ${90 - i} mm down`),
        ).join(''),
    ),
  },
  {
    name: 'a cover longer than what it covers',
    files: spec(
      () =>
        STOCK +
        piece('base', 'form wrap 200 deg', 'at 0 mm, round 690 mm', 'at 300 mm, round 500 mm') +
        piece('over', 'lies over base, gap 900 mm, long 90000 mm, wide 0.001 mm') +
        piece('under', 'lies under base, gap -5 mm, from bottom to 5000 mm up'),
    ),
  },
  {
    name: 'lames that lie under each other',
    files: spec(
      () =>
        STOCK +
        piece('a', 'lies under b, gap 1 mm, high 45 mm') +
        piece('b', 'lies under c, gap 1 mm, high 45 mm') +
        piece('c', 'lies under a, gap 1 mm, high 45 mm') +
        piece('d', 'lies over d, gap 1 mm, from top to 20 mm down'),
    ),
  },
  {
    name: 'a thousand pieces, each like the one before',
    files: spec(
      () =>
        STOCK +
        piece('l0', 'dome 210 mm, deep 60 mm') +
        Array.from({ length: 1000 }, (_, i) => piece(`l${i + 1}`, `like l${i}, scaled 1.01`)).join(''),
    ),
    budget: { seconds: 30 },
  },
  {
    name: 'scaled by a million a million times',
    files: spec(
      () =>
        STOCK +
        piece('l0', 'dome 210 mm, deep 60 mm') +
        Array.from({ length: 40 }, (_, i) =>
          piece(`l${i + 1}`, `like l${i}, scaled ${i % 2 ? 1_000_000 : 0.000001}`),
        ).join(''),
    ),
  },
  {
    name: 'like each other',
    files: spec(() => STOCK + piece('a', 'like b, scaled 2') + piece('b', 'like a, scaled 0') + piece('c', 'like c')),
  },
  {
    name: 'two hundred templates, on levels that are not there',
    files: one(
      'form wrap 200 deg',
      'at 0 mm, round 690 mm, long 235 mm',
      'at 300 mm, round 500 mm, long 190 mm',
      ...Array.from({ length: 200 }, (_, i) => `template at ${i * 3 - 100} mm`),
      'template along front',
      'template along rim, inside',
    ),
  },
  {
    name: 'ordinary: a loft of twelve levels with flutes and a bay',
    files: one(
      'form wrap 200 deg',
      ...Array.from(
        { length: 12 },
        (_, i) => `at ${i * 25} mm, round ${600 + (i % 5) * 9} mm, long ${200 + (i % 4) * 3} mm`,
      ),
      'flute 5, deep 4 mm, wide 16 mm',
      'cut neck from 60 mm on top to 60 mm on top, deep 25 mm',
      'raise',
    ),
  },
];

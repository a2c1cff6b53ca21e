import type { HostileCase } from '../case.ts';
import { many, pieceOf, STOCK, spec } from '../specs.ts';

const one = (...lines: readonly string[]) => spec(() => pieceOf(...lines));
const FAR = `1${'0'.repeat(160)}`;

/** With what is exported: the first PDF loads its typefaces. */
const WRITTEN = { seconds: 6 } as const;

/** What must come at once, since nothing is worked out from it. */
const IMPOSSIBLE = { finds: 'number-impossible', budget: { seconds: 2 } } as const;
const UNCOUNTED = { finds: 'count-too-large', budget: { seconds: 2 } } as const;

/** Numbers that no smith means: on the way to another, with a nought too many, or at the ends of what a computer holds. */
export const cases: readonly HostileCase[] = [
  {
    name: 'a greave of 412 m, on the way to 412 mm',
    files: one(
      'form wrap 190 deg, inside',
      'at 0 mm, round 296 mm, long 98 mm, ridge',
      'at 190 mm, round 370 mm, long 120 mm',
      'at 330 mm, round 412 m, long 130 mm',
      'cut knee from 40 mm on top to 40 mm on right, deep 10 mm',
    ),
    ...IMPOSSIBLE,
  },
  {
    name: 'a breastplate 960 m wide',
    files: one('form wrap 180 deg', 'at 0 mm, round 960 m, long 240 mm', 'at 420 mm, round 1010 mm, long 260 mm'),
    ...IMPOSSIBLE,
  },
  {
    name: 'a level with stray noughts',
    files: one('form wrap 190 deg', 'at 0 mm, round 69000 mm, long 235 mm', 'at 200 mm, round 600 mm, long 200 mm'),
    ...IMPOSSIBLE,
  },
  {
    name: 'a half dome with stray noughts',
    files: one('half dome 248000 x 204 mm, deep 160 mm', 'dish'),
    ...IMPOSSIBLE,
  },
  {
    name: 'a cylinder without height, with a bay',
    files: one('cylinder round 300 mm, high 0.0001 mm', 'cut bay from 10 mm on top to 10 mm on right, deep 5 mm'),
    ...IMPOSSIBLE,
  },
  {
    name: 'a cylinder ten metres round and a hundredth high, with a bay',
    files: one('cylinder round 10 m, high 0.01 mm', 'cut bay from 10 mm on top to 40 mm on top, deep 5 mm'),
    ...IMPOSSIBLE,
  },
  {
    name: 'metres through a let',
    files: spec(() => `let calf = 412 m\n${pieceOf('cylinder round calf, high calf / 4000', 'raise')}`),
    ...IMPOSSIBLE,
  },
  {
    name: 'a dome of 1e160 mm, dished',
    files: one(`dome ${FAR} mm, deep ${FAR} mm`, 'dish'),
    ...IMPOSSIBLE,
    exports: ['cutlist', 'explain', 'patterns'],
    budget: WRITTEN,
  },
  {
    name: 'a plate of 400 digits',
    files: one(`plate ${'9'.repeat(400)} x 20 mm`),
    ...IMPOSSIBLE,
    exports: ['cutlist', 'explain'],
    budget: WRITTEN,
  },
  { name: 'a plate of 40,000 digits', files: one(`plate ${'9'.repeat(40_000)} x 20 mm`), ...IMPOSSIBLE },
  { name: 'a plate of 100,000 digits', files: one(`plate ${'9'.repeat(100_000)} x 20 mm`), finds: 'too-long' },
  {
    name: 'a million pieces',
    files: one('disc 40 mm', 'make 1000000'),
    ...UNCOUNTED,
    exports: ['cutlist', 'order', 'layouts'],
    budget: WRITTEN,
  },
  {
    name: 'ten thousand builds of ten thousand pieces',
    files: spec(() => pieceOf('disc 40 mm', 'make 10000').replace('duty stage', 'duty stage\n  make 10000')),
    exports: ['cutlist', 'order'],
    budget: WRITTEN,
  },
  {
    name: 'a thousand million flutes',
    files: one('cylinder round 300 mm, high 80 mm', 'flute 1000000000, deep 2 mm, wide 3 mm'),
    ...UNCOUNTED,
  },
  {
    name: 'ten thousand flutes',
    files: one('cylinder round 300 mm, high 80 mm', 'flute 10000, deep 0.02 mm, wide 0.02 mm'),
    budget: { seconds: 4 },
  },
  { name: 'a thousand million gores', files: one('gore dome 210 mm, deep 105 mm, gores 1000000000'), ...UNCOUNTED },
  {
    name: 'a thousand million holes',
    files: one('plate 120 x 80 mm', 'holes 1000000000 of 1 mm, along top, inset 5 mm'),
    ...UNCOUNTED,
    exports: ['patterns'],
    budget: WRITTEN,
  },
  {
    name: 'a million rivets, a hundredth of a millimetre apart',
    files: spec(
      () =>
        `${pieceOf('strip 9000 x 80 mm')}piece q\n  from plate\n  strip 9000 x 80 mm\nseam row\n  joins p, q\n  along p.top\n  rivets small, every 0.01 mm, inset 8 mm, peened domed\n`,
    ),
    ...UNCOUNTED,
    exports: ['cutlist', 'patterns'],
    budget: WRITTEN,
  },
  {
    name: 'a thousand million knuckles',
    files: spec(
      () =>
        `${pieceOf('plate 90 x 80 mm')}piece q\n  from plate\n  plate 90 x 80 mm\nmaterial pin\n  mild steel wire 3 mm\nhinge h\n  joins p.left, q.right\n  knuckles 1000000000, wide 60 mm\n  over pin\n`,
    ),
    ...UNCOUNTED,
    exports: ['patterns'],
    budget: WRITTEN,
  },
  {
    name: 'a piece scaled away, step by step',
    files: spec(
      () =>
        `${pieceOf('dome 210 mm, deep 60 mm', 'dish')}${many(200, (i) => `piece q${i}\n  like ${i ? `q${i - 1}` : 'p'}, scaled 100\n`)}`,
    ),
    finds: 'number-impossible',
    budget: { seconds: 4 },
  },
  {
    name: '1.1 squared twenty-four times',
    files: spec(() => `${STOCK}let a0 = 1.1\n${many(24, (i) => `let a${i + 1} = a${i} * a${i}\n`)}`),
    ...IMPOSSIBLE,
  },
  {
    name: '1.000001 squared twenty times, and a sum of it',
    files: spec(
      () =>
        `${STOCK}let a0 = 1.000001\n${many(20, (i) => `let a${i + 1} = a${i} * a${i}\n`)}let all = ${many(20, (i) => `a${i} + `)}1/3\n`,
    ),
    budget: { seconds: 2 },
  },
  {
    name: 'a sum of ten thousand terms',
    files: spec(() => `${STOCK}let all = ${many(10_000, (i) => `1/${i + 2} mm + `)}1 mm\n`),
    finds: 'too-long',
    budget: { seconds: 3 },
  },
  {
    name: 'brackets a thousand deep',
    files: spec(() => `${STOCK}let all = ${'('.repeat(1000)}1 mm${')'.repeat(1000)}\n`),
    finds: 'nested-too-deep',
    budget: { seconds: 2 },
  },
  {
    name: 'the thinnest that is made: a foil, a shallow crease, a long coil',
    files: spec(
      () =>
        `${STOCK}material foil\n  brass 0.05 mm\n  coil 500 m\npiece p\n  from plate\n  cylinder round 300 mm, high 80 mm\n  crease along middle, deep 0.01 mm\n`,
    ),
  },
];

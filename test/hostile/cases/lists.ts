import type { HostileCase } from '../case.ts';
import { many, one, piece, pieceOf, STOCK, spec } from '../specs.ts';

const strips = `${piece('a', 'strip 1900 x 40 mm')}${piece('b', 'strip 1900 x 40 mm')}`;
const seam = (...lines: readonly string[]) =>
  `seam s\n  joins a, b\n  along a.top\n${lines.map((line) => `  ${line}\n`).join('')}\n`;
const seamOf = (...lines: readonly string[]) => spec(() => STOCK + strips + seam(...lines));
/** Names that nobody reads to their end. */
const longName = 'x'.repeat(10_000);

/** Long, wide and many: lists, rows, seams, sections, names. */
export const cases: readonly HostileCase[] = [
  { name: 'a seam of 10,000 rivets', files: seamOf('rivets small, count 10000, inset 10 mm') },
  { name: 'a seam of 1,900,000 rivets', files: seamOf('rivets small, every 0.001 mm, inset 10 mm') },
  { name: 'a seam of 1e30 rivets', files: seamOf(`rivets small, count 1${'0'.repeat(30)}, inset 10 mm`) },
  {
    name: 'a seam with no room between its rivets',
    files: seamOf('rivets small, every 0 mm, inset -10 mm', 'overlap 90000 mm'),
  },
  {
    name: 'a seam of 1,000 stacks along 1,000 edges',
    files: spec(
      () =>
        `${STOCK}${strips}seam s\n${many(1000, () => '  joins a, b, a, b\n')}${many(1000, (i) => `  along a.${['top', 'bottom', 'left', 'right'][i % 4]}, from ${i % 90} mm to ${i} mm\n`)}  rivets small, every 28 mm, inset 8 mm\n`,
    ),
  },
  {
    name: '1,000 seams along one edge',
    files: spec(
      () =>
        STOCK +
        strips +
        many(
          1000,
          (i) => `seam s${i}\n  joins a, b\n  along a.top\n  rivets small, every ${20 + (i % 9)} mm, inset 10 mm\n\n`,
        ),
    ),
    budget: { seconds: 30, mebibytes: 1500 },
  },
  {
    name: '500 seams that share rivets with the one before',
    files: spec(
      () =>
        STOCK +
        strips +
        seam('rivets small, every 28 mm, inset 10 mm') +
        many(
          500,
          (i) =>
            `seam t${i}\n  joins a, b\n  shares ${i ? `t${i - 1}` : 's'} ${i} and ${i + 1}\n  rivets small, peened flat\n\n`,
        ),
    ),
  },
  {
    name: 'seams that share with each other',
    files: spec(
      () =>
        `${STOCK}${strips}seam s\n  joins a, b\n  shares t 1 and 2\n\nseam t\n  joins a, b\n  shares s 1 and 2\n\nseam u\n  joins a, b\n  shares u 1\n`,
    ),
  },
  {
    name: 'a stack of 2,000 plates',
    files: spec(
      () =>
        `${STOCK}${strips}seam s\n  joins ${many(1000, () => 'a, b, ')}a\n  along a.top\n  rivets small, every 28 mm, inset 8 mm\n`,
    ),
  },
  {
    name: '1,000 straps with 1e9 buckles',
    files: spec(
      () =>
        `${STOCK}part buckle\n  price 1\n\n${strips}seam s\n  joins a, b\n${many(1000, (i) => `  strap hide, wide ${i} mm, long 180 mm, buckle buckle, count 1000000000, at ${i} mm from top\n`)}`,
    ),
  },
  { name: '200,000 commas', files: spec(() => pieceOf(`disc 90 mm${','.repeat(200_000)}`)), finds: 'too-long' },
  {
    name: '20,000 lines of nothing but a comma',
    files: spec(() => pieceOf('disc 90 mm', ...Array.from({ length: 20_000 }, () => ','))),
  },
  {
    name: '50,000 bare words',
    files: spec(() => pieceOf('disc 90 mm', ...Array.from({ length: 50_000 }, (_, i) => `word${i % 100}`))),
  },
  {
    name: '100,000 headers',
    files: spec(() => many(100_000, (i) => `piece p${i}\n`)),
    isDear: true,
    budget: { seconds: 40, mebibytes: 1000 },
  },
  { name: '20,000 headers', files: spec(() => many(20_000, (i) => `piece p${i}\n`)), budget: { seconds: 20 } },
  {
    name: '20,000 headers of one name',
    files: spec(() => STOCK + many(20_000, () => 'piece p\n  from plate\n')),
    budget: { seconds: 25, mebibytes: 1100 },
  },
  {
    name: '10,000 pieces',
    files: spec(() => STOCK + many(10_000, (i) => piece(`p${i}`, `disc ${(i % 90) + 5} mm`))),
    isDear: true,
    budget: { seconds: 240, mebibytes: 1800 },
  },
  {
    name: '2,000 domes',
    files: spec(
      () => STOCK + many(2000, (i) => piece(`p${i}`, `dome ${150 + i / 10} mm, deep ${40 + i / 100} mm`, 'dish')),
    ),
    isDear: true,
    budget: { seconds: 40 },
  },
  {
    name: '200 fitted forms',
    files: spec(
      () =>
        STOCK +
        many(200, (i) =>
          piece(
            `p${i}`,
            'form wrap 190 deg',
            `at 0 mm, round ${296 + i} mm, long 98 mm`,
            `at 150 mm, round ${338 + i} mm, long 112 mm`,
            'raise',
          ),
        ),
    ),
    isDear: true,
    budget: { seconds: 60 },
  },
  {
    name: '20,000 excuses',
    files: spec(() =>
      pieceOf('disc 90 mm', ...Array.from({ length: 20_000 }, () => 'planish # allow line-twice: as told')),
    ),
  },
  {
    name: 'an excuse with 50,000 checks in it',
    files: spec(() => pieceOf(`disc 90 mm # allow ${'pitch-too-wide, '.repeat(50_000)}: all of them`)),
  },
  {
    name: '20,000 holes, each with its line',
    files: spec(() =>
      pieceOf(
        'plate 900 x 900 mm',
        ...Array.from(
          { length: 20_000 },
          (_, i) => `hole h${i} 1 mm, at ${i % 880} mm from left and ${(i * 7) % 880} mm from bottom`,
        ),
      ),
    ),
    isDear: true,
    budget: { seconds: 60 },
  },
  {
    name: '1,000 holes on a form',
    files: spec(() =>
      pieceOf(
        'form wrap 200 deg',
        'at 0 mm, round 900 mm, long 300 mm',
        'at 500 mm, round 800 mm, long 260 mm',
        ...Array.from(
          { length: 1000 },
          (_, i) => `hole h${i} 1 mm, at ${10 + (i % 400)} mm from bottom and ${(i * 7) % 200} mm right of middle`,
        ),
      ),
    ),
    isDear: true,
    budget: { seconds: 60 },
  },
  {
    name: 'a row of a million holes',
    files: one(
      'plate 900 x 900 mm',
      'holes row 1000000 of 1 mm, along top, inset 10 mm',
      'breaths b 1000000 of 1 mm, rows 1000, pitch 0.5 mm, at 400 mm from top',
    ),
  },
  {
    name: 'rows without a hole, holes without a size, in a million rows',
    files: one(
      'dome 300 mm, deep 100 mm',
      'holes row 0 of 0 mm, along rim, inset 0 mm',
      'breaths b 24 of 4 mm, rows 1000000, pitch 0 mm, at 60 mm from rim',
      'breaths c 24 of 4 mm, rows 0, at 0 mm from rim',
    ),
  },
  {
    name: 'a slot longer than its piece, and one thinner than a hair',
    files: one(
      'dome 300 mm, deep 100 mm',
      'slot a 90000 x 12 mm, at 60 mm from rim',
      'slot b 110 x 0.00001 mm, at 60 mm from rim',
      'slot c 0 x 0 mm, at 60000 mm from rim and 99999 mm right of middle',
    ),
  },
  {
    name: '3,000 sheets in the rack',
    files: spec(
      () =>
        `${STOCK}material much\n  mild steel 1 mm\n${many(3000, (i) => `  sheet ${500 + i} x ${600 + i} mm, price ${i}, have ${i}\n`)}\n${many(30, (i) => `piece p${i}\n  from much\n  disc ${90 + i} mm\n  make ${i * 100}\n\n`)}`,
    ),
    budget: { seconds: 30 },
  },
  {
    name: 'a million copies of a million builds',
    files: spec(
      () =>
        `${STOCK.replace('duty stage', 'duty stage\n  make 1000000, spare 1000000')}${piece('p', 'disc 90 mm', 'make 1000000, mirrored')}`,
    ),
    finds: 'count-too-large',
  },
  {
    name: '2,000 copies to lay on sheets',
    files: spec(
      () =>
        STOCK +
        piece('p', 'plate 120 x 80 mm', 'make 2000') +
        piece(
          'q',
          'outline',
          'to 95 mm right and 0 mm up',
          'arc to 72 mm right and 105 mm up, radius 130 mm',
          'to 0 mm right and 0 mm up',
          'make 999',
        ),
    ),
    budget: { seconds: 30 },
  },
  {
    name: 'an offcut smaller than its margin, sheets of nothing, a kerf wider than the sheet',
    files: spec(
      () =>
        `${STOCK}material odd\n  mild steel 1 mm\n  sheet 0 x 0 mm\n  sheet 100 x 0.001 mm, have 1000000\n  offcut 3 x 3 mm\n  margin 5000 mm\n  kerf 5000 mm\n\npiece p\n  from odd\n  disc 90 mm\n`,
    ),
  },
  {
    name: 'names of 10,000 letters',
    files: spec(
      () => `${STOCK}${piece(longName, 'disc 90 mm')}${piece('q', `trim along ${longName}.rim, wide 18 mm`)}`,
    ),
  },
  {
    name: 'a title of 20,000 letters, and notes as long',
    files: spec(
      () => `${STOCK.replace('Hostile', 'W'.repeat(20_000))}## ${'very '.repeat(10_000)}\n${piece('p', 'disc 90 mm')}`,
    ),
    exports: ['cutlist', 'order', 'patterns', 'explain'],
  },
  {
    name: 'a title of 20,000 words in every script',
    files: spec(() => `${STOCK.replace('Hostile', 'ß Ж 盾 ’ '.repeat(5_000))}${piece('p', 'disc 90 mm')}`),
    exports: ['cutlist', 'patterns'],
  },
  {
    name: 'a finish of 5,000 steps on 5,000 surfaces',
    files: spec(
      () =>
        `${STOCK}${strips}finish f\n  on ${many(5000, (i) => `${i % 2 ? 'a' : 'b'} ${i % 3 ? 'outside' : 'inside'}, `)}a\n${many(5000, (i) => `  sand ${many(20, (j) => `${40 + ((i + j) % 400)}, `)}80 grit\n`)}`,
    ),
  },
  {
    name: 'an order of 5,000 lines in a circle',
    files: spec(
      () =>
        `${STOCK}${many(100, (i) => piece(`p${i}`, 'disc 90 mm', 'dish'))}order o\n${many(5000, (i) => `  first p${i % 100} dish, then p${(i + 1) % 100} dish\n`)}`,
    ),
    finds: 'order-circle',
  },
  {
    name: 'an order of one line with 5,000 steps',
    files: spec(
      () => `${STOCK}${strips}order o\n  first ${many(5000, (i) => `${i % 2 ? 'a' : 'b'} cut, then `)}a cut\n`,
    ),
  },
  {
    name: '2,000 wearers with every measure',
    files: spec(() =>
      many(
        2000,
        (i) =>
          `wearer w${i}\n  head round ${500 + i} mm\n  head length 200 mm\n  head breadth ${i} mm\n  knee round 385 mm\n\n`,
      ),
    ),
    budget: { seconds: 20 },
  },
  {
    name: '2,000 materials',
    files: spec(
      () =>
        STOCK +
        many(
          2000,
          (i) =>
            `material m${i}\n  mild steel ${(i % 40) / 10} mm\n  density ${i} g/cm3\n  yield ${i} MPa\n  elongation ${i} %\n\n`,
        ) +
        piece('p', 'disc 90 mm'),
    ),
    budget: { seconds: 20 },
  },
  {
    name: 'a shop of 10,000 lines',
    files: spec(
      () =>
        `${STOCK}shop s\n  currency GBP\n${many(5000, (i) => `  punch ${many(5, (j) => `${i + j}, `)}4 mm, up to mild steel ${i} mm\n  blade ${i} tpi\n`)}${piece('p', 'disc 90 mm', 'hole h 4 mm, at 20 mm from rim')}`,
    ),
    budget: { seconds: 20 },
  },
  {
    name: '1,000 rulebooks, each line a thousand times',
    files: spec(
      () =>
        `${STOCK}${many(100, (i) => `rules r${i}\n${many(100, (j) => `  finished at least ${j} mm, where dished\n`)}\n`)}${piece('p', 'dome 300 mm, deep 100 mm', 'dish')}`,
    ),
  },
  {
    name: 'a hinge of a million knuckles',
    files: spec(
      () =>
        `${STOCK}${piece('l', 'plate 80 x 60 mm')}${piece('m', 'plate 80 x 60 mm')}hinge h\n  joins l.right, m.left\n  knuckles 1000000, wide 60 mm\n  over edge-wire\n  swing 0 to 90000 deg\n\nhinge i\n  joins l.right, l.right\n  knuckles -3, wide 0.0001 mm\n  over edge-wire\n`,
    ),
  },
  {
    name: '500 hinges in a row of leaves',
    files: spec(
      () =>
        STOCK +
        many(501, (i) => piece(`l${i}`, 'plate 80 x 60 mm')) +
        many(
          500,
          (i) => `hinge h${i}\n  joins l${i}.right, l${i + 1}.left\n  knuckles 5, wide 50 mm\n  over edge-wire\n\n`,
        ),
    ),
    budget: { seconds: 20 },
  },
  {
    name: '300 joints over all plates',
    files: spec(
      () =>
        STOCK +
        many(40, (i) => piece(`l${i}`, 'plate 80 x 60 mm')) +
        many(
          300,
          (i) =>
            `joint j${i}\n  plates ${many(40, (j) => `l${j}, `)}l0\n  pivots small, inset 10 mm, left\n  slides small, inset 10 mm, right, play ${i} mm\n  bends 0 to 120 deg\n\n`,
        ),
    ),
  },
  {
    name: '40 joints of 12 plates',
    files: spec(
      () =>
        STOCK +
        many(12, (i) => piece(`l${i}`, 'plate 80 x 60 mm')) +
        many(
          40,
          (i) =>
            `joint j${i}\n  plates ${Array.from({ length: 12 }, (_, j) => `l${j}`).join(', ')}\n  pivots small, inset 10 mm, left\n  slides small, inset 10 mm, right, play ${i} mm\n  bends 0 to 120 deg\n\n`,
        ),
    ),
  },
  {
    name: 'a roll over a wire thicker than the piece, on every edge, in parts',
    files: spec(
      () =>
        `${STOCK}material log\n  mild steel wire 900 mm\n\n${piece('p', 'plate 120 x 80 mm', ...['top', 'bottom', 'left', 'right'].map((edge) => `edge ${edge} rolled over log, outward`), ...Array.from({ length: 300 }, (_, i) => `edge top hemmed 6 mm, from ${i} mm to ${i + 1} mm`))}`,
    ),
  },
  {
    name: 'a log of 20,000 finds',
    files: spec(
      () =>
        `${STOCK}${piece('p', 'dome 210 mm, deep 60 mm')}log l\n  dated 2027-02-11\n${many(20_000, (i) => `  found p crown ${(i / 1000).toFixed(3)} mm\n`)}`,
    ),
  },
];

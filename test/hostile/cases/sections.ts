import type { HostileCase } from '../case.ts';
import { many, one, piece, pieceOf, STOCK, spec } from '../specs.ts';

const fromBytes = (...parts: readonly (string | readonly number[])[]): Uint8Array =>
  new Uint8Array(Buffer.concat(parts.map((part) => Buffer.from(part as string))));
const utf16 = (text: string, bigEndian: boolean): Uint8Array => {
  const bytes = Buffer.from(`\ufeff${text}`, 'utf16le');
  return new Uint8Array(bigEndian ? bytes.swap16() : bytes);
};
const plain = pieceOf('disc 90 mm');

/** Texts as such: empty, half typed, in wrong encodings, nested, in circles, and what leads to other files. */
export const cases: readonly HostileCase[] = [
  { name: 'nothing', files: spec(() => '') },
  { name: 'one line end', files: spec(() => '\n') },
  {
    name: '200,000 empty lines',
    files: spec(() => '\n'.repeat(200_000)),
    budget: { seconds: 10, mebibytes: 1400 },
  },
  {
    name: '100,000 lines of spaces',
    files: spec(() => `${' '.repeat(40)}\n`.repeat(100_000)),
    budget: { seconds: 20 },
  },
  { name: 'a line of two million spaces', files: spec(() => `${plain}${' '.repeat(2_000_000)}`) },
  {
    name: 'a line of a million letters',
    files: spec(() => `${STOCK}piece p\n  from ${'x'.repeat(1_000_000)}\n`),
    budget: { seconds: 20 },
  },
  {
    name: 'a number of a million digits',
    files: spec(() => pieceOf(`disc ${'9'.repeat(1_000_000)} mm`)),
    budget: { seconds: 20 },
  },
  { name: 'a number of 100,000 decimal places', files: spec(() => pieceOf(`disc 90.${'123'.repeat(33_000)} mm`)) },
  { name: 'a comment of a million signs', files: spec(() => `${plain}# ${'#'.repeat(1_000_000)}\n`) },
  {
    name: 'a text without an end, a megabyte long',
    files: spec(() => `${STOCK}piece p\n  from plate\n  outline "${'a/'.repeat(500_000)}\n`),
    finds: 'too-long',
  },
  { name: 'a million quotes', files: spec(() => `${STOCK}${'"'.repeat(200_000)}\n`), budget: { seconds: 20 } },
  {
    name: 'a megabyte of backslashes in a text',
    files: spec(() => `${STOCK}piece p\n  from plate\n  outline "${'\\\\'.repeat(500_000)}"\n`),
  },
  { name: 'carriage returns alone', files: spec(() => plain.replaceAll('\n', '\r')) },
  {
    name: 'every line end there is, and some that are none',
    files: spec(() => plain.replace(/\n/g, () => '\n\r\r\n\u2028\u2029\u0085\v\f')),
  },
  {
    name: 'marks of order and joiners in names',
    files: spec(
      () =>
        STOCK +
        piece('p\u202e\u200d\ufeff\u0301', 'disc 90 mm') +
        many(5000, (i) => `piece a${'\u0301'.repeat(i % 50)}${i}\n`),
    ),
    budget: { seconds: 20 },
  },
  {
    name: 'halves of letters',
    files: spec(() => `${STOCK}piece \ud800\udc00\ud83d\n  from \udee1\n  disc 90 \ud83d\udee1 mm\n`),
  },
  {
    name: 'control characters in names, titles and notes',
    files: spec(
      () =>
        `${STOCK.replace('Hostile', '\u001b[31m\u0007\u0000')}## \u001b]8;;x\u0007\n${piece('p', 'disc 90 mm # allow \u0000: \u0001')}`,
    ),
  },
  {
    name: 'Latin-1',
    files: () => ({
      'spec.planish': fromBytes(
        'planish 1\nbuild "',
        [0xe4, 0xf6, 0xfc],
        '"\n\npiece p\n  disc 90 mm ',
        [0xb1],
        ' 1 mm\n',
      ),
    }),
  },
  { name: 'UTF-16, little end first', files: () => ({ 'spec.planish': utf16(plain, false) }) },
  { name: 'UTF-16, big end first', files: () => ({ 'spec.planish': utf16(plain, true) }) },
  {
    name: 'half of a letter at the end of the file',
    files: () => ({ 'spec.planish': fromBytes(plain, '# ', [0xe2, 0x82]) }),
  },
  {
    name: 'a picture',
    files: () => ({ 'spec.planish': Uint8Array.from({ length: 200_000 }, (_, i) => (i * 7919) % 256) }),
  },
  {
    name: 'a zip and nothing else',
    files: () => ({ 'spec.planish': fromBytes('PK', [3, 4, 0, 0], '\0'.repeat(100_000)) }),
  },
  {
    name: '5,000 brackets deep',
    files: spec(() => `let a = ${'('.repeat(5000)}1 mm${')'.repeat(5000)}\n${plain}`),
    finds: 'nested-too-deep',
  },
  {
    name: '200,000 brackets that nobody closes',
    files: spec(() => `let a = ${'('.repeat(200_000)}\n${plain}`),
    budget: { seconds: 20 },
  },
  {
    name: '50,000 terms in one sum',
    files: spec(() => `let a = ${'1 mm + '.repeat(50_000)}1 mm\n${plain}`),
    budget: { seconds: 20 },
  },
  {
    name: '5,000 functions in one another',
    files: spec(() => `let a = ${'max(1 mm, '.repeat(5000)}1 mm${')'.repeat(5000)}\n${plain}`),
  },
  {
    name: '100,000 minus signs',
    files: spec(() => `let a = ${'- '.repeat(100_000)}1 mm\n${plain}`),
    budget: { seconds: 20 },
  },
  {
    name: 'a chain of 5,000 lets',
    files: spec(() => `${many(5000, (i) => `let a${i} = a${i + 1} + 1 mm\n`)}let a5000 = 1 mm\n${plain}`),
    budget: { seconds: 20 },
  },
  {
    name: 'a circle of 5,000 lets',
    files: spec(() => `${many(5000, (i) => `let a${i} = a${(i + 1) % 5000} + 1 mm\n`)}${plain}`),
    finds: 'nested-too-deep',
    budget: { seconds: 20 },
  },
  {
    name: 'lets that double, forty deep',
    files: spec(() => `let a0 = 1 mm\n${many(40, (i) => `let a${i + 1} = a${i} + a${i}\n`)}${pieceOf('disc a40')}`),
  },
  {
    name: 'sixteen squarings',
    files: spec(
      () => `let a0 = 1.1\n${many(16, (i) => `let a${i + 1} = a${i} * a${i}\n`)}${pieceOf('disc a16 * 1 mm')}`,
    ),
  },
  {
    name: 'a thousand squarings',
    files: spec(
      () => `let a0 = 1.1\n${many(1000, (i) => `let a${i + 1} = a${i} * a${i}\n`)}${pieceOf('disc a1000 * 1 mm')}`,
    ),
  },
  {
    name: 'squarings of a third',
    files: spec(
      () => `let a0 = 1/3\n${many(24, (i) => `let a${i + 1} = a${i} * a${i} + 1/7\n`)}${pieceOf('disc a24 * 1 mm')}`,
    ),
  },
  {
    name: 'division by nothing, roots of less',
    files: spec(
      () =>
        `let a = 1 mm / 0\nlet b = sqrt(-1) * 1 mm\nlet c = tan(90 deg) * 1 mm\nlet d = round-up(5 mm, 0 mm)\n${pieceOf('disc a + b + c + d')}`,
    ),
  },
  {
    name: 'measures out of one another in a circle of pieces',
    files: spec(
      () => STOCK + piece('a', 'disc b.rim.length') + piece('b', 'disc c.rim.length') + piece('c', 'disc a.rim.length'),
    ),
  },
  {
    name: 'pieces that take their measures from the one before, 300 deep',
    files: spec(
      () => STOCK + piece('p0', 'disc 90 mm') + many(300, (i) => piece(`p${i + 1}`, `disc p${i}.rim.length / 3`)),
    ),
    budget: { seconds: 20 },
  },
  {
    name: 'a tolerance wider than the world',
    files: one('disc 90 mm ± 100000 mm', 'hole h 4 mm ± 4000 mm, at 20 mm from rim'),
  },
  {
    name: 'a sheet whose thickness may be anything',
    files: spec(
      () => `${STOCK.replace('1.5 mm', '1.5 mm ± 1.4999999 mm')}${piece('p', 'dome 300 mm, deep 100 mm', 'dish')}`,
    ),
  },
  {
    name: 'no thickness at all, and a metre of it',
    files: spec(
      () =>
        `material none\n  mild steel 0 mm\n\nmaterial much\n  mild steel 1000 mm\n\npiece a\n  from none\n  dome 300 mm, deep 100 mm\n  dish\n\npiece b\n  from much\n  dome 300 mm, deep 100 mm\n  raise\n  edge rim rolled, hollow 3 mm\n`,
    ),
  },
  {
    name: 'hardened at a million degrees for a million years',
    files: one(
      'dome 300 mm, deep 100 mm',
      'harden 1000000 C, quench oil',
      'temper -300 C, for 10000000000 h',
      'anneal 0 F',
    ),
  },
  {
    name: 'every unit where it does not belong',
    files: one(
      'disc 90 deg',
      'hole h 4 g, at 20 C from rim',
      'bend 30 MPa from left, 90 mm, radius 2 grit',
      'harden 830 mm, quench oil',
    ),
  },
  {
    name: 'all that contradicts itself',
    files: one(
      'disc 90 mm',
      'dome 90 mm, deep 40 mm',
      'dish',
      'raise',
      'dish then raise',
      'blank disc 1 mm',
      'blank 90000 x 1 mm',
      'grain up',
      'grain across',
      'from edge-wire',
      'from hide',
      'from p',
      'make 0',
      'make -1',
      'make 1/2',
    ),
    finds: 'line-twice',
  },
  {
    name: 'a section of each kind without a line',
    files: spec(() =>
      [
        'build "x"',
        'wearer a',
        'material b',
        'rivet c',
        'part d',
        'rules e',
        'piece f',
        'seam g',
        'hinge h',
        'joint i',
        'finish j',
        'shop k',
        'order l',
        'log m',
      ].join('\n'),
    ),
  },
  {
    name: 'a section of each kind with the lines of all others',
    files: spec(() =>
      [
        'build "x"',
        'wearer a',
        'material b',
        'rivet c',
        'part d',
        'rules e',
        'piece f',
        'seam g',
        'hinge h',
        'joint i',
        'finish j',
        'shop k',
        'order l',
        'log m',
      ]
        .map(
          (header) =>
            `${header}\n  from plate\n  dome 210 mm, deep 60 mm\n  rivets small, count 3\n  mild steel 1 mm\n  joins f, f\n  sheet 1 x 1 mm\n  on f outside\n  first f dish, then g\n  found f crown 1 mm\n\n`,
        )
        .join(''),
    ),
    finds: 'section-wrong',
  },
  {
    name: 'lines that go on and on',
    files: spec(() => `${STOCK}piece p\n  from plate\n  disc 90 mm,\n${'    outside,\n'.repeat(20_000)}`),
    budget: { seconds: 20 },
  },
  {
    name: 'a file that uses itself',
    files: () => ({ 'spec.planish': `use "spec.planish"\nuse "./spec.planish"\n${plain}` }),
    finds: 'use-circle',
  },
  {
    name: '300 files in a row, each using the next twice',
    files: () =>
      Object.fromEntries([
        ['spec.planish', `use "f0.planish"\n${plain}`],
        ...Array.from(
          { length: 300 },
          (_, i) =>
            [
              `f${i}.planish`,
              i < 299
                ? `use "f${i + 1}.planish"\nuse "./f${i + 1}.planish"\n\nmaterial m${i}\n  mild steel 1 mm\n`
                : '',
            ] as const,
        ),
      ]),
  },
  {
    name: 'sixty files that all use all',
    files: () =>
      Object.fromEntries(
        Array.from({ length: 60 }, (_, i) => [
          i ? `f${i}.planish` : 'spec.planish',
          `${many(60, (j) => `use "${j ? `f${j}` : 'spec'}.planish"\n`)}\nmaterial m${i}\n  mild steel ${i + 1} mm\n`,
        ]),
      ),
    budget: { seconds: 20 },
  },
  {
    name: '5,000 files used that are not there',
    files: spec(() => `${many(5000, (i) => `use "f${i}.planish"\n`)}${plain}`),
    finds: 'use-missing',
    budget: { seconds: 20 },
  },
  {
    name: 'a used file in another encoding',
    files: () => ({
      'spec.planish': `use "stock.planish"\n${plain}`,
      'stock.planish': fromBytes('material m', [0xe9], '\n  mild steel 1 mm\n'),
    }),
  },
  {
    name: 'a used file of twenty megabytes',
    files: () => ({
      'spec.planish': `use "stock.planish"\n${plain}`,
      'stock.planish': '# as bought, as ever, as always, as long as there is any left\n'.repeat(330_000),
    }),
    isDear: true,
    budget: { seconds: 20, mebibytes: 1200 },
  },
  {
    name: 'names that are nearly each other',
    files: spec(
      () =>
        `${STOCK}${many(1500, (i) => `material plate-${i.toString(2).padStart(11, '0')}\n  mild steel 1 mm\n\n`)}${many(200, (i) => piece(`p${i}`, `from plate-${i.toString(2).padStart(12, '0')}`, 'disc 90 mm'))}`,
    ),
    finds: 'unknown-name',
    budget: { seconds: 30 },
  },
  {
    name: 'ten thousand unknown words, each near a known one',
    files: spec(() =>
      pieceOf(
        'disc 90 mm',
        ...Array.from(
          { length: 10_000 },
          (_, i) => `${['planihs', 'raize', 'temprer', 'hoel', 'edgge'][i % 5]} ${i} mm`,
        ),
      ),
    ),
    finds: 'unknown-word',
    budget: { seconds: 30 },
  },
  {
    name: 'arithmetic with every sign in the wrong place',
    files: spec(
      () => `${many(2000, (i) => `let a${i} = ${'+-*/x(),.±%'.repeat(3)} ${i} mm ${'^&|!'.repeat(3)}\n`)}${plain}`,
    ),
    budget: { seconds: 20 },
  },
  { name: 'ordinary: a spec without its last line end', files: spec(() => plain.trimEnd()) },
];

import type { HostileCase } from '../case.ts';
import { many, pieceOf, STOCK, spec } from '../specs.ts';

const excused = '  disc 90 mm # allow pitch-too-wide: because\n';

/** Texts that nobody writes: longer than any, deeper than any, or of letters that stand for nothing. */
export const cases: readonly HostileCase[] = [
  {
    name: '100,000 headers',
    files: spec(() => many(100_000, (i) => `piece p${i}\n`)),
    finds: 'too-long',
    budget: { seconds: 60 },
  },
  {
    name: '100,000 headers of one name',
    files: spec(() => 'piece p\n'.repeat(100_000)),
    finds: 'too-long',
    budget: { seconds: 60 },
  },
  {
    name: '20,000 excuses in one section',
    files: spec(() => `${STOCK}piece a\n  from plate\n${excused.repeat(20_000)}`),
    finds: 'too-long',
  },
  {
    name: '5,000 excuses in sections of their own',
    files: spec(() => STOCK + many(5_000, (i) => `piece p${i}\n  from plate\n${excused}\n`)),
    finds: 'excuse-unused',
    budget: { seconds: 40, mebibytes: 1100 },
  },
  { name: 'a loft of 5,000 levels', files: spec(() => pieceOf('loft', ...levels(5_000))), finds: 'too-long' },
  {
    name: 'a line of a million letters',
    files: spec(() => pieceOf(`disc ${'word '.repeat(200_000)}`)),
    finds: 'too-long',
  },
  {
    name: 'a sum of 150,000 terms',
    files: spec(() => pieceOf(`disc ${'1 mm + '.repeat(150_000)}1 mm`)),
    finds: 'too-long',
  },
  {
    name: 'a section of 100,000 lines',
    files: spec(() => `${STOCK}piece a\n  from plate\n${'  edge top rolled\n'.repeat(100_000)}`),
    finds: 'too-long',
  },
  {
    name: '100,000 blank lines',
    files: spec(() => `${STOCK}${'\n'.repeat(100_000)}piece a\n  from plate\n  disc 90 mm\n`),
  },
  {
    name: 'a comment of five million letters',
    files: spec(() => `${STOCK}# ${'comment '.repeat(620_000)}\npiece a\n  from plate\n  disc 90 mm\n`),
    finds: 'too-long',
  },
  {
    name: '75,000 rows of comment',
    files: spec(() => `${STOCK}${`# ${'comment '.repeat(8)}\n`.repeat(75_000)}piece a\n  from plate\n  disc 90 mm\n`),
    finds: 'too-long',
  },
  {
    name: 'a list of 50,000 names',
    files: spec(() => `${STOCK}finish f\n  on ${many(50_000, (i) => `p${i}, `)}a\n  sand 120 grit\n`),
    finds: 'too-long',
  },
  {
    name: 'a piece with a name of 20,000 letters',
    files: spec(() => `${STOCK}piece ${'a'.repeat(20_000)}\n  from plate\n  disc 90 mm\n`),
    finds: 'too-long',
    exports: ['cutlist', 'order', 'patterns', 'layouts'],
  },
  { name: '100,000 brackets', files: spec(() => pieceOf(`disc ${'('.repeat(100_000)}1 mm`)), finds: 'too-long' },
  {
    name: 'a number of 200,000 digits',
    files: spec(() => pieceOf(`disc ${'9'.repeat(200_000)} mm`)),
    finds: 'too-long',
  },
  { name: '200,000 quotes', files: spec(() => pieceOf(`note ${'"'.repeat(200_001)}`)), finds: 'too-long' },
  { name: '200,000 backslashes', files: spec(() => pieceOf(`note "${'\\'.repeat(200_001)}"`)), finds: 'too-long' },
  { name: '1,500 halves of letters', files: spec(() => pieceOf('\ud800'.repeat(1_500))), finds: 'mark-unknown' },
  { name: '20,000 halves of letters', files: spec(() => pieceOf('\ud800'.repeat(20_000))), finds: 'too-long' },
  { name: '200,000 tabs', files: spec(() => `${STOCK}${'\t'.repeat(200_000)}\npiece a\n  from plate\n  disc 90 mm\n`) },
  {
    name: '3,000 sections with all sorts of line ends',
    files: spec(() => many(3_000, (i) => ['piece p', '  disc 9 mm', ''].join(['\r\n', '\n', '\r', '\n\r'][i % 4]!))),
    budget: { seconds: 60, mebibytes: 1_000 },
  },
  {
    name: 'a chain of 2,000 pieces each like the one before',
    files: spec(
      () =>
        `${STOCK}piece p0\n  from plate\n  disc 90 mm\n\n${many(2_000, (i) => `piece p${i + 1}\n  like p${i}\n\n`)}`,
    ),
    budget: { seconds: 60 },
  },
  {
    name: 'a ring of 2,000 pieces each like the next',
    files: spec(() => STOCK + many(2_000, (i) => `piece p${i}\n  like p${(i + 1) % 2_000}\n\n`)),
    budget: { seconds: 60 },
  },
  {
    name: '5,000 measures made one from another',
    files: spec(() => `let a0 = 1 mm\n${many(5_000, (i) => `let a${i + 1} = a${i} + 1 mm\n`)}`),
    finds: 'too-long',
  },
];

const levels = (count: number): string[] =>
  Array.from({ length: count }, (_, i) => `at ${i} mm, round ${300 + (i % 7)} mm`);

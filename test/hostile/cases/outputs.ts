import type { HostileCase } from '../case.ts';
import { many, pieceOf, STOCK, spec } from '../specs.ts';

const all = ['cutlist', 'order', 'patterns', 'layouts', 'explain'] as const;
const titled = (title: string) => STOCK.replace('"Hostile"', `"${title}"`);
const disc = 'piece a\n  from plate\n  disc 90 mm\n';

/** Specs that are dear to put on paper. */
export const cases: readonly HostileCase[] = [
  {
    name: 'a plate over thousands of sheets',
    files: spec(() => pieceOf('plate 9900 x 9900 mm')),
    exports: ['patterns'],
  },
  {
    name: 'a title of one word of 20,000 letters',
    files: spec(() => titled('Longword'.repeat(2_500)) + disc),
    exports: all,
  },
  { name: 'a title of 5,000 words', files: spec(() => titled('Long word '.repeat(2_500)) + disc), exports: all },
  {
    name: 'a client of 20,000 letters',
    files: spec(() => `${STOCK.replace('  duty', `  client "${'Longword'.repeat(2_500)}"\n  duty`)}${disc}`),
    exports: all,
  },
  {
    name: 'two pages of notes on one piece',
    files: spec(() =>
      pieceOf('disc 90 mm', ...Array.from({ length: 300 }, (_, i) => `note "${'word '.repeat(12)}${i}"`)),
    ),
    exports: ['patterns', 'cutlist'],
  },
  {
    name: '1,000 pieces on paper',
    files: spec(() => STOCK + many(1_000, (i) => `piece p${i}\n  from plate\n  plate ${20 + (i % 90)} x 30 mm\n\n`)),
    exports: all,
    budget: { seconds: 120 },
  },
  {
    name: '1,000 errors on paper',
    files: spec(() => STOCK + many(1_000, (i) => `piece p${i}\n  from plat${i}\n  plaet 30 x 30 mm\n\n`)),
    exports: all,
    budget: { seconds: 60 },
  },
  {
    name: '400 bends in one plate',
    files: spec(() =>
      pieceOf(
        'plate 5000 x 80 mm',
        ...Array.from({ length: 400 }, (_, i) => `bend 10 deg at ${2 + i * 10} mm from left`),
      ),
    ),
    exports: all,
    budget: { seconds: 60 },
  },
];

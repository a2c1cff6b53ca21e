import type { HostileCase } from '../case.ts';

/* What lies beside a spec and is no text, and texts that would steer who reads them. */

const STOCK = 'material plate\n  mild steel 1.5 mm\n  sheet 1000 x 2000 mm\n';
const BROW = 'piece brow\n  from plate\n  plate 300 x 40 mm\n';
const user = (file: string): string => `use "${file}"\n\n${BROW}`;
const drawer = (file: string): string => `${STOCK}\npiece badge\n  from plate\n  outline "${file}"\n`;
const latin = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const wide = (text: string): Uint8Array =>
  Uint8Array.from(
    `\ufeff${text}`.split('').flatMap((letter) => [letter.charCodeAt(0) & 0xff, letter.charCodeAt(0) >> 8]),
  );

const PAPERS = ['cutlist', 'order', 'patterns', 'explain'] as const;

export const cases: readonly HostileCase[] = [
  {
    name: 'a used file in another encoding',
    files: () => ({ 'a.planish': user('stock.planish'), 'stock.planish': latin(`# Gr\u00f6\u00dfe\n${STOCK}`) }),
    finds: 'use-missing',
    exports: PAPERS,
  },
  {
    name: 'a used file in UTF-16',
    files: () => ({ 'a.planish': user('stock.planish'), 'stock.planish': wide(STOCK) }),
    finds: 'use-missing',
  },
  {
    name: 'a used file that is larger than any spec',
    files: () => ({ 'a.planish': user('stock.planish'), 'stock.planish': `${STOCK}# ${'x'.repeat(5_000_000)}\n` }),
    finds: 'use-missing',
  },
  {
    name: 'a used file that is a folder',
    files: () => ({ 'a.planish': user('stock'), 'stock/rack.planish': STOCK }),
    finds: 'use-missing',
  },
  {
    name: 'a used file that is a picture',
    files: () => ({
      'a.planish': user('stock.planish'),
      'stock.planish': Uint8Array.from({ length: 100_000 }, (_, i) => i * 7),
    }),
    finds: 'use-missing',
  },
  {
    name: 'a drawing in another encoding',
    files: () => ({
      'a.planish': drawer('badge.svg'),
      'badge.svg': latin('<svg><path id="Gr\u00f6\u00dfe" d="M0 0H5V5Z"/></svg>'),
    }),
    finds: 'drawing-missing',
  },
  {
    name: 'a file in a folder that is called ..foo',
    files: () => ({ 'a.planish': `planish 1\n${user('..foo/stock.planish')}`, '..foo/stock.planish': STOCK }),
    exports: ['cutlist'],
  },
  {
    name: 'letters that were lost',
    files: () => ({ 'a.planish': `## for the Stra\ufffde\n${STOCK}\n${BROW}` }),
    finds: 'letter-lost',
    exports: PAPERS,
  },
  {
    name: 'marks that turn round what follows, steer a terminal, run in a spreadsheet, or are addresses',
    files: () => {
      const steering = [
        '\u202efdp.exe',
        '\u2067x\u2069\u200f\u200e',
        '\u001b[31m\u009b1m\u0007',
        ';=1+1\t=2+2|@SUM(A1)',
        '\u0001=cmd|x!A0',
        'https://example.org www.example.org smith@example.org',
        '<script>alert(1)</script> javascript:alert(1)',
      ];
      const noted = steering.map(
        (text, i) => `## ${text}\npiece p-${i}\n  from plate # ${text}\n  plate ${300 + i} x 40 mm\n`,
      );
      return { 'a.planish': `build "${steering.join(' ')}"\n  for "${steering[0]}"\n\n${STOCK}\n${noted.join('\n')}` };
    },
    exports: PAPERS,
  },
  {
    name: 'pieces whose names fill the disk\u2019s measure',
    files: () => ({
      'a.planish': `${STOCK}\n${['a', 'b'].map((end) => BROW.replace('brow', `brow${'x'.repeat(296)}${end}`)).join('\n')}`,
    }),
    exports: PAPERS,
  },
];

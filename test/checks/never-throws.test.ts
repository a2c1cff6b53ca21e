import fc from 'fast-check';
import { checks } from '../../server/checks/all.generated.ts';
import { exampleFiles, problemsIn } from './specs.ts';

/* Whatever is typed, checks answer. Numbers are pushed to their ends, words cut and swapped, lines moved and lost. */

const RUNS = Number(process.env['EDITS'] ?? 400);
const odd = [
  '0',
  '-1',
  '1e9',
  '999999999',
  '0.000001',
  '1/0',
  'pi',
  '(',
  ')',
  ',',
  '"',
  '#',
  '\n',
  ' x ',
  ' to ',
  'left ',
  'mm',
  'ga',
  'oz',
  'deg',
  'like ',
  'lies under ',
];

describe('checks on damaged specs', () => {
  it(`never throw (${RUNS} edits)`, () => {
    const texts = checks.flatMap((check) => [check.example, check.better]);
    const words = [...new Set(texts.flatMap((text) => text.split(/\s+/)))].slice(0, 400);
    fc.assert(
      fc.property(
        fc.nat(checks.length - 1),
        fc.nat(checks.length - 1),
        fc.array(fc.tuple(fc.nat(4000), fc.nat(30), fc.constantFrom(...odd, ...words)), { minLength: 1, maxLength: 6 }),
        (one, other, edits) => {
          const check = checks[one]!;
          let text = check.example + checks[other]!.better;
          for (const [at, length, put] of edits) {
            const from = at % (text.length + 1);
            text = text.slice(0, from) + put + text.slice(from + length);
          }
          problemsIn(exampleFiles(check, text), {}, `${check.code}.planish`);
        },
      ),
      { numRuns: RUNS },
    );
  });
});

import type { HostileCase } from '../case.ts';
import { pieceOf, spec } from '../specs.ts';

const one = (...lines: readonly string[]) => spec(() => pieceOf(...lines));

/** The shapes of the language at measures that no smith means, with all that is worked into them. */
export const cases: readonly HostileCase[] = [
  {
    name: 'a wrapped form whose girth is in metres',
    files: one(
      'form wrap 190 deg, inside',
      'at 0 mm, round 296 mm, long 98 mm, ridge',
      'at 330 mm, round 412 m, long 130 mm',
    ),
  },
  { name: 'a half dome of 248 metres', files: one('half dome 248000 x 204 mm, deep 160 mm') },
  {
    name: 'a form of 69 metres round',
    files: one('form wrap 300 deg', 'at 0 mm, round 69000 mm, long 235 mm', 'at 100 mm, round 600 mm'),
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
  { name: 'a plate of 92 metres', files: one('plate 92000 x 26000 mm') },
  {
    name: 'a loft of 5,000 levels',
    files: spec(() =>
      pieceOf(
        'form wrap 200 deg',
        ...Array.from({ length: 5000 }, (_, i) => `at ${i / 10} mm, round ${300 + (i % 7)} mm`),
      ),
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
  },
  {
    name: '60 flutes on a narrow cone',
    files: one('cone round 260 to 20 mm, high 220 mm', 'flute 60, deep 5 mm, wide 14 mm'),
  },
  {
    name: 'a hundred thousand flutes',
    files: one('cylinder round 300 mm, high 120 mm', 'flute 100000, deep 5 mm, wide 1 mm'),
  },
];

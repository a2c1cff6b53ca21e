import { ellipseArea, ellipsePerimeter } from '../../server/trade/blank/plane-shapes.ts';
import { holdsAgainst } from './rows.ts';

/** Ramanujan’s second formula of 1914, half axes. */
function ramanujan(a: number, b: number): number {
  const h = ((a - b) / (a + b)) ** 2;
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}

const integral = 'complete elliptic integral, worked apart to 11 figures';

holdsAgainst(
  'Way round an ellipse',
  [
    {
      what: 'half axes 2, 1',
      source: integral,
      status: 'worked',
      ours: ellipsePerimeter(4, 2),
      theirs: 9.6884482205,
      within: 5.1e-11,
    },
    {
      what: 'half axes 5, 4',
      source: integral,
      status: 'worked',
      ours: ellipsePerimeter(10, 8),
      theirs: 28.361667889,
      within: 5.1e-11,
    },
    {
      what: 'half axes 3, 2',
      source: integral,
      status: 'worked',
      ours: ellipsePerimeter(6, 4),
      theirs: 15.8654395893,
      within: 5.1e-11,
    },
    {
      what: 'half axes 2, 1 by Ramanujan',
      source: 'Ramanujan 1914, whose error at 2 : 1 is under a billionth',
      status: 'from memory',
      ours: ellipsePerimeter(4, 2),
      theirs: ramanujan(2, 1),
      within: 9.7e-9,
    },
    {
      what: 'half axes 5, 1 by Ramanujan',
      source: 'Ramanujan 1914, whose error at 5 : 1 is nine parts in ten million',
      status: 'from memory',
      ours: ellipsePerimeter(10, 2),
      theirs: ramanujan(5, 1),
      within: 2e-5,
    },
    {
      what: 'the rule π(a + b) is short at 2 : 1 by, %',
      source: 'worked apart',
      status: 'worked',
      ours: 100 * (1 - (Math.PI * 3) / ellipsePerimeter(4, 2).value),
      theirs: 2.7,
      within: 0.05,
    },
    {
      what: 'a flat line',
      source: 'four half axes',
      status: 'worked',
      ours: ellipsePerimeter(200, 0),
      theirs: 400,
      within: 0,
    },
    {
      what: 'a circle',
      source: 'π d',
      status: 'worked',
      ours: ellipsePerimeter(100, 100),
      theirs: 314.159265359,
      within: 5e-10,
    },
    {
      what: 'area of 4 × 2',
      source: 'π a b',
      status: 'worked',
      ours: ellipseArea(4, 2),
      theirs: 2 * Math.PI,
      within: 1e-12,
    },
  ],
  'other method',
);

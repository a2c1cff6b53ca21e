import { ellipsePerimeter } from '../../server/trade/blank/plane-shapes.ts';
import { measureAt, percentileOf } from '../../server/trade/fit/body.ts';
import { clearanceRound, enlargedGirth } from '../../server/trade/fit/clearance.ts';
import { estimated } from '../../server/trade/fit/estimate.ts';
import { holdsAgainst, type Row } from './rows.ts';

const SURVEY = 'US Army survey ANSUR II, 2010–2012, raw public data';

const at = (measure: string, body: 'man' | 'woman', percent: number, theirs: number): Row => ({
  what: `${measure}, ${body}, ${percent} in a hundred, mm`,
  source: SURVEY,
  status: 'seen',
  ours: measureAt(measure, percent, body),
  theirs,
  within: 0.05,
});

holdsAgainst('Bodies', [
  at('head round', 'man', 50, 574),
  at('head round', 'man', 95, 601),
  at('head round', 'woman', 95, 597),
  at('head length', 'man', 5, 188),
  at('head breadth', 'woman', 50, 147),
  at('eye distance', 'man', 50, 64),
  at('eye distance', 'woman', 95, 67.5),
  at('neck round', 'man', 95, 443),
  at('shoulder breadth', 'man', 50, 509),
  at('chest round', 'woman', 5, 824.25),
  at('chest depth', 'man', 95, 298),
  at('waist round', 'man', 50, 937),
  at('back length', 'woman', 50, 424.5),
  at('upper arm round', 'man', 95, 418),
  at('forearm round', 'woman', 5, 235),
  at('forearm length', 'man', 50, 267),
  at('wrist round', 'man', 50, 176),
  at('hand breadth', 'woman', 95, 85),
  at('hand length', 'man', 5, 177),
  at('hand round', 'man', 95, 230),
  at('thigh round', 'woman', 50, 613),
  at('calf round', 'man', 5, 346),
  at('ankle round', 'woman', 95, 242),
  at('hip round', 'man', 50, 1017),
  at('hip breadth', 'woman', 95, 400),
  at('face breadth', 'man', 5, 133),
  at('foot round', 'woman', 50, 310),
  {
    what: 'a man’s head of 601 mm round, in a hundred',
    source: SURVEY,
    status: 'seen',
    ours: percentileOf('head round', 601, 'man'),
    theirs: 95,
    within: 1e-9,
  },
  {
    what: 'a head of 585 mm round between the man of 75 and 90 in a hundred',
    source: 'normal curve through the survey’s mean 574.4 and deviation 16.05: 74.5',
    status: 'worked',
    ours: percentileOf('head round', 585, 'man'),
    theirs: 74.5,
    within: 1.5,
  },
]);

const known = (measures: Readonly<Record<string, number>>) => (words: string) => measures[words];

holdsAgainst(
  'Missing measures',
  [
    {
      what: 'way round a man’s head from the mean length and breadth, mm',
      source: `${SURVEY}: mean headcircumference 574.37; over the oval of the two means`,
      status: 'seen',
      ours: estimated('head round', 'man', known({ 'head length': 199.5, 'head breadth': 154.33 })),
      theirs: 574.37,
      within: 1.5,
    },
    {
      what: 'the same of a woman',
      source: `${SURVEY}: mean headcircumference 561.12`,
      status: 'seen',
      ours: estimated('head round', 'woman', known({ 'head length': 189.82, 'head breadth': 147.77 })),
      theirs: 561.12,
      within: 1.5,
    },
    {
      what: 'length of the head of 601 mm round, in nineteen of twenty men at most the 99th in a hundred, mm',
      source: `${SURVEY}: headlength of 99 in a hundred men 215`,
      status: 'seen',
      ours: estimated('head length', 'man', known({ 'head round': 601 }))!.high,
      theirs: 215,
      within: 2,
    },
    {
      what: 'crown of a man’s head over the brow with the ear below it: less than ear to top, mm',
      source: `${SURVEY}: tragiontopofhead 131.15, the ear 30 to 50 mm lower than the brow (from memory)`,
      status: 'from memory',
      ours: estimated('crown height', 'man', known({})),
      theirs: 131.15 - 40,
      within: 10,
    },
  ],
  'other method',
);

holdsAgainst('Fit', [
  {
    what: 'inside of a helm round 601 mm and a 12 mm liner, mm',
    source: 'worked apart: 601 + 2π × 12',
    status: 'worked',
    ours: enlargedGirth({ girth: 601, gap: 12 }),
    theirs: 676.4,
    within: 0.05,
  },
  {
    what: 'room left in it',
    source: 'the same, the other way round',
    status: 'worked',
    ours: clearanceRound({ inside: 676.398, body: 601, liner: 12 }),
    theirs: 0,
    within: 1e-3,
  },
  {
    what: 'the oval of the 95th length and breadth with the liner falls short, mm',
    source: 'worked apart from the survey: 235 × 187 mm is 665.0 round',
    status: 'worked',
    ours: ellipsePerimeter(211 + 24, 163 + 24),
    theirs: 665,
    within: 0.05,
  },
  {
    what: 'a man’s head against the oval of its length and breadth',
    source: `${SURVEY}: 1.029 ± 0.012`,
    status: 'seen',
    ours: 574.4 / ellipsePerimeter(199.5, 154.3).value,
    theirs: 1.029,
    within: 0.012,
  },
]);

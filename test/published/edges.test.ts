import { allowanceBeyondFinished, hemAllowance, tinplateRule, wiredAllowance } from '../../server/trade/edge/edge.ts';
import { enlargedGirth } from '../../server/trade/fit/clearance.ts';
import { holdsAgainst, inches } from './rows.ts';

const thick = { wire: 3.2, thickness: 1.2 };

holdsAgainst('Edges', [
  {
    kind: 'worked example',
    what: 'wire 1/8 in, tinplate allowance, in',
    work: 'steelworker',
    source: 'wired edges: 5/16',
    status: 'seen',
    ours: inches(tinplateRule(25.4 / 8)),
    theirs: 5 / 16,
    within: 1e-12,
  },
  {
    what: 'wire 3.2 in 0.5 mm sheet',
    source: 'geometry, worked apart',
    status: 'worked',
    ours: wiredAllowance({ wire: 3.2, thickness: 0.5 }),
    theirs: 8.7,
    within: 0.05,
  },
  {
    what: 'wire 3.2 in 1.2 mm plate',
    source: 'geometry, worked apart',
    status: 'worked',
    ours: wiredAllowance(thick),
    theirs: 10.4,
    within: 0.05,
  },
  {
    what: 'how short the tinplate rule is there, %',
    source: 'worked apart: 20 to 35 % on armour plate',
    status: 'worked',
    ours: 100 * (1 - tinplateRule(3.2).value / wiredAllowance(thick).value),
    theirs: 22.8,
    within: 0.05,
  },
  {
    what: 'the same beyond the finished edge',
    source: '0.75π(d + t) − (d/2 + t), worked apart',
    status: 'worked',
    ours: allowanceBeyondFinished({ hollow: 3.2, thickness: 1.2 }),
    theirs: 7.567,
    within: 0.0005,
  },
  {
    what: 'single hem of 8 mm',
    work: 'steelworker',
    source: 'hems',
    status: 'rule seen',
    ours: hemAllowance({ width: 8, thickness: 1.2, kind: 'single' }),
    theirs: 8,
    within: 0,
  },
  {
    what: 'double hem of 8 mm',
    work: 'steelworker',
    source: 'hems',
    status: 'rule seen',
    ours: hemAllowance({ width: 8, thickness: 1.2, kind: 'double' }),
    theirs: 16,
    within: 0,
  },
  {
    what: 'flat length of a plate 100 long with a closed hem of 8 in 1.2 mm',
    source: 'L + W − 0.74 t, worked apart',
    status: 'worked',
    ours: 100 + (hemAllowance({ width: 8, thickness: 1.2, kind: 'single' }).low ?? Number.NaN),
    theirs: 107.1,
    within: 0.05,
  },
  {
    what: 'head 601 round with 12 mm of liner, inside girth',
    source: 'parallel line, worked apart',
    status: 'worked',
    ours: enlargedGirth({ girth: 601, gap: 12 }),
    theirs: 676.4,
    within: 0.05,
  },
]);

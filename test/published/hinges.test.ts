import { bendAllowance } from '../../server/trade/bend/bend.ts';
import { barrelDiameter, knuckleDevelopment, knuckleWidth } from '../../server/trade/hinge/hinge.ts';
import { holdsAgainst } from './rows.ts';

holdsAgainst('Hinges', [
  {
    what: 'knuckle of 1.2 mm plate round 3.2 mm, 300°, mm',
    source: 'worked apart: 300/180 × π × (1.65 + 0.45 × 1.2)',
    status: 'worked',
    ours: knuckleDevelopment({ pin: 3.2, thickness: 1.2 }),
    theirs: 11.47,
    within: 0.005,
  },
  {
    what: 'the same by the Navy’s bend allowance of 300°, which puts the neutral line at 0.447',
    source: 'NAVEDTRA 14018: BA = (0.01743 R + 0.0078 t) for each degree',
    status: 'rule seen',
    ours: knuckleDevelopment({ pin: 3.2, thickness: 1.2 }),
    theirs: (0.01743 * 1.65 + 0.0078 * 1.2) * 300,
    within: 0.05,
  },
  {
    what: 'a curl is a bend',
    source: 'length of the neutral line, as any bend',
    status: 'worked',
    ours: bendAllowance({ turned: 300, radius: 1.65, thickness: 1.2, kFactor: 0.45 }),
    theirs: 11.467,
    within: 0.001,
  },
  {
    what: 'knuckles of a 60 mm hinge in five, mm',
    source: 'worked apart: (60 − 4 × 0.15)/5',
    status: 'worked',
    ours: knuckleWidth({ wide: 60, knuckles: 5 }),
    theirs: 11.88,
    within: 1e-9,
  },
  {
    what: 'barrel of 1.2 mm round 3.2 mm, mm',
    source: 'worked apart: 3.2 + 0.1 + 2.4',
    status: 'worked',
    ours: barrelDiameter({ pin: 3.2, thickness: 1.2 }),
    theirs: 5.7,
    within: 1e-9,
  },
]);

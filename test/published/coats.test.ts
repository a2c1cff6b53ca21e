import { coatVolume, FILMS, paintVolume } from '../../server/trade/finish/finish.ts';
import { holdsAgainst } from './rows.ts';

holdsAgainst('Coats', [
  {
    what: 'a square metre of one coat, 40 µm of half solids, none lost, ml',
    source: 'paint maker’s spreading rate: 10 × 50 % ÷ 40 µm = 12.5 m² to the litre',
    status: 'rule seen',
    ours: coatVolume({ area: 1e6, coats: 1, kind: 'paint' }).value * FILMS.paint.landing.value,
    theirs: 80_000,
    within: 1e-6,
  },
  {
    what: 'the same by brush, a tenth lost, ml',
    source: 'the same rate ÷ 0.9',
    status: 'common practice',
    ours: paintVolume({ area: 1e6, dry: 0.04, solids: 0.5, transfer: 0.9 }),
    theirs: 88_889,
    within: 0.5,
  },
]);

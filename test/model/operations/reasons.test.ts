import assert from 'node:assert/strict';
import { workOf } from '../../../server/model/operations/order-of-work.ts';
import { type ReasonId, reasons } from '../../../server/model/operations/reasons.ts';
import { modelFrom } from '../support.ts';

const STOCK = `material plate
  mild steel 1.5 mm
material spring
  spring steel 1.2 mm
material wire-3
  mild steel wire 3 mm
material hide
  veg-tan leather 7 oz
rivet small
  copper 3 x 10 mm, flat
`;

const PLATE = `piece one
  from plate
  plate 120 x 80 mm
piece other
  from plate
  plate 120 x 80 mm
`;
const FLAP = `piece flap
  from hide
  plate 80 x 90 mm
`;
const SEAM = `seam lap
  joins one, other
  along one.top
  rivets small, count 3, inset 10 mm
`;
const HANG = `seam hang
  joins one, flap
  along one.bottom
  rivets small, count 3, inset 10 mm
`;
const BOWL = `piece bowl
  from plate
  dome 180 mm, deep 40 mm
`;

/** For each reason a spec in which it is the reason why one thing is done before another. */
const CASES: Readonly<Record<ReasonId, readonly [spec: string, before: string, after: string]>> = {
  'cut-to-the-line': [PLATE, 'one mark', 'one cut'],
  'burr-first': [PLATE, 'one cut', 'one file'],
  'flat-first': [`${BOWL}  hole 4 mm, at crown, before forming\n`, 'bowl drill 1', 'bowl dish'],
  'blank-before-forming': [`${BOWL}  dish\n`, 'bowl cut', 'bowl dish'],
  'as-written': [`${BOWL}  dish\n  planish\n`, 'bowl dish', 'bowl planish'],
  'formed-then-trimmed': ['piece bowl\n  from plate\n  dome 200 mm, deep 110 mm\n  raise\n', 'bowl raise', 'bowl trim'],
  'edge-after-forming': [`${BOWL}  dish\n  edge rim rolled over wire-3\n`, 'bowl dish', 'bowl roll 1'],
  'opened-after-forming': [`${BOWL}  dish\n  hole 4 mm, at crown\n`, 'bowl dish', 'bowl drill 1'],
  'mates-shaped': [`${PLATE}  bend 30 mm from left, 90 deg, radius 2 mm\n${SEAM}`, 'other bend 1', 'lap fit'],
  'fitted-then-drilled': [PLATE + SEAM, 'lap fit', 'lap match'],
  'holes-before-rivets': [PLATE + SEAM, 'lap match', 'lap rivet'],
  'hard-last': [
    'piece one\n  from spring\n  plate 120 x 80 mm\n  hole 4 mm, at 20 mm from left and 20 mm from top\n  harden 830 C, quench oil\n',
    'one drill 1',
    'one harden',
  ],
  'tempered-at-once': [
    'piece one\n  from spring\n  plate 120 x 80 mm\n  harden 830 C, quench oil\n  temper 290 C\n',
    'one harden',
    'one temper',
  ],
  'welded-before-hardened': [
    `piece one\n  from spring\n  plate 120 x 80 mm\n  harden 830 C, quench oil\npiece other\n  from spring\n  plate 120 x 80 mm\nseam join\n  joins one, other\n  along one.top\n  weld\n`,
    'join weld',
    'one harden',
  ],
  'hardened-apart': [
    `${PLATE.replace('piece other', '  harden 830 C, quench oil\npiece other')}${SEAM}`,
    'one harden',
    'lap rivet',
  ],
  'surface-after-work': [`${PLATE}finish bright\n  on one\n  sand 120 grit\n`, 'one file', 'bright sand 1'],
  'heat-before-surface': [
    `${PLATE}seam join\n  joins one, other\n  along one.top\n  weld\nfinish bright\n  on one\n  polish\n`,
    'join weld',
    'bright polish 1',
  ],
  'reached-before-riveted': [
    `${PLATE}${SEAM}finish bright\n  on one, other\n  polish\n`,
    'bright polish 1',
    'lap rivet',
  ],
  'coat-over-rivets': [`${PLATE}${SEAM}finish grey\n  on one, other\n  paint "grey"\n`, 'lap rivet', 'grey paint 1'],
  'coated-apart': [`${PLATE}${SEAM}finish grey\n  on one\n  paint "grey"\n`, 'grey paint 1', 'lap rivet'],
  'leather-last': [`${PLATE}${FLAP}${HANG}finish blued\n  on one\n  blue 300 C\n`, 'blued blue 1', 'hang rivet'],
  'leather-after-coats': [
    `${PLATE}${FLAP}${HANG}finish grey\n  on one\n  paint "grey"\n`,
    'grey paint 1',
    'hang rivet',
  ],
  'oiled-last': [`${PLATE}${SEAM}finish oiled\n  on one, other\n  oil\n`, 'lap rivet', 'oiled oil 1'],
  'your-order': [`${PLATE}order bench\n  first one cut, then other cut\n`, 'one cut', 'other cut'],
  'your-order-of-a-copy': [
    `piece pair\n  from plate\n  make 2, mirrored\n  plate 120 x 80 mm\n${PLATE}order bench\n  first left pair cut, then one cut\n`,
    'pair cut',
    'one cut',
  ],
};

describe('an order of work', () => {
  for (const [reason, [spec, before, after]] of Object.entries(CASES)) {
    it(`does ${before} before ${after}: ${reason}`, () => {
      const { arrows, circles } = workOf(modelFrom(STOCK + spec));
      const why = arrows.filter(({ from, to }) => from.key === before && to.key === after).map((each) => each.reason);
      assert.ok(
        why.includes(reason as ReasonId),
        `${why.join(', ') || 'no arrow'} of ${arrows.map(({ from, to }) => `${from.key} → ${to.key}`).join('; ')}`,
      );
      assert.deepEqual(circles, []);
    });
  }

  it('says why in a whole sentence', () => {
    for (const { why } of Object.values(reasons)) assert.match(why, /^[A-Z].+[^.]\.$/);
  });
});

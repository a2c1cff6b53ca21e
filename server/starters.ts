/*
 * The starter builds: what `planish new` and "New build" write. Kept as text in the program, since a browser has no
 * folder of ours to copy from. Each checks clean as it stands, and its notes say what to change first.
 */

import type { Starter } from './requests.ts';

export interface StarterFile {
  /** Relative to the folder that is asked for, with `/`. The first one is the spec to open. */
  readonly path: string;
  readonly text: string;
}

/** One rack for all of them: the first thing a shop makes its own. */
const STOCK = `planish 1

# Your own rack. Every build that says \`use "stock.planish"\` takes its stock from here:
# put in what you buy, at the price you pay, and how much of it lies there.

## US or UK says which table a gauge number is read by.
shop bench
  currency GBP
  gauges UK
  heat torch

material plate-15
  mild steel 1.5 mm
  sheet 1000 x 2000 mm, price 52.00
  margin 5 mm
  kerf 1 mm

material plate-12
  mild steel 1.2 mm
  sheet 1000 x 2000 mm, price 42.00
  margin 5 mm
  kerf 1 mm

## Plain wire, not galvanised: an edge is often closed hot.
material edge-wire
  mild steel wire 3 mm

material strap-leather
  veg-tan leather 8 oz
  hide 2 m2, price 100.00

rivet steel-4
  mild steel 4 x 10 mm, domed
  pack 100, price 9.00

## For leather: with a washer under the head that is made.
rivet copper-3
  copper 3 x 10 mm, flat
  pack 100, price 13.00
  washer 9 x 0.8 mm

part buckle-20
  wide 20 mm
  mass 16 g
  pack 10, price 9.50
`;

const HELM = `planish 1

use "stock.planish"

## A round helm with a brow band. Change the title, the measures of the head, and the duty first.
build "A plain helm"
  for "own stock"
  duty display
  make 1
  units mm

## Measure over the brow, without the liner.
wearer me
  head round 580 mm
  head length 198 mm
  head breadth 156 mm

# Room all round: 12 mm of liner and 6 mm of ease.
let room = 18 mm
let skull-long = me.head-length + 2 * room
# A head is fuller than an oval of its length and breadth: the way round asks for 15 mm more across.
let skull-wide = me.head-breadth + 2 * room + 15 mm

## Point at a blank's size to see where it comes from.
piece skull
  from plate-15
  fits me head, liner 12 mm, ease 6 mm
  oval dome skull-long x skull-wide, deep 140 mm, inside
  raise
  anneal
  planish

## Follows the rim, whatever size the skull is given. Left long where its ends meet.
piece brow-band
  from plate-15
  trim along skull.rim, wide 30 mm
  edge left long 8 mm
  edge right long 8 mm

seam brow
  joins brow-band, skull
  along skull.rim
  rivets steel-4, every 36 mm, inset 15 mm, peened flat

seam chin
  joins skull
  strap strap-leather, wide 20 mm, long 320 mm, buckle buckle-20, count 2, at 30 mm from rim

finish bright
  on skull, brow-band
  sand 80, 120, 180, 240 grit
  oil

order work
  first skull raise, then skull planish, then brow-band fit
`;

const GAUNTLET = `planish 1

use "stock.planish"

## A pair of gauntlet cuffs with two lames over the wrist. Change the title and the measures first.
build "Gauntlet cuffs, pair"
  for "own stock"
  duty display
  make 1
  units mm

wearer me
  wrist round 175 mm

## The hand must pass through before the cuff is strapped shut.
piece cuff
  from plate-12
  make 2, mirrored
  fits me wrist, ease 12 mm
  cone round 360 mm to me.wrist-round + 2 * pi * 12 mm, high 140 mm, wrap 300 deg, inside
  edge top rolled over edge-wire, outward

## A lame takes its girth from its neighbour: change the cuff, and it follows.
piece wrist-lame
  from plate-12
  make 2, mirrored
  lies under cuff, gap 1 mm, high 36 mm, wrap 200 deg

piece hand-lame
  from plate-12
  make 2, mirrored
  lies under wrist-lame, gap 1 mm, high 36 mm, wrap 190 deg

piece middle-leather
  from strap-leather
  make 2
  strip 140 x 32 mm

seam cuff-leather
  joins cuff, middle-leather
  along middle-leather.left
  rivets copper-3, count 2, inset 9 mm, peened flat, washer inside

seam wrist-leather
  joins wrist-lame, middle-leather
  along middle-leather.left
  rivets copper-3, count 2, inset 9 mm, peened flat, washer inside

seam hand-leather
  joins hand-lame, middle-leather
  along middle-leather.right
  rivets copper-3, count 2, inset 9 mm, peened flat, washer inside

seam closing
  joins cuff
  strap strap-leather, wide 20 mm, long 160 mm, buckle buckle-20, count 2, at 30 mm from bottom

finish bright
  on cuff, wrist-lame, hand-lame
  sand 80, 120, 180 grit
  oil

order work
  first cuff roll, then bright
  first bright, then cuff-leather
`;

const KNEE = `planish 1

use "stock.planish"

## A pair of dished knee cops on a strap. Change the title, the measures and the duty first.
build "Knee cops, pair"
  for "own stock"
  duty display
  make 1
  units mm

wearer me
  knee round 380 mm

## Dished cold, from the rim in. The crown ends thinner than the sheet: the hint beside the line says how thin.
piece cop
  from plate-15
  make 2
  fits me knee, liner 12 mm, ease 6 mm
  dome 145 mm, deep 45 mm, inside
  dish
  planish

## Riveted inside the cop, wider than it, so that straps can be sewn to its ends.
piece back-leather
  from strap-leather
  make 2
  strip 220 x 40 mm

seam leather-line
  joins cop, back-leather
  along back-leather.top, from 45 mm to 175 mm
  rivets copper-3, count 5, inset 10 mm, peened flat, washer inside

seam straps
  joins back-leather
  strap strap-leather, wide 20 mm, long 420 mm, buckle buckle-20, count 4, at 20 mm from left

finish bright
  on cop
  sand 80, 120, 180 grit
  oil

order work
  first cop dish, then cop planish, then bright
  first bright, then leather-line
`;

const ALL: readonly (Starter & { readonly text: string })[] = [
  {
    id: 'helm',
    title: 'Helm',
    description: 'A raised skull from an oval dome, with a riveted brow band',
    text: HELM,
  },
  {
    id: 'gauntlet',
    title: 'Gauntlet',
    description: 'A pair of conical cuffs with lames on a leather',
    text: GAUNTLET,
  },
  { id: 'knee', title: 'Knee', description: 'A pair of dished cops on a leather', text: KNEE },
];

/** The starters there are, in the order they are offered. */
export const starters = (): Starter[] => ALL.map(({ id, title, description }) => ({ id, title, description }));

/** The files of a starter; nothing where there is none of that name. */
export function starter(id: string): StarterFile[] | undefined {
  const found = ALL.find((each) => each.id === id);
  return (
    found && [
      { path: `${found.id}.planish`, text: found.text },
      { path: 'stock.planish', text: STOCK },
    ]
  );
}

/** A spec of so many lines as a large build has them: stock, then group after group of plates, seams and a finish. */
export function longSpec(lines: number): string {
  const out = STOCK.split('\n');
  for (let group = 1; ; group++) {
    const next = groupOf(group).split('\n');
    if (out.length + next.length > lines) break;
    out.push(...next);
  }
  while (out.length < lines) out.push('# To be looked at with the next build.');
  return `${out.join('\n')}\n`;
}

const STOCK = `planish 1

build "Company of the long gate"
  for "a stage production"
  duty display
  make 2

shop bench
  gauges US
  heat torch

wearer guard
  head round 585 mm
  upper arm round 340 mm

material plate
  mild steel 16 ga
  sheet 1220 x 2440 mm

material thin-plate
  mild steel 18 ga
  sheet 1220 x 2440 mm

material edge-wire
  mild steel wire 1/8 in

material leather
  veg-tan leather 7 oz
  hide 2.2 m2

rivet small
  mild steel 1/8 x 1/4 in, domed

rivet long
  mild steel 1/8 x 3/8 in, domed
  washer 10 x 0.8 mm

let ease = 6 mm
`;

const groupOf = (n: number): string => `
let arm-round-${n} = guard.upper-arm-round + 2 * pi * (10 mm + ease)

## Dished over the stump, planished on the mushroom stake.
piece cop-${n}
  from plate
  make 2
  dome 150 mm, deep 45 mm
  dish
  planish
  edge rim rolled over edge-wire, outward
  holes liner-${n} 6 of 3/16 in, along rim, inset 20 mm

piece cuff-${n}
  from thin-plate
  make 2, mirrored
  cylinder round arm-round-${n}, high 120 mm, wrap 300 deg
  edge top rolled over edge-wire, outward
  edge bottom hemmed 6 mm

piece band-${n}
  from plate
  strip 300 x 40 mm

piece tab-${n}
  from leather
  make 4
  plate 120 x 40 mm

## The band lies outside.
seam band-line-${n}
  joins band-${n}, cuff-${n}
  along band-${n}.bottom
  rivets small, every 25 mm, inset 10 mm, peened domed

seam tab-line-${n}
  joins cuff-${n}, tab-${n}
  along tab-${n}.left
  rivets long, count 2, inset 10 mm, peened domed, washer inside

finish bright-${n}
  on cop-${n} outside, cuff-${n} outside, band-${n}
  grind 80 grit
  sand 120, 180, 240 grit
  wax
`;

// The one spec that most editor tests start from: small, and without a problem until a test makes one.

/** Two plates of 16 gauge under a 1/8 in rivet: the stack is 3 mm, and 5/16 in is the length to use. */
export const bandedCap = `planish 1

build "Banded cap"
  for "The Lantern Players"
  duty display
  make 2

material plate
  mild steel 16 ga
  sheet 1220 x 2440 mm

rivet small
  mild steel 1/8 x 5/16 in, domed

piece band
  from plate
  strip 300 x 40 mm

piece tab
  from plate
  make 3
  plate 120 x 40 mm

## The band lies outside.
seam band-line
  joins band, tab
  along band.bottom
  rivets small, every 25 mm, inset 10 mm, peened domed
`;

/** The same, with a rivet that cannot hold the two plates. */
export const shortRivet = bandedCap.replace('1/8 x 5/16 in', '1/8 x 3/16 in');

/** Two plates and the joint that they turn on, with its further lines: what most checks of joints show what they mean by. */
export const elbow = (lines: string, high = 70): string => `material plate
  mild steel 1.2 mm
rivet pivot
  mild steel 4 x 10 mm, domed
piece upper
  from plate
  cylinder round 340 mm, high ${high} mm, wrap 200 deg
piece lower
  from plate
  lies under upper, gap 1 mm, high ${high} mm, wrap 200 deg
joint elbow
  plates upper, lower
${lines}`;

/** A visor over a skull of two halves, with the further lines of the joint that it swings in. */
export const visor = (lines: string, { deep = 150, round = 792 } = {}): string => `material plate
  mild steel 1.5 mm
rivet pivot
  mild steel 5 x 10 mm, domed
part hook
  mass 30 g
piece skull
  from plate
  make 2
  half dome 248 x 214 mm, deep ${deep} mm
piece face
  from plate
  form wrap 180 deg
  at 0 mm, round ${round} mm, long 282 mm
  at 110 mm, round ${round} mm, long 282 mm
joint lift
  plates face, skull
  pivots pivot, at 20 mm from rim and 10 mm front of side, inset 12 mm, end 85 mm
${lines}`;

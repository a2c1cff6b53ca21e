/** Two plates and the joint that they turn on, with its further lines: what most checks of joints show what they mean by. */
export const elbow = (lines: string, high = 70): string => `material plate
  mild steel 1.2 mm
rivet pivot
  mild steel 4 x 8 mm, domed
piece upper
  from plate
  cylinder round 340 mm, high ${high} mm, wrap 200 deg
piece lower
  from plate
  lies under upper, gap 1 mm, high ${high} mm, wrap 200 deg
joint elbow
  plates upper, lower
${lines}`;

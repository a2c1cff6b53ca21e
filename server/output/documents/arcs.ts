import { type System, show } from '../../model/values/show.ts';
import { onBench } from '../../trade/blank/wrap.ts';

/**
 * The arcs of a sector (radii mm, angle in degrees), as they are marked out: `radius 320 mm and 180 mm`. One that no trammel on the
 * bench reaches is told by its chord and its rise. A radius of nought is a point.
 */
export function arcs(radii: readonly number[], angle: number, units: System): string {
  const length = (value: number) => show(value, 'mm', units);
  const told = radii.filter((radius) => radius > 0).map((radius) => ({ radius, bench: onBench(radius, angle) }));
  const long = told.flatMap(({ radius, bench }) =>
    bench
      ? [`chord ${length(bench.chord.value)} with a rise of ${length(bench.rise.value)} (radius ${length(radius)})`]
      : [],
  );
  const short = told.filter(({ bench }) => !bench).map(({ radius }) => length(radius));
  return [...long, ...(short.length ? [`radius ${short.join(' and ')}`] : [])].join(' and ');
}

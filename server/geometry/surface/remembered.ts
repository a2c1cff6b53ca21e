/** What some ways up a form and the mesh of it ask for by turns. */
const MOST = 1500;

/** The few answers of one row of a mesh, or of a way along a level, are asked for over and over. */
export function remembered<T>(compute: (v: number) => T): (v: number) => T {
  const kept = new Map<number, T>();
  // A row is mostly asked for several times on end: then nothing need be looked up.
  const asked = Float64Array.of(Number.NaN);
  let lastValue: T;
  return (v) => {
    if (v === asked[0]) return lastValue;
    let value = kept.get(v);
    if (value === undefined) {
      if (kept.size > MOST) kept.clear();
      value = compute(v);
      kept.set(v, value);
    }
    asked[0] = v;
    lastValue = value;
    return value;
  };
}

/** The same with the last answer alone: a point of a chart and its normal are asked for one after the other. */
export function lastOf<T>(compute: (u: number, v: number) => T): (u: number, v: number) => T {
  // In an array, since a number in a variable that a function keeps is made anew each time.
  const asked = Float64Array.of(Number.NaN, Number.NaN);
  let last: T;
  return (u, v) => {
    if (u === asked[0] && v === asked[1]) return last;
    last = compute(u, v);
    asked[0] = u;
    asked[1] = v;
    return last;
  };
}

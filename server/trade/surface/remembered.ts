/** The few answers of one row of a mesh, or of a way along a level, are asked for over and over. */
export function remembered<T>(compute: (v: number) => T): (v: number) => T {
  const kept = new Map<number, T>();
  return (v) => {
    let value = kept.get(v);
    if (value === undefined) {
      if (kept.size > 600) kept.clear();
      value = compute(v);
      kept.set(v, value);
    }
    return value;
  };
}

/**
 * Whether a closed outline, x and y of its points by turns, crosses or touches itself: it could then not be cut out of one
 * sheet. With no triangle turned over, an outline that does not cross itself has nothing overlapping inside it either.
 */
export function overlapsItself(points: Float64Array): boolean {
  const count = points.length / 2;
  // Sides sorted by their left ends: only those that begin before one ends can meet it.
  const sides = Array.from({ length: count }, (_, i) => {
    const j = (i + 1) % count;
    return { i, j, left: Math.min(points[2 * i]!, points[2 * j]!), right: Math.max(points[2 * i]!, points[2 * j]!) };
  }).sort((a, b) => a.left - b.left);
  for (let first = 0; first < count; first++) {
    const one = sides[first]!;
    for (let second = first + 1; second < count && sides[second]!.left <= one.right; second++) {
      const other = sides[second]!;
      if (one.j === other.i || other.j === one.i) continue;
      if (meet(points, one.i, one.j, other.i, other.j)) return true;
    }
  }
  return false;
}

function meet(points: Float64Array, a: number, b: number, c: number, d: number): boolean {
  const side = (i: number, j: number, k: number) =>
    Math.sign(
      (points[2 * j]! - points[2 * i]!) * (points[2 * k + 1]! - points[2 * i + 1]!) -
        (points[2 * k]! - points[2 * i]!) * (points[2 * j + 1]! - points[2 * i + 1]!),
    );
  const within = (i: number, j: number, k: number, axis: 0 | 1) => {
    const [p, q, r] = [points[2 * i + axis]!, points[2 * j + axis]!, points[2 * k + axis]!];
    return r >= Math.min(p, q) && r <= Math.max(p, q);
  };
  const on = (i: number, j: number, k: number) => within(i, j, k, 0) && within(i, j, k, 1);
  const [c1, c2, c3, c4] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  if (c1 * c2 < 0 && c3 * c4 < 0) return true;
  return (
    (c1 === 0 && on(a, b, c)) || (c2 === 0 && on(a, b, d)) || (c3 === 0 && on(c, d, a)) || (c4 === 0 && on(c, d, b))
  );
}

/**
 * A flat outline of straight lines and arcs, mm. x runs right, y up.
 *
 * Arcs are kept as arcs from the spec to the cutter: `bulge` is the tangent of a quarter of the arc's sweep, from its
 * vertex to the next, above nought anticlockwise (the LWPOLYLINE of the DXF reference, group code 42).
 */
export interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

export interface Path {
  readonly vertices: readonly Vertex[];
  /** The last vertex leads back to the first. A closed outline runs anticlockwise, a hole in it clockwise. */
  readonly closed: boolean;
}

/**
 * The middle of a formed plate's thickness as a triangulated surface, mm.
 *
 * Pure data that passes to a worker as it is.
 */
export interface Surface {
  /** x, y, z of every vertex, mm: z up along the form's axis, y to the front, x to the wearer's right (right-handed). */
  readonly positions: Float64Array;
  /**
   * Unit normals of the true surface at the vertices, outward. Nought where the surface has none, at the tip of a cone
   * or on a ridge: an arc from there takes the other end's turn twice, and between two such it is the chord.
   */
  readonly normals: Float64Array;
  /** The generator's two parameters of every vertex, in any scale: the solver orders its unknowns by them. */
  readonly parameters: Float64Array;
  /** Corners of every triangle, anticlockwise seen from outside. */
  readonly triangles: Uint32Array;
  /**
   * Vertices along each edge by its name in the language. An edge that closes on itself repeats its first vertex last.
   * An edge that bays cut into parts is `top`, `top 2`, …; a mirrored bay is `armhole`, `armhole mirrored`.
   */
  readonly edges: ReadonlyMap<string, Uint32Array>;
  /** Vertices along the named lines on the form: `front`, `back`, `side`, `middle`. */
  readonly lines: ReadonlyMap<string, Uint32Array>;
  /** Vertices along the folds of what is worked into it: `flute 1 left`, `crease middle`, `flare bottom`. */
  readonly folds?: ReadonlyMap<string, Uint32Array>;
}

/** A point of a triangulated surface: weights of the triangle's three corners, that add up to one. */
export interface SurfacePoint {
  readonly triangle: number;
  readonly weights: readonly [number, number, number];
}

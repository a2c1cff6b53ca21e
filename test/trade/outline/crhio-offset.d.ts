/** The offset program that ours is held against brings no types. */
declare module '@crhio/offset' {
  interface Vertex {
    readonly x: number;
    readonly y: number;
    readonly bulge?: number;
  }
  export default function offset(
    path: { readonly vertexes: readonly Vertex[]; readonly isClosed: boolean },
    by: number,
    sharpCorners?: boolean,
  ): { readonly vertexes: readonly Vertex[] }[];
}

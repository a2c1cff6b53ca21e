/** What is used of the package, whose own types cannot be found through its exports. */
declare module 'svg-pathdata' {
  interface To {
    readonly x: number;
    readonly y: number;
  }

  export type Command =
    | (To & { readonly type: typeof SVGPathData.MOVE_TO | typeof SVGPathData.LINE_TO })
    | { readonly type: typeof SVGPathData.CLOSE_PATH }
    | (To & {
        readonly type: typeof SVGPathData.CURVE_TO;
        readonly x1: number;
        readonly y1: number;
        readonly x2: number;
        readonly y2: number;
      })
    | ArcCommand;

  export interface ArcCommand extends To {
    readonly type: typeof SVGPathData.ARC;
    readonly rX: number;
    readonly rY: number;
    readonly xRot: number;
    /** Centre, and angles in degrees, where `annotateArcs` found them. */
    readonly cX?: number;
    readonly cY?: number;
    readonly phi1?: number;
    readonly phi2?: number;
  }

  export class SVGPathData {
    static readonly CLOSE_PATH: 1;
    static readonly MOVE_TO: 2;
    static readonly LINE_TO: 16;
    static readonly CURVE_TO: 32;
    static readonly ARC: 512;
    /** @throws {SyntaxError} where the text is no path. */
    constructor(d: string);
    readonly commands: readonly Command[];
    toAbs(): this;
    normalizeHVZ(closing?: boolean): this;
    normalizeST(): this;
    qtToC(): this;
    annotateArcs(): this;
  }
}

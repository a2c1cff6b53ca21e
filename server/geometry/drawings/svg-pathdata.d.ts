/** What is used of the package, whose own types cannot be found through its exports. */
declare module 'svg-pathdata' {
  interface To {
    readonly x: number;
    readonly y: number;
  }

  export type Command =
    | (To & { readonly type: 2 | 16 })
    | { readonly type: 1 }
    | (To & {
        readonly type: 32;
        readonly x1: number;
        readonly y1: number;
        readonly x2: number;
        readonly y2: number;
      })
    | ArcCommand;

  export interface ArcCommand extends To {
    readonly type: 512;
    readonly rX: number;
    readonly rY: number;
    readonly xRot: number;
    /** Centre, and angles in degrees, where `annotateArcs` found them. */
    readonly cX?: number;
    readonly cY?: number;
    readonly phi1?: number;
    readonly phi2?: number;
  }

  /** Reads a path piece by piece, its commands as they are written. */
  export class SVGPathDataParser {
    /** @throws {SyntaxError} where the text is no path. */
    parse(d: string, commands: unknown[]): unknown[];
    finish(commands: unknown[]): unknown[];
  }

  /** What turns one command after the other into something simpler: another, several, or none. */
  export type Turning = (command: unknown) => unknown;

  export const SVGPathDataTransformer: {
    TO_ABS(): Turning;
    NORMALIZE_HVZ(closing: boolean): Turning;
    NORMALIZE_ST(): Turning;
    QT_TO_C(): Turning;
    ANNOTATE_ARCS(): Turning;
  };

  export const SVGPathData: {
    readonly CLOSE_PATH: 1;
    readonly MOVE_TO: 2;
    readonly LINE_TO: 16;
    readonly CURVE_TO: 32;
    readonly ARC: 512;
  };
}

import { atOnce, type Runner } from '../../incremental/steps.ts';
import { isInches } from '../../model/values/show.ts';
import type { Patterns } from '../documents/patterns/pattern.ts';
import type { PaperSize } from '../documents/patterns/tiles.ts';
import { writeDxf } from './dxf.ts';
import { type Fonts, type Written, written } from './papers.ts';
import { writePatternsPdf } from './patterns-pdf.ts';
import { writeSvg } from './svg.ts';

/** What patterns can be written as, in the order they are offered. */
export const PATTERN_FORMATS = ['pdf', 'svg', 'dxf'] as const;
export type PatternFormat = (typeof PATTERN_FORMATS)[number];

export interface ExportPatterns {
  readonly to: PatternFormat;
  /** Of a PDF; the sheets that the units of the build go with, where it is not said. */
  readonly paper?: PaperSize;
  readonly fonts: Fonts;
  /** Goes through what takes long. */
  readonly run?: Runner;
}

export async function exportPatterns(
  patterns: Patterns,
  { to, paper, fonts, run = atOnce }: ExportPatterns,
): Promise<Written> {
  switch (to) {
    case 'pdf': {
      const faces = typeof fonts === 'function' ? await fonts() : fonts;
      const size = paper ?? (isInches(patterns.units) ? 'letter' : 'a4');
      const { bytes, leftOut } = await writePatternsPdf(patterns, size, faces, run);
      return { ...written('pdf', bytes), leftOut };
    }
    case 'svg':
      return written('svg', await run(writeSvg(patterns)));
    case 'dxf':
      return written('dxf', await run(writeDxf(patterns)));
  }
}

/** The same patterns one piece at a time, for a file each. */
export const onePiece = (patterns: Patterns, piece: string): Patterns => ({
  ...patterns,
  patterns: patterns.patterns.filter((each) => each.piece === piece),
  seams: patterns.seams.filter(({ pieces }) => pieces.includes(piece)),
  missing: [],
});

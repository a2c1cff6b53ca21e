import { nearest } from '../../../../grammar/nearest.ts';
import { say } from '../../../../l10n/say.ts';
import type { NoOutline } from '../../../geometry/drawings/outline-in.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { FindingFix } from '../../../model/values/figure.ts';
import { type Check, replacing } from '../../check.ts';
import { placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'drawing-unusable',
  title: 'A drawing that gives nothing to cut',
  family: 'Blanks',
  severity: 'error',
  what: 'The drawing cannot be read, has nothing of the name that is asked for, has no closed run of lines, has several beside each other, or has one that crosses itself. Or it is larger than a piece or a hide can be, has places or arcs that nobody can reckon with, or has more lines, or more of them close to each other, than can be gone through. Ends nearer than 0.05 mm are taken to meet.',
  why: 'A plate is cut along one closed line. Which of several, or where an open one should go on, is not guessed.',
  todo: 'Mend the drawing: close its line, save it in its true size and with fewer points, or say with `named` which shape is meant.',
  source: 'Scalable Vector Graphics 2 (W3C); DXF reference; the 0.05 mm are common practice (no source)',
  example: `material plate
  mild steel 1.5 mm
piece crest
  from plate
  outline "drawings/crests.svg", named "crset"
`,
  better: `material plate
  mild steel 1.5 mm
piece crest
  from plate
  outline "drawings/crests.svg", named "crest"
`,
  beside: {
    'drawings/crests.svg': `<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="80mm" viewBox="0 0 120 80">
  <path id="crest" d="M 5 75 C 5 30 30 5 60 5 S 115 30 115 75 Z"/>
</svg>
`,
  },
  piece(piece, report) {
    for (const { line, found } of piece.drawnLines())
      if (found && 'why' in found)
        report(placeIn(piece, line, placedAt(line, found)), {
          message: unusable(line, found),
          fixes: fixes(line, found),
        });
    // Of a drawing that can be read there is a blank, unless its edge cannot be moved by what it needs.
    const form = piece.form();
    if (form?.kind === 'drawing' && piece.thickness() !== undefined && !piece.workedBlank())
      report(placeIn(piece, form.line, form.line.filled('file')), {
        message: say`“${form.file}” is too finely drawn for its edge to be moved out by what the work at it needs: draw it with fewer points.`,
      });
  },
  material(material, report) {
    for (const { line, drawn } of material.hides())
      if (drawn && 'why' in drawn)
        report(placeOf(line, placedAt(line, drawn)!), { message: unusable(line, drawn), fixes: fixes(line, drawn) });
  },
};

const placedAt = (line: LineReading, { why }: NoOutline) =>
  (why === 'unreadable' ? undefined : line.filled('which', 'named')) ?? line.filled('file');

/** The name in the file that is meant, it seems, where the one that is asked for is not there. */
const meant = (line: LineReading, { why, names }: NoOutline): string | undefined =>
  why === 'no such name' ? nearest(line.text('which', 'named') ?? '', names) : undefined;

function unusable(line: LineReading, found: NoOutline): string {
  const near = meant(line, found);
  const choice = found.names.length ? say` It has ${listed(found.names)}.` : '';
  const asked = line.filled('which', 'named');
  return `“${line.text('file')}” ${found.text}.${near ? say` Do you mean “${near}”?` : asked || found.why === 'several' ? choice : ''}`;
}

function fixes(line: LineReading, found: NoOutline): FindingFix[] {
  const near = meant(line, found);
  const asked = line.filled('which', 'named');
  if (!near || !asked) return [];
  const text = `"${near.replaceAll(/["\\]/g, '\\$&')}"`;
  return [replacing(line.file.uri, say`Change to “${near}”`, placeOf(line, asked), text, true)];
}

/** Some of the names, not all of hundreds. */
const listed = (names: readonly string[]): string =>
  names
    .slice(0, 6)
    .map((name) => `“${name}”`)
    .join(', ') + (names.length > 6 ? ' and more' : '');

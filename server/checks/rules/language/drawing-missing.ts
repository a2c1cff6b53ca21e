import { say } from '../../../../l10n/say.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import { type Check, type Reported, replacing } from '../../check.ts';
import { placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'drawing-missing',
  title: 'A drawing file that is not there',
  family: 'Language',
  severity: 'error',
  what: 'A line names a drawing file relative to the spec that it stands in, within the open folder. The file is not found, lies outside, or is no text in UTF-8.',
  why: 'Without its outline a piece has no blank, no mass and no pattern; without its drawing pierced work is not cut.',
  todo: 'Correct the path, or put the drawing beside the spec.',
  source: 'The language',
  example: `material plate
  mild steel 1.5 mm
piece badge
  from plate
  outline "drawings/badges.svg"
`,
  better: `material plate
  mild steel 1.5 mm
piece badge
  from plate
  outline "drawings/badge.svg"
`,
  beside: {
    'drawings/badge.svg': `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
  <path id="badge" d="M 5 5 H 55 V 25 A 25 15 0 0 1 5 25 Z"/>
</svg>
`,
  },
  piece(piece, report) {
    for (const { line, found } of piece.drawnLines()) {
      if (found) continue;
      report(placeIn(piece, line, line.filled('file')), missing(line));
    }
  },
  material(material, report) {
    for (const { line, drawn } of material.hides())
      if (!drawn && line.text('file') !== undefined) report(placeOf(line, line.filled('file')!), missing(line));
  },
};

function missing(line: LineReading): Reported {
  const at = line.filled('file');
  const path = line.text('file') ?? '';
  const { why, near } = line.file.notRead(path);
  const message = why ? say`The drawing “${path}” ${why}` : say`There is no drawing “${path}” beside this spec`;
  return near && at
    ? {
        message: say`${message}: did you mean “${near}”?`,
        fixes: [replacing(line.file.uri, say`Change to "${near}"`, placeOf(line, at), `"${near}"`)],
      }
    : { message: `${message}.` };
}

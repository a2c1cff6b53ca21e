import { say } from '../../../../l10n/say.ts';
import { type CutOut, isOutline, type OutlineIn } from '../../../geometry/drawings/outline-in.ts';
import { boxOfPath } from '../../../geometry/outline/measure.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import { type System, show } from '../../../model/values/show.ts';
import type { Check } from '../../check.ts';
import { placeIn, placeOf } from '../../support/writing.ts';

export const check: Check = {
  code: 'drawing-unit-unsaid',
  title: 'A drawing that does not say how large it is',
  family: 'Blanks',
  severity: 'warning',
  what: 'The width and height of an SVG drawing have no unit such as mm, or a DXF drawing does not name its unit ($INSUNITS). SVG is then read as 96 to the inch, DXF in millimetres, or inches where it says that it is not metric.',
  why: 'Read in the wrong unit a plate comes out 25 times too large, or a quarter too small, and looks right on the screen.',
  todo: 'Compare the size that is read with the size that is meant; save the drawing with its unit.',
  source: 'CSS Values and Units 4 (absolute lengths); DXF reference ($INSUNITS)',
  example: `material plate
  mild steel 1.5 mm
piece badge
  from plate
  outline "drawings/unsized.svg"
`,
  better: `material plate
  mild steel 1.5 mm
piece badge
  from plate
  outline "drawings/sized.svg"
`,
  beside: {
    'drawings/unsized.svg': `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 240 160">
  <circle cx="120" cy="80" r="75"/>
</svg>
`,
    'drawings/sized.svg': `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 240 160">
  <circle cx="120" cy="80" r="75"/>
</svg>
`,
  },
  piece(piece, report, model) {
    const system = model.units();
    for (const { line, found } of piece.drawnLines()) {
      if (!found || 'why' in found || found.assumed === undefined) continue;
      const what = isOutline(found) ? 'the piece' : 'the pierced work';
      report(placeIn(piece, line, line.filled('file')), { message: unsaid(line, found, what, system) });
    }
  },
  material(material, report, model) {
    for (const { line, drawn } of material.hides())
      if (drawn && isOutline(drawn) && drawn.assumed !== undefined)
        report(placeOf(line, line.filled('file')!), { message: unsaid(line, drawn, 'the hide', model.units()) });
  },
};

function unsaid(line: LineReading, found: OutlineIn | CutOut, what: string, system: System): string {
  const [wide, high] = sizeOf(found);
  return say`“${line.text('file')}”: ${found.assumed}. So ${what} is ${show(wide, 'mm', system)} wide and ${show(high, 'mm', system)} high.`;
}

function sizeOf(found: OutlineIn | CutOut): readonly [wide: number, high: number] {
  if (!isOutline(found)) return [found.long, found.wide];
  const { left, right, bottom, top } = boxOfPath(found.outer);
  return [right - left, top - bottom];
}

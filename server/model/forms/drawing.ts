import { say } from '../../../l10n/say.ts';
import { isOutline, type OutlineIn } from '../../geometry/drawings/outline-in.ts';
import { drawnArea, drawnLength } from '../../trade/blank/drawn.ts';
import type { LineReading } from '../names/line-reading.ts';
import { MEASURED, NOT_KNOWN } from './answers.ts';
import { outlineBlank } from './blank.ts';
import { outlineRun } from './edge-run.ts';
import { type FormKind, type FormOf, noEdges, none, noRolls, nothing, RIM, type Shaped, yes } from './form.ts';

/** A flat shape out of a drawing file: an outline whose line names one. */
export interface Drawing extends FormOf<'drawing'> {
  readonly outline: OutlineIn;
  readonly file: string;
}

export function readDrawing(line: LineReading, piece: Shaped): Drawing | undefined {
  const found = piece.drawnIn();
  return found && isOutline(found) ? { kind: 'drawing', line, outline: found, file: line.text('file')! } : undefined;
}

const areaOf = ({ outline: { outer, openings }, file }: Drawing) =>
  drawnArea(outer, openings, say`The outline in ${file}: shoelace formula with the segments of the arcs`);

export const drawing: FormKind<Drawing> = {
  notations: {},
  example: 'piece example\n  from plate\n  outline "plate.svg"\n',
  isFlat: true,
  isBand: false,
  keepsThickness: yes,

  edges: () => RIM,
  seams: noEdges,
  closes: (_, edge) => edge === 'rim',
  length: ({ outline: { outer }, file }, edge) =>
    edge === 'rim' ? drawnLength(outer, say`Lines and arcs of the outline in ${file}`) : MEASURED,
  run: ({ outline: { outer } }, edge) => (edge === 'rim' ? outlineRun(outer) : NOT_KNOWN),

  area: areaOf,
  centre: none,
  chart: none,
  refusal: nothing,
  liesOn: none,
  follows: none,
  band: none,

  around: none,
  girths: none,
  meets: none,
  domed: none,
  tightestRadius: none,
  rolls: noRolls,
  wall: none,

  square: none,
  outline: ({ outline: { outer } }) => outer,
  blank({ outline: { outer, openings }, file }, { edges }) {
    return outlineBlank(
      { outer, openings, isKept: true },
      edges,
      drawnArea(outer, openings, say`The outline in ${file}`),
    );
  },
  layout: ({ outline: { outer, openings } }) => ({ kind: 'rimmed', outer, openings }),
  addFigures: nothing,
};

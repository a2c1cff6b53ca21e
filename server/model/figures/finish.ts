import { say } from '../../../l10n/say.ts';
import { circleArea, slotArea } from '../../trade/blank/plane-shapes.ts';
import { coatedArea, coatVolume, FILMS, gritRatio, gritSize } from '../../trade/finish/finish.ts';
import type { Counted, Part } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { formedHead, rivetHead } from '../../trade/rivet/rivet.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Finish, Model } from '../spec.ts';
import type { PieceModel } from '../things/piece.ts';
import type { RivetModel } from '../things/rivet.ts';
import { FigureSet } from '../values/figure-set.ts';
import { numberOf } from '../values/quantity.ts';
import { rivetCounts } from './rivet-count.ts';

/** Figures of a finish: how much surface, how fine each step, how much paint. */
export function finishFigures(model: Model, finish: Finish): FigureSet {
  const { named, steps } = finish;
  const set = new FigureSet(`finish ${named.word.text}`, named.word.text);
  const area = addArea(model, finish, set);
  addGrits(steps, set);
  for (const kind of ['paint', 'prime', 'lacquer'] as const) {
    const lines = steps.filter((line) => line.id === kind);
    const [first] = lines;
    if (!first || area === undefined) continue;
    const coats = lines.reduce((sum, line) => sum + Math.max(1, line.count('coats', 'coats') ?? 1), 0);
    set.add(
      kind === 'prime' ? 'primer' : kind,
      say`${FILMS[kind].title} for one build`,
      coatVolume({ area, coats, kind }),
      first.place,
      [`${named.word.text}.area`],
    );
  }
  return set;
}

/** Surface of one build that the finish is on, mm²: both faces of a piece unless one is said. */
function addArea(model: Model, { named, on }: Finish, set: FigureSet): number | undefined {
  const known: Part[] = [];
  const missing: string[] = [];
  let line: LineReading | undefined;
  for (const each of on) {
    if (each.named?.kind === 'rivet') {
      const rivet = model.rivetOf(each.named);
      const heads = headsArea(rivet, model);
      line ??= each.line;
      if (heads) known.push({ name: `${rivet.name}.shank`, ...heads });
      else missing.push(rivet.name);
    }
    if (each.named?.kind !== 'piece') continue;
    const piece = model.pieceOf(each.named);
    const area = piece.figure('area');
    line ??= each.line;
    const copies = each.copy ? Math.max(1, Math.round(piece.make() / 2)) : piece.make();
    if (area) {
      const left = Math.max(0, area.value - openArea(piece));
      known.push({ name: area.name, value: left, times: copies * (each.face ? 1 : 2) });
    } else missing.push(piece.name);
  }
  if (!line || !known.length) return undefined;
  const figure = set.add(
    'area',
    'surface for one build',
    coatedArea(known, missing.length ? say`Without ${missing.join(', ')}, whose area is not known yet.` : undefined),
    line.place,
    known.map(({ name }) => name),
  );
  return figure && named ? figure.value : undefined;
}

/** What openings take out of one face, mm². */
const openArea = (piece: PieceModel): number =>
  piece
    .openings()
    .reduce(
      (sum, { count, round, long, wide }) => sum + count * (round ? circleArea(long) : slotArea(long, wide)).value,
      0,
    );

/** Both heads of one rivet as they show, mm², and how many one build takes: domed ones as caps, flat and sunk ones as discs. */
function headsArea(rivet: RivetModel, model: Model): Counted | undefined {
  const size = rivet.size();
  const times = rivetCounts(model).get(rivet);
  const seam = model.seams().find((each) => each.rivet() === rivet);
  if (!size || !times || !seam) return undefined;
  const bought = rivetHead(rivet.head(), size.shank);
  const made = formedHead(seam.head(), size.shank);
  const shows = (head: { diameter: Result; height: Result }, isDomed: boolean) =>
    Math.PI * ((head.diameter.value / 2) ** 2 + (isDomed ? head.height.value ** 2 : 0));
  return {
    value: shows(bought, rivet.head() === 'domed') + shows(made, seam.head() === 'domed'),
    times,
  };
}

function addGrits(steps: readonly LineReading[], set: FigureSet): void {
  let before: { grain: number; name: string } | undefined;
  let count = 0;
  for (const line of steps) {
    if (line.id !== 'grind' && line.id !== 'sand') continue;
    for (const expression of line.expressions('grits')) {
      const quantity = line.file.quantity(expression, line.line.section);
      if (quantity?.dimension !== 'grit') continue;
      const grit = numberOf(quantity);
      const grain = gritSize('P', grit);
      count += 1;
      const name = `step-${count}`;
      if (!grain) {
        before = undefined;
        continue;
      }
      const other = gritSize('CAMI', grit);
      const figure = set.add(
        `${name}.grain`,
        say`grain of ${grit} grit`,
        {
          ...grain,
          note: other
            ? say`As FEPA P. A ${grit} of the CAMI system, without the P, has ${Math.round(other.value * 1e4) / 10} µm.`
            : 'As FEPA P.',
        },
        line.place,
        [],
        { grain: true },
      );
      if (before && figure)
        set.add(`${name}.ratio`, say`step to ${grit} grit`, gritRatio(before.grain, grain.value), line.place, [
          before.name,
          figure.name,
        ]);
      before = figure && { grain: grain.value, name: figure.name };
    }
  }
}

import { coatVolume, FILMS, gritRatio, gritSize } from '../trade/finish.ts';
import { result } from '../trade/result.ts';
import { FigureSet } from './figure-set.ts';
import type { Finish, Model } from './model.ts';
import { numberOf } from './quantity.ts';
import type { LineReading } from './reading.ts';

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
      `${FILMS[kind].title} for one build`,
      coatVolume({ area, coats, kind }),
      first.place,
      [`${named.word.text}.area`],
    );
  }
  return set;
}

/** Surface of one build that the finish is on, mm²: both faces of a piece unless one is said. */
function addArea(model: Model, { named, on }: Finish, set: FigureSet): number | undefined {
  const known: { name: string; area: number; times: number }[] = [];
  const missing: string[] = [];
  let line: LineReading | undefined;
  for (const each of on) {
    if (each.named?.kind !== 'piece') continue;
    const piece = model.pieceOf(each.named);
    const area = piece.figure('area');
    line ??= each.line;
    const copies = each.copy ? Math.max(1, Math.round(piece.make() / 2)) : piece.make();
    if (area) known.push({ name: area.name, area: area.value, times: copies * (each.face ? 1 : 2) });
    else missing.push(piece.name);
  }
  if (!line || !known.length) return undefined;
  const value = known.reduce((sum, { area, times }) => sum + area * times, 0);
  const figure = set.add(
    'area',
    'surface for one build',
    {
      ...result({
        value,
        unit: 'mm2',
        formula: 'A = Σ area × faces × pieces',
        symbols: {},
        basis: 'geometry',
        source: 'Finished areas of the pieces it is on; openings and the thickness of edges are left in',
      }),
      worked: known
        .map(({ area, times }) => `${times === 1 ? '' : `${times} × `}${Math.round(area / 10) / 10} cm²`)
        .join(' + '),
      ...(missing.length ? { note: `Without ${missing.join(', ')}, whose area is not known yet.` } : {}),
    },
    line.place,
    known.map(({ name }) => name),
  );
  return figure && named ? figure.value : undefined;
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
        `grain of ${grit} grit`,
        {
          ...grain,
          note: other
            ? `As FEPA P. A ${grit} of the CAMI system, without the P, has ${Math.round(other.value * 1e4) / 10} µm.`
            : 'As FEPA P.',
        },
        line.place,
        [],
        { decimals: 4 },
      );
      if (before && figure)
        set.add(`${name}.ratio`, `step to ${grit} grit`, gritRatio(before.grain, grain.value), line.place, [
          before.name,
          figure.name,
        ]);
      before = figure && { grain: grain.value, name: figure.name };
    }
  }
}

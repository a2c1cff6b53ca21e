import type { Place } from '../../../grammar/tree.ts';
import { wireMass } from '../../trade/mass/mass.ts';
import { plain, type Result, result, type Unit } from '../../trade/reckoning/result.ts';
import { ASSEMBLED, addAssembled } from '../assembly/assembled.ts';
import type { LineReading } from '../names/line-reading.ts';
import { ofModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { SeamModel } from '../things/seam.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import { notCounted } from './not-counted.ts';
import { rivetCounts } from './rivet-count.ts';
import { wires } from './wires.ts';
import { addHelm } from './worn.ts';

/** Mass of one build, as far as its parts are known. */
export function buildFigures(model: Model): FigureSet {
  const set = new FigureSet('build', 'build');
  const section = model.buildSection();
  const at = section?.title ?? section?.header;
  if (!section || !at) return set;
  const place = { section, from: at.from, to: at.to };
  const known: { name: string; count: number; mass: Pick<Result, 'value' | 'low' | 'high'> }[] = [];
  const missing: string[] = [];
  for (const piece of model.pieces()) {
    const mass = piece.figure('mass');
    if (mass) known.push({ name: mass.name, count: piece.make(), mass });
    else missing.push(piece.name);
  }
  for (const { length, wire, times } of wires(model)) {
    const density = wire.density();
    const diameter = wire.thickness();
    if (!density || !diameter) {
      missing.push(`wire ${wire.name}`);
      continue;
    }
    known.push({
      name: length.name,
      count: times,
      mass: wireMass({ length: length.value, wire: diameter.value, density: density.value }),
    });
  }
  for (const [rivet, count] of rivetCounts(model)) {
    const mass = rivet.figures().get('mass');
    if (mass) known.push({ name: mass.name, count, mass });
    else missing.push(rivet.name);
  }
  for (const { seam, line } of straps(model)) {
    const count = line.has('count') ? (line.count('count', 'count') ?? 1) : 1;
    const leather = line.named('material');
    const perArea = leather?.kind === 'material' ? model.materialOf(leather).figures().get('mass-per-area') : undefined;
    const long = line.length('long', 'long');
    const wide = line.length('wide', 'wide');
    if (perArea && long !== undefined && wide !== undefined)
      known.push({ name: perArea.name, count, mass: { value: (perArea.value * long * wide) / 1e6 } });
    else missing.push(`the strap of ${seam.name}`);
    const named = line.named('part', 'buckle');
    const buckle = named?.kind === 'part' ? model.partOf(named) : undefined;
    const isCounted = named && model.parts().some((part) => part.named.section === named.section);
    if (buckle?.mass !== undefined && !isCounted)
      known.push({ name: buckle.named.word.text, count, mass: { value: buckle.mass } });
    else if (named && !isCounted) missing.push(named.word.text);
  }
  for (const part of model.parts())
    if (part.mass !== undefined)
      known.push({ name: part.named.word.text, count: part.make, mass: { value: part.mass } });
    else missing.push(part.named.word.text);
  for (const each of notCounted(model)) if (each.from === 'mass and order') missing.push(each.what);
  addTotals(model, set, place);
  addHelm(model, set, place);
  set.and(ASSEMBLED, (further) => addAssembled(model, further, place));
  if (!known.length) return set;
  const sum = (pick: (mass: Pick<Result, 'value' | 'low' | 'high'>) => number) =>
    known.reduce((total, each) => total + each.count * pick(each.mass), 0);
  const value = sum((mass) => mass.value);
  const low = sum((mass) => mass.low ?? mass.value);
  const high = sum((mass) => mass.high ?? mass.value);
  set.add(
    'mass',
    'mass of one build',
    {
      ...result({
        value,
        low,
        high,
        unit: 'g',
        formula: 'm = Σ n × m',
        symbols: {},
        basis: 'geometry',
        source: 'Pieces, wire, pins, rivets, straps and parts',
      }),
      worked: known
        .map((each) => `${each.count === 1 ? '' : `${each.count} × `}${Math.round(each.mass.value * 10) / 10}`)
        .join(' + '),
      ...(missing.length ? { note: `Without ${missing.join(', ')}, whose mass is not known yet.` } : {}),
    },
    place,
    known.map((each) => each.name),
  );
  return set;
}

/** Every strap line. */
export const straps = ofModel((model): readonly { readonly seam: SeamModel; readonly line: LineReading }[] =>
  model.seams().flatMap((seam) => seam.lines.filter((line) => line.id === 'strap').map((line) => ({ seam, line }))),
);

/** What one build takes, counted up. */
function addTotals(model: Model, set: FigureSet, place: Place): void {
  const total = (suffix: string, title: string, unit: Unit, parts: readonly Counted[], source: string) => {
    if (!parts.length) return;
    const sum = (pick: (part: Counted) => number) => parts.reduce((all, part) => all + part.times * pick(part), 0);
    const ranged = parts.some(({ low }) => low !== undefined);
    set.add(
      suffix,
      title,
      {
        ...result({
          value: sum(({ value }) => value),
          low: ranged ? sum(({ value, low = value }) => low) : undefined,
          high: ranged ? sum(({ value, high = value }) => high) : undefined,
          unit,
          formula: 'Σ n × x',
          symbols: {},
          basis: 'geometry',
          source,
        }),
        worked: parts.map(({ times, value }) => `${times === 1 ? '' : `${times} × `}${plain(value)}`).join(' + '),
      },
      place,
      parts.map(({ name }) => name),
    );
  };
  const rivets = model.seams().flatMap((seam): Counted[] => {
    const count = seam.figure('rivets');
    // Shared rivets are counted where they are set.
    return count && !seam.shares().length ? [{ ...count, times: seam.rows() }] : [];
  });
  total('rivets', 'rivets in one build', 'count', rivets, 'Every row of every seam; shared rivets once');
  const wire = wires(model).map(({ length, times }): Counted => ({ ...length, times }));
  total('wire', 'wire in one build', 'mm', wire, 'Wired edges and the pins of hinges');
  const blanks = model.pieces().flatMap((piece): Counted[] => {
    const area = piece.figure('blank.area');
    return area ? [{ ...area, times: piece.make() }] : [];
  });
  total('blank-area', 'area of the blanks of one build', 'mm2', blanks, 'Blanks as cut, without what is between them');
}

/** One part of a sum, so many times. */
type Counted = Pick<Figure, 'name' | 'value' | 'low' | 'high'> & { readonly times: number };

import type { Place } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { massOf, wireMass } from '../../trade/mass/mass.ts';
import { counted, type Part, sumOf } from '../../trade/reckoning/readings.ts';
import type { Result, Unit } from '../../trade/reckoning/result.ts';
import { rateOf, type WorkKind } from '../../trade/usual/rates.ts';
import { hoursOf, timeOf } from '../../trade/work/hours.ts';
import { ASSEMBLED, addAssembled } from '../assembly/assembled.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Named } from '../names/spec-file.ts';
import { timedOperations } from '../operations/order-of-work.ts';
import { ofModel } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { SeamModel } from '../things/seam.ts';
import { FigureSet } from '../values/figure-set.ts';
import { addHeadRoom, addSight, HEAD, SIGHT } from './head.ts';
import { jointLeathers } from './joint-hardware.ts';
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
  const known: Part[] = [];
  const missing: string[] = [];
  for (const piece of model.pieces()) {
    const mass = piece.figure('mass');
    if (mass) known.push(counted(mass, piece.make()));
    else missing.push(piece.name);
  }
  for (const { length, wire, times } of wires(model)) {
    const density = wire.density();
    const diameter = wire.thickness();
    if (!density || !diameter) {
      missing.push(say`wire ${wire.name}`);
      continue;
    }
    const mass = wireMass({ length: length.value, wire: diameter.value, density: density.value });
    known.push({ name: length.name, value: mass.value, times });
  }
  for (const [rivet, count] of rivetCounts(model)) {
    const mass = rivet.figures().get('mass');
    if (mass) known.push(counted(mass, count));
    else missing.push(rivet.name);
  }
  /** A part that stands in the spec itself is counted there. */
  const addPart = (named: Named | undefined, times: number) => {
    if (!named || model.parts().some((part) => part.named.section === named.section)) return;
    const mass = named.kind === 'part' ? model.partOf(named).mass : undefined;
    if (mass !== undefined) known.push({ name: named.word.text, times, value: mass });
    else missing.push(named.word.text);
  };
  for (const { seam, line } of straps(model)) {
    const count = line.count('count', 'count') ?? 1;
    const leather = line.named('material');
    const perArea = leather?.kind === 'material' ? model.materialOf(leather).figures().get('mass-per-area') : undefined;
    const long = line.length('long', 'long');
    const wide = line.length('wide', 'wide');
    if (perArea && long !== undefined && wide !== undefined)
      known.push({ name: perArea.name, times: count, value: (perArea.value * long * wide) / 1e6 });
    else missing.push(say`the strap of ${seam.name}`);
    addPart(line.named('part', 'buckle'), count);
  }
  for (const hinge of model.hinges()) addPart(hinge.part(), hinge.make());
  for (const joint of model.joints()) for (const { part } of joint.locks()) addPart(part, joint.make());
  for (const { name, leather, long, perBuild } of jointLeathers(model)) {
    const perArea = leather.material?.figures().get('mass-per-area');
    if (perArea && long && leather.wide !== undefined)
      known.push({
        name: perArea.name,
        times: perBuild,
        value: (perArea.value * long.value * leather.wide) / 1e6,
      });
    else missing.push(name);
  }
  for (const part of model.parts())
    if (part.mass !== undefined) known.push({ name: part.named.word.text, times: part.make, value: part.mass });
    else missing.push(part.named.word.text);
  for (const each of notCounted(model)) if (each.from === 'mass and order') missing.push(each.what);
  addTotals(model, set, place);
  addHelm(model, set, place);
  set.and(/^hours$/, (further) => addHours(model, further, place));
  set.and(ASSEMBLED, (further) => addAssembled(model, further, place));
  set.and(HEAD, (further) => addHeadRoom(model, further, place));
  set.and(SIGHT, (further) => addSight(model, further, place));
  if (!known.length) return set;
  set.add(
    'mass',
    'mass of one build',
    massOf(known, {
      source: 'Pieces, wire, pins, rivets, straps, leathers and parts',
      note: missing.length ? say`Without ${missing.join(', ')}, whose mass is not known yet.` : undefined,
    }),
    place,
    known.map((each) => each.name),
  );
  return set;
}

/** How long hands are at it, as far as how much there is of each work is known. */
function addHours(model: Model, set: FigureSet, place: Place): void {
  const byKind = new Map<WorkKind, Result[]>();
  const inputs = new Set<string>();
  const unknown: string[] = [];
  for (const { kind, time, title, inputs: names } of timedOperations(model)) {
    if (!time) {
      unknown.push(title.toLowerCase());
      continue;
    }
    for (const name of names) inputs.add(name);
    const have = byKind.get(kind);
    if (have) have.push(time);
    else byKind.set(kind, [time]);
  }
  if (!byKind.size) return;
  set.add(
    'hours',
    'hours of hands for one build',
    hoursOf(
      [...byKind.values()].map((times) => ({ ...timeOf(times.map((time) => ({ ...time, times: 1 }))), times: 1 })),
      [...byKind.keys()].map(rateOf),
      unknown.length ? say`Without ${unknown.join(', ')}: how much there is of it is not known yet.` : undefined,
    ),
    place,
    [...inputs],
  );
}

/** Every strap line. */
export const straps = ofModel((model): readonly { readonly seam: SeamModel; readonly line: LineReading }[] =>
  model.seams().flatMap((seam) => seam.lines.filter((line) => line.id === 'strap').map((line) => ({ seam, line }))),
);

/** What one build takes, counted up. */
function addTotals(model: Model, set: FigureSet, place: Place): void {
  const total = (suffix: string, title: string, unit: Unit, parts: readonly Part[], source: string) => {
    if (!parts.length) return;
    const names = parts.map(({ name }) => name);
    set.add(suffix, title, sumOf(parts, { unit, source }), place, names);
  };
  const rivets = model.seams().flatMap((seam): Part[] => {
    const count = seam.figure('rivets');
    // Shared rivets are counted where they are set.
    return count && !seam.shares().length ? [counted(count, seam.rows())] : [];
  });
  for (const joint of model.joints()) {
    const count = joint.figure('rivets');
    if (count) rivets.push(counted(count, joint.make()));
  }
  for (const hinge of model.hinges()) {
    const held = hinge.rivets();
    if (held) rivets.push(counted({ name: hinge.name, value: held.count }, hinge.make()));
  }
  const told = 'Every row of every seam, shared rivets once, every joint and every bought hinge';
  total('rivets', 'rivets in one build', 'count', rivets, told);
  const wire = wires(model).map(({ length, times }) => counted(length, times));
  total('wire', 'wire in one build', 'mm', wire, 'Wired edges and the pins of hinges');
  const blanks = model.pieces().flatMap((piece): Part[] => {
    const area = piece.figure('blank.area');
    return area ? [counted(area, piece.make())] : [];
  });
  total('blank-area', 'area of the blanks of one build', 'mm2', blanks, 'Blanks as cut, without what is between them');
}

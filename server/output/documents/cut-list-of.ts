import type { Problem } from '../../checks/check.ts';
import { stockedLength } from '../../checks/support/rivets.ts';
import { atOnce, patiently, type Steps } from '../../incremental/steps.ts';
import { jointLeathers, jointRivets } from '../../model/figures/joint-hardware.ts';
import { notCounted } from '../../model/figures/not-counted.ts';
import { takenFrom } from '../../model/figures/rivet-count.ts';
import { wires } from '../../model/figures/wires.ts';
import { NONE } from '../../model/forms/answers.ts';
import { isComputed, kindOf } from '../../model/forms/index.ts';
import { LineReading } from '../../model/names/line-reading.ts';
import type { Named } from '../../model/names/spec-file.ts';
import type { Model } from '../../model/spec.ts';
import type { MaterialModel } from '../../model/things/material.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import type { RivetModel } from '../../model/things/rivet.ts';
import type { SeamModel, Stack } from '../../model/things/seam.ts';
import { formulaIn, workedIn } from '../../model/values/figure.ts';
import { inUnits } from '../../model/values/prose.ts';
import { type System, show } from '../../model/values/show.ts';
import { strapArea } from '../../trade/leather/strap.ts';
import { wireMass } from '../../trade/mass/mass.ts';
import { gaugeTables } from '../../trade/metal/gauges.ts';
import { bothOf } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { holeFor } from '../../trade/rivet/rivet.ts';
import type {
  BlankInput,
  Caution,
  CutList,
  CutListInput,
  Job,
  MaterialInput,
  PartInput,
  Reasoned,
  RivetInput,
  RivetUse,
  Unreckoned,
  WireInput,
} from './cut-list.ts';
import { explainedProblemsInSteps } from './explain.ts';
import { gatherInSteps } from './gather.ts';
import { strapName } from './patterns/straps.ts';

/* From a spec's model to its cut list. Every number is a figure that the model has worked out already. */

export interface CutListOptions {
  /** The day the paper is made, `2027-03-01`. */
  readonly date: string;
  readonly problems: readonly Problem[];
}

/** @tests in one go: who may not wait asks for the steps */
export const cutListOf = (model: Model, options: CutListOptions): CutList => atOnce(cutListInSteps(model, options));

/** The same, piece by piece and then material by material. What is laid hangs on no model any more. */
export function* cutListInSteps(model: Model, options: CutListOptions): Steps<CutList> {
  return yield* gatherInSteps(yield* inputInSteps(model, options));
}

/** @tests in one go: who may not wait asks for the steps */
export const cutListInputOf = (model: Model, options: CutListOptions): CutListInput =>
  atOnce(inputInSteps(model, options));

/** What the build knows, piece by piece. */
export function* inputInSteps(model: Model, { date, problems }: CutListOptions): Steps<CutListInput> {
  const blanks = new Map<MaterialModel, BlankInput[]>();
  const unreckoned: Unreckoned[] = [];
  const put = (material: MaterialModel, blank: BlankInput) => {
    const have = blanks.get(material);
    if (have) have.push(blank);
    else blanks.set(material, [blank]);
  };
  for (const piece of model.pieces()) {
    const found = blankOf(piece);
    if (typeof found === 'string') unreckoned.push(pieceLeftOut(piece, found));
    else put(piece.material()!, found);
    yield undefined;
  }
  const buckles = new Map<Named, PartTally>();
  for (const hinge of model.hinges()) {
    const part = hinge.part();
    if (part) tallied(buckles, part, hinge.make(), hinge.name);
  }
  for (const joint of model.joints())
    for (const { part } of joint.locks()) if (part) tallied(buckles, part, joint.make(), joint.name);
  for (const seam of model.seams()) {
    yield undefined;
    strapsOf(model, seam, put, buckles, unreckoned);
  }
  yield* patiently(() => jointLeathers(model));
  leathersOf(model, put);
  unreckoned.push(...leftOutBesides(model));

  const mass = model.buildFigures().get('mass');
  const rivets = yield* rivetsOf(model);
  return {
    ...(yield* jobInSteps(model, { date, problems })),
    materials: [...blanks].map(([material, rows]) => materialOf(material, rows)),
    wires: wiresOf(model),
    rivets,
    parts: [...partsOf(model, buckles), ...washersOf(model, rivets)],
    unreckoned,
    ...(mass
      ? {
          mass: { formed: mass.value, ...(mass.note === undefined ? {} : { note: inUnits(mass.note, model.units()) }) },
        }
      : {}),
  };
}

/** What every paper of a build says of it. */
export function* jobInSteps(model: Model, { date, problems }: CutListOptions): Steps<Job> {
  const file = fileName(model.file.uri);
  const duty = model.duty();
  const client = model.client();
  const rules = rulesOf(model);
  const due = model.due();
  const currency = model.currency();
  return {
    title: model.title() ?? file.replace(/\.planish$/i, ''),
    file,
    ...(client === undefined ? {} : { client }),
    ...(duty === undefined ? {} : { duty }),
    ...(rules === undefined ? {} : { rules }),
    make: model.make(),
    spare: model.spare(),
    units: model.units(),
    date,
    ...(due === undefined ? {} : { due }),
    ...(currency === undefined ? {} : { currency }),
    cautions: cautionsIn(problems),
    problems: (yield* explainedProblemsInSteps(model, problems)).map(({ severity, code, message, line }) => ({
      severity,
      code,
      message,
      line,
    })),
  };
}

// ---- blanks --------------------------------------------------------------------------------------------------------

/** The blank of a piece, or why it has none. */
export function blankOf(piece: PieceModel): BlankInput | string {
  const material = piece.material();
  if (!material) return 'what it is cut from is not known';
  if (material.kind() === 'wire') return `${material.name} is wire, not sheet`;
  const massPerArea = material.figures().get('mass-per-area');
  if (!massPerArea) return `the thickness or density of ${material.name} is not known`;
  const blank = piece.blank();
  if (!blank) return noBlank(piece);
  const grain = piece.line('grain');
  const size = sizeOf(piece);
  return {
    id: piece.name,
    piece: piece.name,
    label: piece.name,
    long: blank.long,
    wide: blank.wide,
    area: blank.area,
    shape: blank.overridden ? blank.shape : shapeOf(piece),
    perBuild: piece.make(),
    ...(piece.mirrored() ? { mirrored: true } : {}),
    ...(grain ? { grain: grain.word('across') ? 'across' : 'up' } : {}),
    notes: notesOf(piece),
    allowances: blank.allowances.map(({ edge, what, figure }) => ({
      edge,
      what,
      amount: figure.value,
      ...reasonOf(figure, piece.model.units()),
    })),
    ...(size ? { size } : {}),
    ...(blank.overridden ? { overridden: true } : {}),
    mass: (blank.area * massPerArea.value) / 1e6,
  };
}

export function noBlank(piece: PieceModel): string {
  const line = piece.formLine();
  const form = piece.form();
  if (!line) return 'it has no form';
  const flat = piece.flattening();
  if (flat && 'refused' in flat) return `blank not computed: ${flat.refused}`;
  if ((form && !isComputed(form)) || !line.line.word?.computed)
    return 'blank not computed yet: this form comes in a later version. Make a paper pattern';
  return 'blank not computed: its measures are not all known, or no such form can be made';
}

/** A cone is marked out with a trammel: its radii say more than the corners of its outline. */
function shapeOf(piece: PieceModel): BlankInput['shape'] {
  const form = piece.form();
  const layout = form && kindOf(form).layout(form);
  const blank = piece.blank()!;
  if (typeof layout !== 'object' || layout.kind !== 'sector') return blank.shape;
  const [outer, inner, sector] = ['outer-radius', 'inner-radius', 'sector'].map((name) => piece.figure(name)?.value);
  if (outer === undefined || inner === undefined || sector === undefined) return blank.shape;
  const at = (edge: string) =>
    blank.allowances.filter((each) => each.edge === edge).reduce((sum, each) => sum + each.figure.value, 0);
  if (at('left') || at('right')) return blank.shape;
  const [wide, narrow] = layout.top > layout.bottom ? ['top', 'bottom'] : ['bottom', 'top'];
  return { kind: 'sector', outer: outer + at(wide!), inner: Math.max(0, inner - at(narrow!)), angle: sector };
}

/** One reason for the whole size: both ways where they are found differently. */
function sizeOf(piece: PieceModel): BlankInput['size'] {
  const long = piece.figure('blank.diameter') ?? piece.figure('blank.long');
  if (!long) return undefined;
  const wide = piece.figure('blank.diameter') ? undefined : piece.figure('blank.wide');
  const units = piece.model.units();
  const both = wide !== undefined && wide.formula !== long.formula;
  const range = long.low !== undefined && long.high !== undefined ? { low: long.low, high: long.high } : {};
  return {
    ...reasonOf(long, units),
    ...(both ? bothOf(reasonOf(long, units), reasonOf(wide, units)) : {}),
    ...range,
    ...(long.outside === undefined ? {} : { outside: inUnits(long.outside, units) }),
  };
}

const reasonOf = (result: Result, units: System): Reasoned => ({
  formula: formulaIn(result, units),
  worked: workedIn(result, units),
  basis: result.basis,
  source: inUnits(result.source, units),
});

/** What the smith wrote above the piece, and what the blank itself asks to be minded. */
export function notesOf(piece: PieceModel): string[] {
  const notes = piece.named.section.notes.filter((note) => note.isNote).map((note) => note.text.trim());
  const written = notes.length ? [notes.join(' ')] : [];
  const form = piece.form();
  const isBand = form !== undefined && kindOf(form).band(form) !== NONE;
  const straight = isBand ? piece.figure('blank.long')?.note : undefined;
  return straight === undefined ? written : [...written, inUnits(straight, piece.model.units())];
}

function pieceLeftOut(piece: PieceModel, reason: string): Unreckoned {
  const material = piece.material();
  return {
    what: `piece ${piece.name}`,
    perBuild: piece.make(),
    ...(material ? { material: material.title() } : {}),
    reason,
  };
}

/** What the spec asks for elsewhere that takes stock, rivets, money or time and is not reckoned yet. */
const leftOutBesides = (model: Model): Unreckoned[] =>
  notCounted(model).map(({ what, perBuild, reason }) => ({
    what,
    ...(perBuild === undefined ? {} : { perBuild }),
    reason,
  }));

function materialOf(material: MaterialModel, blanks: readonly BlankInput[]): MaterialInput {
  const { area, have, price } = material.hides()[0] ?? {};
  const sheets = material.sheets();
  const offcuts = material.offcuts();
  const byArea = material.kind() === 'soft' && !sheets.length && !offcuts.length;
  const gauge = material.gauge();
  return {
    name: material.name,
    title: material.title(),
    kind: byArea ? 'hide' : 'sheet',
    thickness: material.thickness()?.value ?? Number.NaN,
    ...(gauge?.table ? { gauge: `${gauge.number} ga, ${gaugeTables[gauge.table].title}` } : {}),
    stock: {
      sheets: sheets.map((sheet) => ({
        long: sheet.long,
        wide: sheet.wide,
        ...(sheet.price === undefined ? {} : { price: sheet.price }),
        ...(sheet.have === undefined ? {} : { have: sheet.have }),
      })),
      offcuts: offcuts.map(({ long, wide }) => ({ long, wide })),
      margin: material.margin(),
      kerf: material.kerf(),
      ...(blanks.some((blank) => blank.grain) ? { grain: true } : {}),
    },
    ...(byArea
      ? {
          hide: {
            ...(area === undefined ? {} : { area }),
            ...(have === undefined ? {} : { have }),
            ...(price === undefined ? {} : { price }),
          },
        }
      : {}),
    blanks,
  };
}

// ---- straps, buckles and parts -------------------------------------------------------------------------------------

interface PartTally {
  perBuild: number;
  readonly uses: string[];
}

function strapsOf(
  model: Model,
  seam: SeamModel,
  put: (material: MaterialModel, blank: BlankInput) => void,
  buckles: Map<Named, PartTally>,
  unreckoned: Unreckoned[],
): void {
  for (const line of seam.lines.filter(({ id }) => id === 'strap')) {
    const name = strapName(seam, line);
    const count = line.count('count', 'count') ?? 1;
    const buckle = line.named('part', 'buckle');
    if (buckle?.kind === 'part') {
      tallied(buckles, buckle, count, seam.name);
    }
    const named = line.named('material');
    const material = named?.kind === 'material' ? model.materialOf(named) : undefined;
    const long = line.length('long', 'long');
    const wide = line.length('wide', 'wide');
    const massPerArea = material?.figures().get('mass-per-area');
    if (!material || !massPerArea || !(long && long > 0) || !(wide && wide > 0)) {
      unreckoned.push({
        what: name,
        perBuild: count,
        ...(material ? { material: material.title() } : {}),
        reason: material ? 'a strap needs `wide` and `long` to be cut' : 'its leather is not known',
      });
      continue;
    }
    put(
      material,
      bandBlank(name, { long, wide }, count, massPerArea.value, reasonOf(strapArea({ long, wide }), model.units())),
    );
  }
}

/** A strap or a leather as it is cut. */
function bandBlank(
  name: string,
  { long, wide }: { readonly long: number; readonly wide: number },
  perBuild: number,
  massPerArea: number,
  size: Reasoned,
): BlankInput {
  return {
    id: name,
    piece: name,
    label: name,
    long,
    wide,
    area: long * wide,
    shape: { kind: 'rectangle' },
    perBuild,
    notes: [],
    allowances: [],
    size,
    mass: (long * wide * massPerArea) / 1e6,
  };
}

/** The inner leathers of joints. What cannot be cut yet is told with what else is not counted. */
function leathersOf(model: Model, put: (material: MaterialModel, blank: BlankInput) => void): void {
  for (const { name, leather, long, perBuild } of jointLeathers(model)) {
    const { material, wide } = leather;
    const massPerArea = material?.figures().get('mass-per-area');
    if (!material || !massPerArea || !long || wide === undefined) continue;
    put(
      material,
      bandBlank(name, { long: long.value, wide }, perBuild, massPerArea.value, reasonOf(long, model.units())),
    );
  }
}

function tallied(parts: Map<Named, PartTally>, part: Named, count: number, use: string): void {
  const tally = parts.get(part) ?? { perBuild: 0, uses: [] };
  tally.perBuild += count;
  if (!tally.uses.includes(use)) tally.uses.push(use);
  parts.set(part, tally);
}

function partsOf(model: Model, buckles: ReadonlyMap<Named, PartTally>): PartInput[] {
  const own = model.parts().map(({ named }) => named);
  const all = [...own, ...[...buckles.keys()].filter((named) => !own.includes(named))];
  return all.map((named): PartInput => {
    const part = model.partOf(named);
    const tally = buckles.get(named);
    // A part that says how many are made says it for all its uses.
    const said = named.section.lines.some((line) => line.word?.id === 'make');
    return {
      name: named.word.text,
      title:
        part.wide === undefined
          ? named.word.text
          : `${named.word.text}, ${show(part.wide, 'mm', model.units(), { written: true })} wide`,
      uses: tally?.uses ?? [],
      perBuild: said || !tally ? part.make : tally.perBuild,
      ...(part.pack === undefined ? {} : { pack: part.pack }),
      ...(part.price === undefined ? {} : { price: part.price }),
      ...(part.have === undefined ? {} : { have: part.have }),
      ...(part.mass === undefined ? {} : { mass: part.mass }),
    };
  });
}

// ---- wire and rivets -----------------------------------------------------------------------------------------------

function wiresOf(model: Model): WireInput[] {
  const byWire = new Map<MaterialModel, WireInput['uses'][number][]>();
  for (const { of, what, length, wire, times } of wires(model)) {
    const use = {
      piece: of,
      edge: what,
      length: length.value,
      perBuild: times,
      reason: reasonOf(length, model.units()),
    };
    const have = byWire.get(wire);
    if (have) have.push(use);
    else byWire.set(wire, [use]);
  }
  return [...byWire].map(([wire, uses]): WireInput => {
    const diameter = wire.thickness()?.value;
    const density = wire.density()?.value;
    const coils = wire.coils();
    const have = coils.some((coil) => coil.have !== undefined)
      ? coils.reduce((sum, { length, have = 0 }) => sum + length * have, 0)
      : undefined;
    const [coil] = coils;
    return {
      name: wire.name,
      title: wire.title(),
      diameter: diameter ?? Number.NaN,
      uses,
      ...(have === undefined ? {} : { have }),
      ...(coil ? { coil: coil.length } : {}),
      ...(coil?.price === undefined ? {} : { price: coil.price }),
      ...(diameter === undefined || density === undefined
        ? {}
        : { massPerMetre: wireMass({ length: 1000, wire: diameter, density }).value }),
    };
  });
}

export function* rivetsOf(model: Model): Steps<RivetInput[]> {
  const byRivet = new Map<RivetModel, RivetUse[]>();
  for (const seam of model.seams()) {
    yield undefined;
    const rivet = seam.rivet();
    if (!rivet?.size()) continue;
    const have = byRivet.get(rivet) ?? [];
    have.push(...usesOf(model, seam, rivet));
    byRivet.set(rivet, have);
  }
  for (const use of yield* patiently(() => jointRivets(model))) {
    const { rivet, joint, at, perBuild, hasWasher, needed } = use;
    const size = rivet.size();
    if (!size) continue;
    byRivet.set(rivet, [
      ...(byRivet.get(rivet) ?? []),
      {
        seam: joint.name,
        hole: holeFor(size.shank).value,
        ...(hasWasher ? { washers: 1 } : {}),
        positions: at,
        perBuild,
        ...lengthOf(needed, rivet, model.units()),
      },
    ]);
  }
  for (const hinge of model.hinges()) {
    const held = hinge.rivets();
    const size = held?.rivet.size();
    if (!held || !size) continue;
    byRivet.set(held.rivet, [
      ...(byRivet.get(held.rivet) ?? []),
      { seam: hinge.name, hole: holeFor(size.shank).value, positions: '', perBuild: held.count * hinge.make() },
    ]);
  }
  return [...byRivet].map(([rivet, uses]): RivetInput => {
    const size = rivet.size()!;
    const mass = rivet.figures().get('mass');
    return {
      name: rivet.name,
      title: rivet.title(),
      diameter: size.shank,
      bought: size.length,
      uses,
      ...rivet.pack(),
      ...(mass ? { mass: mass.value } : {}),
    };
  });
}

/** The rivets of one seam, stack by stack. */
function usesOf(model: Model, seam: SeamModel, rivet: RivetModel): RivetUse[] {
  const row = seam.rivetCount()?.value;
  const hole = seam.figure('hole')?.value;
  const base = {
    seam: seam.name,
    ...(hole === undefined ? {} : { hole }),
    ...(seam.washer() ? { washers: 1 } : {}),
  };
  const shares = seam.shares();
  if (shares.length) {
    // Its rivets stand in the other seam's row, once in every row of it.
    const hosts = shares.map(({ seam: named, position }) => ({
      position,
      name: named?.word.text ?? '?',
      rows: named?.kind === 'seam' ? model.seamOf(named).rows() : 1,
    }));
    const stack = seam.stacks()[0];
    return [
      {
        ...base,
        positions: `${listed(hosts.map(({ position }) => position))} of ${[...new Set(hosts.map(({ name }) => name))].join(', ')}`,
        perBuild: hosts.reduce((sum, { rows }) => sum + rows, 0),
        ...lengthOf(stack?.needed, rivet, model.units()),
      },
    ];
  }
  const taken = takenFrom(model, seam);
  const left = row === undefined ? [] : Array.from({ length: row }, (_, i) => i + 1).filter((n) => !taken.has(n));
  return seam.stacks().map(
    (stack): RivetUse => ({
      ...base,
      positions: taken.size ? listed(left) : '',
      // A row of unknown length has no count: it stands there with nought, and the model marks why.
      perBuild: left.length * seam.rowsOf(stack),
      ...lengthOf(stack.needed, rivet, seam.model.units()),
    }),
  );
}

function lengthOf(needed: Stack['needed'], rivet: RivetModel, units: System): Pick<RivetUse, 'needed' | 'verdict'> {
  if (!needed) return {};
  const { value, low, high } = needed;
  return {
    needed: {
      value,
      ...(low === undefined || high === undefined ? {} : { low, high }),
      ...reasonOf(needed, units),
    },
    verdict: verdictOf(value, high ?? value, rivet),
  };
}

/** As the checks see it. Long: a shorter one that is sold would still do at the thick end of the range. */
function verdictOf(needed: number, most: number, rivet: RivetModel): 'fits' | 'short' | 'long' {
  const bought = rivet.size()!.length;
  if (bought < needed - 0.05) return 'short';
  const enough = stockedLength(most, rivet);
  return enough && bought > enough.value + 0.05 ? 'long' : 'fits';
}

/** `1 to 4, 7`: runs of three or more are written short. */
function listed(numbers: readonly number[]): string {
  const sorted = [...numbers].sort((a, b) => a - b);
  const runs: [number, number][] = [];
  for (const number of sorted) {
    const last = runs[runs.length - 1];
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .map(([from, to]) => (from === to ? `${from}` : to === from + 1 ? `${from} and ${to}` : `${from} to ${to}`))
    .join(', ');
}

/** Washers are bought beside their rivets: one for each rivet that is set over one. */
function washersOf(model: Model, rivets: readonly RivetInput[]): PartInput[] {
  const set = [...model.seams().flatMap((seam) => seam.rivet() ?? []), ...jointRivets(model).map(({ rivet }) => rivet)];
  const models = new Map(set.map((rivet) => [rivet.name, rivet]));
  return rivets.flatMap((rivet): PartInput[] => {
    const uses = rivet.uses.filter((use) => use.washers);
    const washer = models.get(rivet.name)?.washer();
    if (!uses.length || !washer) return [];
    return [
      {
        name: `${rivet.name} washer`,
        title: `washer ${washer.diameter} × ${washer.thickness} mm for ${rivet.name}`,
        uses: [...new Set(uses.map((use) => use.seam))],
        perBuild: uses.reduce((sum, use) => sum + use.perBuild * use.washers!, 0),
        ...(washer.pack === undefined ? {} : { pack: washer.pack }),
        ...(washer.price === undefined ? {} : { price: washer.price }),
        ...(washer.have === undefined ? {} : { have: washer.have }),
      },
    ];
  });
}

// ---- the job -------------------------------------------------------------------------------------------------------

/** Safety cautions head every paper. */
export function cautionsIn(problems: readonly Problem[]): Caution[] {
  const byMessage = new Map<string, Caution>();
  for (const { code, message, check } of problems)
    if (check?.caution) byMessage.set(`${code} ${message}`, { code, title: check.title, text: message });
  return [...byMessage.values()];
}

export function rulesOf(model: Model): string | undefined {
  const named = model.rules();
  if (!named) return undefined;
  const line = named.section.lines.find((each) => each.word?.id === 'book');
  const reading = line && new LineReading(named.file, line);
  const book = reading?.text('book');
  const dated = reading?.text('dated', 'dated');
  return [book ?? named.word.text, dated].filter(Boolean).join(', ');
}

export function fileName(uri: string): string {
  const name = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

import type { Place } from '../../../grammar/tree.ts';
import { isCutOut } from '../../geometry/drawings/outline-in.ts';
import { circleArea } from '../../trade/blank/plane-shapes.ts';
import {
  annealsNeeded,
  type DomeThickness,
  domeBlankArc,
  domeThickness,
  raisingCourses,
} from '../../trade/dome/dome.ts';
import { wireLengthAlong } from '../../trade/edge/edge.ts';
import { sheetMass } from '../../trade/mass/mass.ts';
import { fromSpec, type Result, result } from '../../trade/reckoning/result.ts';
import { MEASURED, NOT_KNOWN } from '../forms/answers.ts';
import { type Allowance, type Blank, Edges, givenBlank, type WorkedBlank } from '../forms/blank.ts';
import { type Domed, isAbove } from '../forms/form.ts';
import { kindOf } from '../forms/index.ts';
import { cutOutArea, sawnLength, slotArea } from '../forms/measures.ts';
import { baysOf, measuredArea } from '../shapes/surface.ts';
import { allowanceOf, type EdgeWork, inWords } from '../things/edge-work.ts';
import type { PieceFigures, PieceModel } from '../things/piece.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import { addCentre } from './balance.ts';
import { addFit } from './fit.ts';
import { addForming } from './forming.ts';
import { knucklesOf } from './knuckles.ts';
import { addFlatFigures, flattenedBlank } from './laid-flat.ts';
import { addOpeningFigures, openingName } from './openings.ts';
import { addTemplates } from './templates.ts';
import { addTurning } from './turning.ts';

/** Figures that are worked out only when one of their kind is asked for, by their names. */
const FURTHER: readonly (readonly [names: RegExp, add: (piece: PieceModel, set: FigureSet) => void])[] = [
  [/^(thickness\.mean|limit|start-thickness|tightest-radius|roll-radius.*)$/, addForming],
  [/^(bend|flute|crease)-\d+\.|\.(strain|roll-strain|stiffness|gathering)$/, addTurning],
  [
    /^(blade-teeth|saw-tilt)$|\.(punch-force|rod|edge-distance|web|bend-distance|view-wide|view-both|view-high)$/,
    addOpeningFigures,
  ],
  [/^(inside-round|clearance.*|head-passes)$/, addFit],
  [/^centre\./, addCentre],
  [/^template-\d+\./, addTemplates],
];

const TURN_NOT_KNOWN = 'How far the edge turns is not known: a wire outside it is longer, one inside it shorter.';

/** Every figure of a piece, and the blank with them. */
export const pieceFigures: PieceFigures = {
  figures(piece) {
    const set = new FigureSet(`piece ${piece.name}`, piece.name);
    addMake(piece, set);
    addForm(piece, set);
    addEdges(piece, set);
    addOpenings(piece, set);
    addBlank(piece, set);
    addMass(piece, set);
    for (const [names, add] of FURTHER) set.and(names, (further) => add(piece, further));
    return set;
  },
  allowances: allowancesOf,
  workedBlank: workedBlankOf,
  blank: blankOf,
};

function addMake(piece: PieceModel, set: FigureSet): void {
  const line = piece.line('make');
  set.add('make', 'how many in one build', fromSpec(piece.make(), 'count', 'n'), line?.place ?? piece.place, []);
}

function addForm(piece: PieceModel, set: FigureSet): void {
  const form = piece.form();
  if (!form) return;
  const place = form.line.place;
  const kind = kindOf(form);
  const own = baysOf(piece).length || piece.isWorked() ? MEASURED : kind.area(form);
  const area = own === MEASURED ? measuredArea(piece) : own === NOT_KNOWN ? undefined : own;
  if (area) set.add('area', 'finished area', area, place, []);
  kind.addFigures(form, set, piece);
  const laid = piece.laidFlat();
  const domed = piece.domed();
  if (laid) addFlatFigures(piece, laid, set);
  else if (domed) addDome(piece, set, domed, place);
  const thickness = piece.material()?.thickness();
  if (!thickness || set.get('thickness.least') || !kind.keepsThickness(form)) return;
  const flat = result({
    value: thickness.value,
    low: thickness.low,
    high: thickness.high,
    unit: 'mm',
    formula: 't = {t0}',
    symbols: { t0: thickness.value },
    basis: 'geometry',
    source: 'A bend or a roll leaves the sheet as thick as it was, but for a little at the bend',
  });
  set.add('thickness.least', 'thinnest place after forming', flat, place, [thickness.name]);
}

function addDome(piece: PieceModel, set: FigureSet, { long, wide, deep, share }: Domed, place: Place): void {
  const { method } = piece.method();
  const thickness = piece.material()?.thickness();
  const metal = piece.material()?.metal();
  if (!thickness || !metal || !method) return;
  const formed: DomeThickness = domeThickness({
    diameter: long,
    wide,
    deep,
    thickness: thickness.value,
    hardening: metal.hardening.value,
    method,
  });
  const inputs = [thickness.name];
  set.add('thickness.crown', 'thickness at the crown after forming', scaled(formed.crown, thickness), place, inputs);
  set.add('thickness.edge', 'thickness at the rim after forming', scaled(formed.edge, thickness), place, inputs);
  set.add('thickness.least', 'thinnest place after forming', scaled(formed.least, thickness), place, inputs);
  set.add('strain.crown', 'strain at the crown', formed.strainCrown, place, inputs);
  set.add('strain.edge', 'strain at the rim', formed.strainEdge, place, inputs);
  const worst = Math.max(Math.abs(formed.strainCrown.value), Math.abs(formed.strainEdge.value));
  const where = piece.method().line?.place ?? place;
  set.add('anneals', 'anneals by strain', annealsNeeded(worst, metal.strainBeforeAnneal), where, [
    `${piece.name}.strain.crown`,
    `${piece.name}.strain.edge`,
  ]);
  if (method !== 'dish' && long === wide && share === 1) {
    set.add('courses', 'raising courses', raisingCourses(domeBlankArc(long, deep).value, long), where, []);
  }
}

function addEdges(piece: PieceModel, set: FigureSet): void {
  const form = piece.form();
  if (!form) return;
  // Over the crown of a dome runs a line that one measures like an edge.
  const names = piece.domed() ? ['rim', 'middle'] : piece.edgeNames();
  for (const edge of names) {
    const length = piece.edgeLength(edge);
    if (length)
      set.add(
        `${edge}.length`,
        `length of ${edge === 'rim' || edge === 'middle' ? 'the ' : ''}${edge}`,
        length,
        form.line.place,
        [],
      );
  }
  const thickness = piece.thickness();
  if (thickness === undefined) return;
  for (const { figure } of piece.allowances()) set.put(figure);
  for (const work of piece.edgeWorks()) {
    const { edge, line } = work;
    if (work.kind === 'rolled' && work.wire && work.hollow !== undefined) {
      const length = workedLength(work, set);
      if (length === undefined) continue;
      const run = piece.edgeRun(edge);
      const closed = piece.isClosedEdge(edge) && !work.stretch;
      const turns = run === NOT_KNOWN ? 0 : run.turns(work.stretch?.from, work.stretch?.to);
      const wire = wireLengthAlong({
        edgeLength: length,
        wire: work.hollow,
        thickness,
        outward: work.outward,
        closed,
        turns,
      });
      set.add(
        `${edge}.wire`,
        `wire for ${edge}`,
        run === NOT_KNOWN ? { ...wire, note: `${TURN_NOT_KNOWN} ${wire.note}` } : wire,
        line.place,
        [`${piece.name}.${edge}.length`, `${work.wire.name}.thickness`],
      );
    }
  }
}

/** The length of edge that is worked, mm. */
function workedLength(work: EdgeWork, set: FigureSet): number | undefined {
  const whole = set.get(`${work.edge}.length`)?.value;
  if (whole === undefined) return undefined;
  if (!work.stretch) return whole;
  return Math.max(0, Math.min(work.stretch.to, whole) - Math.max(0, work.stretch.from));
}

function addOpenings(piece: PieceModel, set: FigureSet): void {
  for (const opening of piece.openings()) {
    const one = opening.round
      ? circleArea(opening.long)
      : result({
          value: slotArea(opening.long, opening.wide),
          unit: 'mm2',
          formula: 'A = ({l} − {w}) × {w} + π/4 × {w}²',
          symbols: { l: Math.max(opening.long, opening.wide), w: Math.min(opening.long, opening.wide) },
          basis: 'geometry',
          source: 'A slot with half-round ends',
        });
    const area =
      opening.count === 1
        ? one
        : result({
            value: opening.count * one.value,
            unit: 'mm2',
            formula: 'A = {n} × π/4 × {d}²',
            symbols: { n: opening.count, d: opening.long },
            basis: 'geometry',
            source: 'Area of a circle, for every hole',
          });
    set.add(`${openingName(opening)}.area`, 'area taken out', area, opening.line.place, []);
  }
  for (const { cutOut, ...pierced } of piece.pierced()) {
    if (!cutOut || !isCutOut(cutOut)) continue;
    const name = openingName(pierced);
    set.add(`${name}.area`, 'area taken out', cutOutArea(cutOut), pierced.line.place, []);
    set.add(`${name}.sawn`, 'length to saw', sawnLength(cutOut), pierced.line.place, []);
  }
}

/** The blank that the form and the edges lead to, whatever the smith's own line says. */
function workedBlankOf(piece: PieceModel): WorkedBlank | undefined {
  const form = piece.form();
  if (!form) return undefined;
  const edges = new Edges(piece.allowances());
  const laid = piece.laidFlat();
  if (laid) return flattenedBlank(laid, edges);
  const { blank } = kindOf(form);
  if (typeof blank !== 'function') return undefined;
  return blank(form, { edges, method: piece.method().method, line: () => piece.baseLine() });
}

/** What is cut: the smith's own blank where a `blank` line gives one. */
function blankOf(piece: PieceModel): Blank | undefined {
  const line = piece.line('blank');
  const own = line?.length('diameter') ?? line?.measures('length', 'size')?.[0];
  if (!line || !isAbove(own)) return piece.workedBlank()?.blank;
  const wide = line.filled('diameter') ? undefined : line.measures('length', 'size')?.[1];
  return givenBlank(own, isAbove(wide) ? wide : undefined, isOval(piece));
}

/** Whether what is cut for it is an oval, longer than wide. */
function isOval(piece: PieceModel): boolean {
  const form = piece.form();
  const layout = form && kindOf(form).layout(form);
  return typeof layout === 'object' && layout.kind === 'round' && layout.long !== layout.wide;
}

function addBlank(piece: PieceModel, set: FigureSet): void {
  const worked = piece.workedBlank();
  const blank = piece.blank();
  const form = piece.form();
  const inputs = (worked?.blank.allowances ?? []).map((each) => each.figure.name);
  if (worked && form) {
    for (const { suffix, title, result: made } of worked.figures) {
      set.add(`blank.${suffix}`, title, made, form.line.place, inputs, { decimals: 1 });
    }
  }
  const line = piece.line('blank');
  if (!blank?.overridden || !line) return;
  // The smith's blank governs what is cut and weighed; how the worked-out one is found stays in the three bracketing blanks.
  const given = (suffix: string, title: string, value: number, unit: 'mm' | 'mm2') =>
    set.add(`blank.${suffix}`, title, fromSpec(value, unit, suffix), line.place, [], { decimals: 1 });
  if (blank.shape.kind === 'round') given('diameter', 'blank diameter', blank.long, 'mm');
  given('long', 'blank, long', blank.long, 'mm');
  given('wide', 'blank, wide', blank.wide, 'mm');
  given('area', 'blank area', blank.area, 'mm2');
}

/** What each worked edge adds to the blank. A part of an edge adds to the whole: a blank is cut straight and trimmed. */
function allowancesOf(piece: PieceModel): readonly Allowance[] {
  const thickness = piece.thickness();
  const set = new FigureSet(`piece ${piece.name}`, piece.name);
  if (thickness === undefined) return [];
  const inputs = piece.material() ? [`${piece.material()!.name}.thickness`] : [];
  const worked = piece.edgeWorks().flatMap((work) => {
    const made = allowanceOf(work, thickness);
    const figure =
      made && set.add(`${work.edge}.allowance`, `metal to leave at ${work.edge}`, made, work.line.place, inputs);
    return figure ? piece.edgesOf(work).map((edge) => ({ edge, what: inWords(work), figure })) : [];
  });
  const knuckles = knucklesOf(piece).flatMap(({ hinge, edge, development }) => {
    const title = `metal for the knuckles at ${edge}`;
    const figure = set.add(`${edge}.knuckles`, title, development, piece.place, [
      ...inputs,
      `${hinge.pin()!.name}.thickness`,
    ]);
    return figure ? [{ edge, what: `knuckles of ${hinge.name}`, figure }] : [];
  });
  return [...worked, ...knuckles];
}

function addMass(piece: PieceModel, set: FigureSet): void {
  const blank = piece.blank();
  const material = piece.material();
  const thickness = material?.thickness();
  const density = material?.density();
  if (!blank || !thickness || !density || material?.kind() === 'wire') return;
  const openings = piece
    .openings()
    .reduce(
      (total, opening) =>
        total + opening.count * (opening.round ? circleArea(opening.long).value : slotArea(opening.long, opening.wide)),
      0,
    );
  const pierced = piece
    .pierced()
    .reduce((total, { cutOut }) => total + (cutOut && isCutOut(cutOut) ? cutOutArea(cutOut).value : 0), 0);
  const area = Math.max(0, blank.area - openings - pierced);
  const mass = sheetMass({ area, thickness: thickness.value, density: density.value });
  const spread = spreadOf(thickness, density);
  set.add(
    'mass',
    'mass of one',
    {
      ...mass,
      ...(spread ? { low: mass.value * spread.low, high: mass.value * spread.high } : {}),
      note: 'Forming does not change mass: it is the blank’s area, less what is cut out, times the starting thickness.',
    },
    piece.place,
    [`${piece.name}.blank.area`, thickness.name, density.name],
  );
}

/** What forming leaves is a share of the sheet: a sheet that may be thinner or thicker widens the range by as much. */
function scaled(formed: Result, { value, low, high }: Figure): Result {
  if (low === undefined || high === undefined) return formed;
  return {
    ...formed,
    low: ((formed.low ?? formed.value) * low) / value,
    high: ((formed.high ?? formed.value) * high) / value,
  };
}

/** How much thickness and density together may differ from their values, as factors. */
function spreadOf(thickness: Figure, density: Figure): { low: number; high: number } | undefined {
  if (density.low === undefined && thickness.low === undefined) return undefined;
  const low = ((thickness.low ?? thickness.value) / thickness.value) * ((density.low ?? density.value) / density.value);
  const high =
    ((thickness.high ?? thickness.value) / thickness.value) * ((density.high ?? density.value) / density.value);
  return { low, high };
}

import type { Place } from '../../../grammar/tree.ts';
import { say } from '../../../l10n/say.ts';
import { isCutOut } from '../../geometry/drawings/outline-in.ts';
import { keptThickness } from '../../trade/bend/bend.ts';
import { cutOutArea, sawnLength } from '../../trade/blank/drawn.ts';
import { circleArea, circlesArea, slotArea } from '../../trade/blank/plane-shapes.ts';
import { goresOfShape } from '../../trade/dome/gores.ts';
import { type FormedBy, outcomeOf } from '../../trade/dome/hammered.ts';
import { wireLengthAlong } from '../../trade/edge/edge.ts';
import { sheetMass } from '../../trade/mass/mass.ts';
import { ends, type Interval, intervalOf, through } from '../../trade/reckoning/interval.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import type { Result } from '../../trade/reckoning/result.ts';
import { MEASURED, NOT_KNOWN } from '../forms/answers.ts';
import { type Allowance, type Blank, type BlankFigure, Edges, givenBlank, type WorkedBlank } from '../forms/blank.ts';
import { isAbove } from '../forms/form.ts';
import { kindOf } from '../forms/index.ts';
import { baysOf, measuredArea } from '../shapes/surface.ts';
import { allowanceOf, type EdgeWork, inWords } from '../things/edge-work.ts';
import type { PieceFigures, PieceModel } from '../things/piece.ts';
import { FigureSet } from '../values/figure-set.ts';
import { CUT } from '../values/show.ts';
import { addCentre } from './balance.ts';
import { addFit } from './fit.ts';
import { addFormedFigures, addMeanThickness, flattenedBlank } from './formed.ts';
import { addFinished, addLimit, addRadii, addStart } from './forming.ts';
import { knucklesOf } from './knuckles.ts';
import { addOpeningFigures, openingName } from './openings.ts';
import { addTemplates } from './templates.ts';
import { addTurning } from './turning.ts';

/** Every kind of them is worked out only when one of it is asked for, by their names: a check asks for one or two at each key. */
const KINDS: readonly (readonly [names: RegExp, add: (piece: PieceModel, set: FigureSet) => void])[] = [
  [/^make$/, addMake],
  // What a form adds of its own is a word by itself, or of its crest.
  [
    /^(?!(make|mass|trimmings|anneals|courses|limit|start-thickness|clearance|inside-round)$)[^.]+$|^crest\.|^thickness\.least$/,
    addForm,
  ],
  [/^(thickness\.(crown|mid|edge|least|most)|strain\..*|anneals|courses)$/, addFormed],
  [/^thickness\.mean$/, addMean],
  [/^thickness\.least$/, addKept],
  [/\.(length|wire|allowance|knuckles)$/, addEdges],
  [/^(?!blank\.).+\.(area|sawn)$/, addOpenings],
  [/^blank\./, addBlank],
  [/^(mass|trimmings)$/, addMass],
  [/^limit$/, addLimit],
  [/^(tightest-radius|roll-radius.*)$/, addRadii],
  [/^thickness\.finished$/, addFinished],
  [/^start-thickness$/, addStart],
  [/^(bend|flute|crease)-\d+\.|\.(strain|roll-strain|stiffness|gathering)$/, addTurning],
  [
    /^(blade-teeth|saw-tilt)$|\.(punch-force|rod|edge-distance|web|bend-distance|view-wide|view-both|view-high)$/,
    addOpeningFigures,
  ],
  [/^(inside-round.*|clearance.*|.*-passes)$/, addFit],
  [/^centre\./, addCentre],
  [/^template-\d+\./, addTemplates],
];

const TURN_NOT_KNOWN = 'How far the edge turns is not known: a wire outside it is longer, one inside it shorter.';

/** Every figure of a piece, and the blank with them. */
export const pieceFigures: PieceFigures = {
  figures(piece) {
    const set = new FigureSet(`piece ${piece.name}`, piece.name);
    for (const [names, add] of KINDS) set.and(names, (further) => add(piece, further));
    return set;
  },
  allowances: allowancesOf,
  workedBlank: workedBlankOf,
  blank: blankOf,
  outcome(piece) {
    const by = piece.formedBy();
    return by && outcomeOf(by, metalGiven(piece, by));
  },
};

function addMake(piece: PieceModel, set: FigureSet): void {
  const line = piece.line('make');
  const alike = line ? undefined : piece.alike();
  const made = alike ? goresOfShape(alike) : fromSpec(piece.make(), 'count', 'n');
  set.add('make', 'how many in one build', made, line?.place ?? (alike ? piece.formLine()!.place : piece.place), []);
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
}

/** How thick forming leaves it, and what it strains. */
function addFormed(piece: PieceModel, set: FigureSet): void {
  const outcome = piece.outcome();
  if (outcome) addFormedFigures(piece, outcome, set);
}

function addMean(piece: PieceModel, set: FigureSet): void {
  const outcome = piece.outcome();
  if (outcome) addMeanThickness(piece, outcome, set);
}

/** What a bend or a roll leaves. */
function addKept(piece: PieceModel, set: FigureSet): void {
  const form = piece.form();
  if (!form) return;
  const thickness = piece.material()?.thickness();
  if (!thickness || !kindOf(form).keepsThickness(form) || set.get('thickness.least')) return;
  const kept = keptThickness(thickness);
  set.add('thickness.least', 'thinnest place after forming', kept, form.line.place, [thickness.name]);
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
        say`length of ${edge === 'rim' || edge === 'middle' ? say`the ` : ''}${edge}`,
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
        say`wire for ${edge}`,
        run === NOT_KNOWN ? { ...wire, note: `${TURN_NOT_KNOWN} ${wire.note}` } : wire,
        line.place,
        [`${piece.name}.${edge}.length`, `${work.wire.name}.thickness`],
        CUT,
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
    const { count, long, wide, round } = opening;
    const area = !round ? slotArea(long, wide) : count === 1 ? circleArea(long) : circlesArea(count, long);
    addTakenOut(openingName(opening), area, opening.line.place, set);
  }
  for (const { cutOut, ...pierced } of piece.pierced()) {
    if (!cutOut || !isCutOut(cutOut)) continue;
    const name = openingName(pierced);
    addTakenOut(name, cutOutArea(cutOut.shapes), pierced.line.place, set);
    set.add(`${name}.sawn`, 'length to saw', sawnLength(cutOut.shapes), pierced.line.place, []);
  }
}

function addTakenOut(name: string, area: Result, place: Place, set: FigureSet): void {
  // `blank.area` is what is cut, whatever an opening is called.
  if (name.toLowerCase() !== 'blank') set.add(`${name}.area`, 'area taken out', area, place, []);
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
  return blank(form, { edges, formedBy: () => piece.formedBy(), line: () => piece.baseLine() });
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
  const size = typeof layout === 'object' && layout.kind === 'round' ? layout : piece.domed();
  return size !== undefined && size.long !== size.wide && !('share' in size && size.share !== 1);
}

/** What the blank has for the form, less what its edges need, mm²; without end where the form takes what it needs. */
function metalGiven(piece: PieceModel, by: FormedBy): number {
  const worked = piece.workedBlank();
  const blank = piece.blank();
  if (!worked || !blank || (!blank.overridden && !by.bracket.cutsToProfile)) return Number.POSITIVE_INFINITY;
  return Math.max(blank.area - edgesArea(by, worked), 1e-3 * by.value.area);
}

/** What the edges of a formed piece need beside its form, mm². */
const edgesArea = (by: FormedBy, { needed }: WorkedBlank): number => Math.max(0, needed.area - by.value.area);

function addBlank(piece: PieceModel, set: FigureSet): void {
  const worked = piece.workedBlank();
  const blank = piece.blank();
  const form = piece.form();
  const inputs = (worked?.blank.allowances ?? []).map((each) => each.figure.name);
  if (worked && form) {
    for (const { suffix, title, result: made } of inOrder(worked.figures())) {
      set.add(`blank.${suffix}`, title, made, form.line.place, inputs, { decimals: 1, ...CUT });
    }
  }
  const line = piece.line('blank');
  if (!blank?.overridden || !line) return;
  // The smith's blank governs what is cut and weighed; how the worked-out one is found stays in the three bracketing blanks.
  const given = (suffix: string, title: string, value: number, unit: 'mm' | 'mm2') =>
    set.add(`blank.${suffix}`, title, fromSpec(value, unit, suffix), line.place, [], { decimals: 1, ...CUT });
  if (blank.shape.kind === 'round') given('diameter', 'blank diameter', blank.long, 'mm');
  given('long', 'blank, long', Math.max(blank.long, blank.wide), 'mm');
  given('wide', 'blank, wide', Math.min(blank.long, blank.wide), 'mm');
  given('area', 'blank area', blank.area, 'mm2');
}

/** The figures of a blank, its longer side told as long, however it lies. */
function inOrder(figures: readonly BlankFigure[]): readonly BlankFigure[] {
  const of = (suffix: string) => figures.find((each) => each.suffix === suffix)?.result;
  return figures.map((each) => {
    const [, kind = '', side] = /^(needed-)?(long|wide)$/.exec(each.suffix) ?? [];
    const [long, wide] = [of(`${kind}long`), of(`${kind}wide`)];
    if (!side || !long || !wide || long.value >= wide.value) return each;
    const { formula, ...other } = side === 'long' ? wide : long;
    return { ...each, result: { ...other, formula: formula.replace(/^(long|wide)(?= =)/, side) } };
  });
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
      made && set.add(`${work.edge}.allowance`, say`metal to leave at ${work.edge}`, made, work.line.place, inputs);
    return figure ? piece.edgesOf(work).map((edge) => ({ edge, what: inWords(work), figure })) : [];
  });
  const knuckles = knucklesOf(piece).flatMap(({ hinge, edge, development }) => {
    const title = say`metal for the knuckles at ${edge}`;
    const figure = set.add(`${edge}.knuckles`, title, development, piece.place, [
      ...inputs,
      `${hinge.pin()!.name}.thickness`,
    ]);
    return figure ? [{ edge, what: say`knuckles of ${hinge.name}`, figure }] : [];
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
        total + opening.count * (opening.round ? circleArea(opening.long) : slotArea(opening.long, opening.wide)).value,
      0,
    );
  const pierced = piece
    .pierced()
    .reduce((total, { cutOut }) => total + (cutOut && isCutOut(cutOut) ? cutOutArea(cutOut.shapes).value : 0), 0);
  const finished = finishedMetal(piece, blank, set);
  const grams = (area: number, thick: number, dense: number) =>
    sheetMass({ area: Math.max(0, area), thickness: thick, density: dense });
  const [thick, dense] = [intervalOf(thickness), intervalOf(density)];
  const cut = openings + pierced;
  const spread = through((flat, t, ρ) => grams(flat! - cut, t!, ρ!).value, finished, thick, dense);
  set.add(
    'mass',
    'mass of one',
    {
      ...grams(finished.value - cut, thick.value, dense.value),
      ...ends(spread),
      note: 'Forming does not change mass: it is the flat metal that stays in the finished piece, less what is cut out, times the starting thickness.',
    },
    piece.place,
    [`${piece.name}.blank.area`, thickness.name, density.name],
  );
  const over = blank.area - finished.value;
  if (!piece.outcome() || over <= TRIMMED * blank.area) return;
  const trimmed = through((flat, t, ρ) => grams(blank.area - flat!, t!, ρ!).value, finished, thick, dense);
  set.add(
    'trimmings',
    'mass trimmed off after forming',
    {
      ...grams(over, thick.value, dense.value),
      ...ends(trimmed),
      note: 'What the blank has beyond what the form and its edges take, by the starting thickness.',
    },
    piece.line('blank')?.place ?? piece.place,
    [`${piece.name}.blank.area`, `${piece.name}.mass`],
  );
}

/** A share of the blank that nobody trims off. */
const TRIMMED = 1e-4;

/** Area of the flat metal that stays in the finished piece with its edges, mm². */
function finishedMetal(piece: PieceModel, blank: Blank, set: FigureSet): Interval {
  const outcome = piece.outcome();
  const worked = piece.workedBlank();
  const area = set.get('blank.area');
  if (!outcome || !worked) return intervalOf(area ?? { value: blank.area });
  const edges = edgesArea(outcome.by, worked);
  const all = [outcome.value, ...outcome.ends].map((of) => of.area + edges);
  return { value: all[0]!, low: Math.min(...all), high: Math.max(...all) };
}

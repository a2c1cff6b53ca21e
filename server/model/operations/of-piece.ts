import type { Place } from '../../../grammar/tree.ts';
import { isCutOut } from '../../geometry/drawings/outline-in.ts';
import { lengthOfPath } from '../../geometry/outline/measure.ts';
import { sawnLength } from '../../trade/blank/drawn.ts';
import { ellipsePerimeter, platePerimeter } from '../../trade/blank/plane-shapes.ts';
import { intervalOf, through } from '../../trade/reckoning/interval.ts';
import { counted } from '../../trade/reckoning/readings.ts';
import { rateOf, type WorkKind } from '../../trade/usual/rates.ts';
import { timeOf, workTime } from '../../trade/work/hours.ts';
import { kindOf } from '../forms/index.ts';
import { ofThing } from '../per-spec.ts';
import type { Opening, PieceModel, Pierced } from '../things/piece.ts';
import { count } from '../values/show.ts';
import {
  before,
  type Operation,
  operation,
  parted,
  type Quantity,
  quantityOf,
  type ThingWork,
  times,
} from './operation.ts';

/** What is done to a plate before it meets others, by what can be done when. */
export interface PieceWork extends ThingWork {
  /** What must be over before it is fitted: its last shaping, its edges, its openings. */
  readonly shaped: readonly Operation[];
  /** Hardening and tempering, which wait for the last hole. */
  readonly heat: readonly Operation[];
  /** Soft edges, which wait for the last coat. */
  readonly hung: readonly Operation[];
}

/** What is done at one plate, on all copies of one build. */
export const pieceWork = ofThing('piece', { operations: [], arrows: [], shaped: [], heat: [], hung: [] }, workOf);

function workOf(piece: PieceModel): PieceWork {
  const isSoft = piece.material()?.kind() === 'soft';
  const make = piece.make();
  const of = { kind: 'piece', name: piece.name } as const;
  const { section } = piece.named;
  let nth = 0;
  const done = (kind: WorkKind, place: Place, quantity: Quantity | undefined, more: More = {}): Operation =>
    operation({
      of,
      section,
      place,
      kind,
      quantity: quantity && times(quantity, make),
      says: more.says ?? [],
      ...(more.title === undefined ? {} : { title: more.title }),
      ...(more.several ? { nth: ++nth } : {}),
      ...(more.called === undefined ? {} : { called: more.called }),
    });

  const formLine = piece.formLine()?.place ?? piece.place;
  const around = cutLength(piece);
  const opened = (openings: readonly (Opening | Pierced)[]): Operation[] =>
    openings.map((each) => {
      const name = each.name?.text ?? each.kind;
      const isDrilled = each.kind === 'hole' || each.kind === 'holes' || each.kind === 'breaths';
      const kind = isDrilled ? 'drill' : 'saw';
      return done(kind, each.line.place, isDrilled ? { value: each.count } : sawn(each), {
        title: `${rateOf(kind).does} ${name} of ${piece.name}`,
        several: true,
        called: each.name?.key,
      });
    });

  const areaFigure = piece.figure('area');
  const area = areaFigure && quantityOf(areaFigure);
  const shaping: Operation[] = [];
  const heat: Operation[] = [];
  const formed = hammered(piece, done);
  // What no line says comes before what the lines say: there is nothing to planish before.
  if (formed && !piece.method().said) shaping.push(formed);
  const form = piece.form();
  if (!formed && form && !kindOf(form).isFlat && !isSoft)
    shaping.push(done('form', formLine, area, { title: `Bend ${piece.name} to its form` }));
  for (const line of piece.lines()) {
    switch (line.id) {
      case 'dish':
      case 'raise':
      case 'dish then raise':
        if (formed && line === piece.method().line) shaping.push(formed);
        break;
      case 'planish':
      case 'texture':
        shaping.push(done(line.id, line.place, area));
        break;
      case 'flute':
        shaping.push(
          done('flute', line.place, one(line.is('flute') ? line.count('count') : undefined), { several: true }),
        );
        break;
      case 'crease':
      case 'flare':
      case 'bend':
        shaping.push(done(line.id, line.place, one(1), { several: true }));
        break;
      case 'anneal':
        shaping.push(done('anneal', line.place, one(1), { several: true }));
        break;
      case 'harden':
      case 'temper':
        heat.push(done(line.id, line.place, one(1)));
        break;
    }
  }
  const trimmings = piece.figure('trimmings');
  const trim = trimmings && trimmings.value > 0 ? [done('trim', formLine, around)] : [];

  const mark = done('mark', formLine, one(1));
  const cut = done('cut', piece.line('from')?.place ?? piece.place, around);
  const file = isSoft ? [] : [done('file', formLine, around)];
  const [early, late] = parted([...piece.openings(), ...piece.pierced()], ({ beforeForming }) => beforeForming);
  const flat = opened(early);
  const openings = opened(late);
  const [hung, edges] = parted(edgeWork(piece, done), ({ kind }) => kind === 'hold');

  const blank = file.length ? file : [cut];
  const first = shaping.slice(0, 1);
  const last = shaping.at(-1);
  const shape = last ? [last] : [...blank, ...flat];
  const stands = trim.length ? trim : shape;
  const ends = edges.length + openings.length ? [...edges, ...openings] : stands;
  const arrows = [
    ...before([mark], [cut], 'cut-to-the-line'),
    ...before([cut], file, 'burr-first'),
    ...before([cut], flat, 'flat-first'),
    ...before([cut], first, 'blank-before-forming'),
    ...before(file, first, 'burr-first'),
    ...before(flat, first, 'flat-first'),
    ...shaping.slice(1).flatMap((each, i) => before([shaping[i]!], [each], 'as-written')),
    ...before(shape, trim, 'formed-then-trimmed'),
    ...before(stands, edges, last ? 'edge-after-forming' : 'burr-first'),
    ...before(stands, openings, last ? 'opened-after-forming' : 'blank-before-forming'),
    ...before(ends, heat.slice(0, 1), 'hard-last'),
    ...heat
      .slice(1)
      .flatMap((each, i) => before([heat[i]!], [each], each.kind === 'temper' ? 'tempered-at-once' : 'as-written')),
  ];
  return {
    operations: [mark, cut, ...file, ...flat, ...shaping, ...trim, ...edges, ...openings, ...heat, ...hung],
    arrows,
    shaped: ends,
    heat,
    hung,
  };
}

interface More {
  readonly says?: readonly string[];
  readonly title?: string;
  readonly several?: boolean;
  readonly called?: string | undefined;
}

type Done = (kind: WorkKind, place: Place, quantity: Quantity | undefined, more?: More) => Operation;

/** Dishing and raising with the anneals between: nothing for what is only bent or cut. */
function hammered(piece: PieceModel, done: Done): Operation | undefined {
  const { method, line } = piece.method();
  if (!method) return undefined;
  const courses = piece.figure('courses');
  const anneals = piece.figure('anneals');
  const area = piece.figure('area');
  const place = line?.place ?? piece.formLine()?.place ?? piece.place;
  const heats = anneals && Math.round(anneals.value);
  const says = [
    ...(courses ? [count(Math.max(1, Math.round(courses.value)), 'course')] : []),
    ...(heats ? [`${count(heats, 'anneal')} between`] : []),
  ];
  const kind = method === 'dish' ? 'dish' : 'raise';
  const base = done(kind, place, undefined, {
    says,
    title: `${method === 'dish then raise' ? 'Dish, then raise' : rateOf(kind).does} ${piece.name}`,
  });
  if (!area) return base;
  const make = piece.make();
  const worked = (of: Quantity, rate: WorkKind) => ({ name: rate, ...workTime(rateOf(rate), times(of, make)) });
  const overCourses = courses && method !== 'dish' ? through(inCourses, intervalOf(area), intervalOf(courses)) : area;
  const parts = [
    ...(method === 'dish then raise' ? [worked(area, 'dish')] : []),
    worked(overCourses, kind),
    ...(anneals && anneals.value > 0 ? [worked(anneals, 'anneal')] : []),
  ];
  return {
    ...base,
    time: timeOf(parts.map((part) => counted(part, 1))),
    inputs: [area, courses, anneals].flatMap((figure) => figure?.name ?? []),
  };
}

/** Turned, hemmed, rounded and covered edges. */
function edgeWork(piece: PieceModel, done: Done): Operation[] {
  const worked = new Set<string>();
  const all = piece.edgeWorks().flatMap((work): Operation[] => {
    for (const edge of piece.edgesOf(work)) worked.add(edge);
    const whole = piece.figure(`${work.edge}.length`);
    const long = work.stretch ? { value: work.stretch.to - work.stretch.from } : whole && quantityOf(whole);
    const title = (does: string, how = '') => ({ title: `${does} ${work.edge} of ${piece.name}${how}`, several: true });
    const { place } = work.line;
    if (work.kind === 'rolled')
      return [done('roll', place, long, title('Roll the', work.wire && ` over ${work.wire.name}`))];
    if (work.kind === 'hemmed') return [done('hem', place, long, title('Hem the'))];
    if (work.kind === 'rounded') return [done('round', place, long, title('Round the'))];
    if (work.kind === 'soft') return [done('hold', place, one(1), title('Cover the'))];
    return [];
  });
  const rounds = piece.lines().find((line) => line.id === 'edges rounded');
  if (!rounds) return all;
  const plain = piece.edgeNames().filter((edge) => !worked.has(edge));
  const lengths = plain.flatMap((edge) => piece.figure(`${edge}.length`) ?? []);
  const quantity =
    lengths.length === plain.length && plain.length
      ? { value: lengths.reduce((sum, { value }) => sum + value, 0), inputs: lengths.map(({ name }) => name) }
      : undefined;
  return [
    ...all,
    done('round', rounds.place, quantity, { title: `Round the plain edges of ${piece.name}`, several: true }),
  ];
}

/** Once round the blank, mm. */
function cutLength(piece: PieceModel): Quantity | undefined {
  const blank = piece.blank();
  if (!blank) return undefined;
  const { shape, long, wide } = blank;
  const inputs = ['blank.diameter', 'blank.long', 'blank.wide'].flatMap((name) => piece.figure(name)?.name ?? []);
  if (shape.kind === 'rectangle') return { value: platePerimeter(long, wide).value, inputs };
  if (shape.kind !== 'outline') return { value: ellipsePerimeter(long, wide).value, inputs };
  if (shape.path) return { value: lengthOfPath(shape.path), inputs };
  const vertices = shape.points.map(([x, y]) => ({ x, y }));
  return { value: lengthOfPath({ vertices, closed: true }), inputs };
}

function sawn(opening: Opening | Pierced): Quantity | undefined {
  if (opening.kind === 'pierce')
    return opening.cutOut && isCutOut(opening.cutOut) ? sawnLength(opening.cutOut.shapes) : undefined;
  return { value: platePerimeter(opening.long, opening.wide).value };
}

const one = (value: number | undefined): Quantity | undefined => (value === undefined ? undefined : { value });

/** An area as often as it is gone over, once at least. */
const inCourses = (area: number, courses: number): number => area * Math.max(1, courses);

import type { Section } from '../../../grammar/tree.ts';
import type { Problem } from '../../checks/check.ts';
import { atOnce, manyByMany, type Steps } from '../../incremental/steps.ts';
import type { SpecFile } from '../../model/names/spec-file.ts';
import type { Model } from '../../model/spec.ts';
import { type Figure, formulaIn, type Severity, shown, workedIn } from '../../model/values/figure.ts';
import { inUnits } from '../../model/values/prose.ts';
import type { Unit } from '../../trade/reckoning/result.ts';

/*
 * Figures and problems as data, for other programs: the command line's `--json`, and whoever reads it.
 * Lines and columns count from 1; a column counts UTF-16 units, as editors do.
 */

export interface Position {
  readonly line: number;
  readonly column: number;
}

export interface ExplainedFigure extends Position {
  /** `piece skull` */
  readonly of: string;
  readonly name: string;
  readonly title: string;
  readonly value: number;
  readonly unit: Unit;
  readonly low?: number;
  readonly high?: number;
  readonly shown: string;
  readonly formula: string;
  readonly worked: string;
  readonly inputs: readonly string[];
  readonly basis: string;
  readonly source: string;
  readonly outside?: string;
  readonly note?: string;
  /** Only where it stands in another file than the one asked about. */
  readonly file?: string;
}

export interface ExplainedProblem extends Position {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly endLine: number;
  readonly endColumn: number;
  readonly related: readonly (Position & { readonly message: string; readonly file?: string })[];
  /** What each quick fix does, in words. */
  readonly fixes: readonly string[];
  /** Of the whole spec: an editor does not mark it at its place. */
  readonly quiet?: true;
}

export interface Explained {
  readonly planish: 1;
  readonly file: string;
  /** Where one thing was asked for: `piece skull`, and its first words as they stand. */
  readonly of?: string;
  readonly figures: readonly ExplainedFigure[];
  readonly problems: readonly ExplainedProblem[];
}

export interface ExplainOptions {
  /** The file as it is to be called. */
  readonly file: string;
  /** What another file is to be called, by its address. */
  readonly nameOf?: (uri: string) => string;
  /** Dotted names: only figures under one of them. Names from used files may be asked for too. */
  readonly names?: readonly string[];
  readonly problems: readonly Problem[];
}

/** Every figure of a spec, or those under the given names, with its problems. */
export const explain = (model: Model, options: ExplainOptions): Explained => atOnce(explainInSteps(model, options));

/** The same, thing by thing. */
export function* explainInSteps(
  model: Model,
  { file, nameOf = lastPart, names, problems }: ExplainOptions,
): Steps<Explained> {
  const places = new Places(model.file);
  yield undefined;
  const sets = model.figures();
  for (const [done, set] of sets.entries()) {
    yield* set.workedOut();
    yield done / sets.length;
  }
  const found = yield* figuresInSteps(model, names);
  const figures = yield* manyByMany(found, (figure) => explainedFigure(figure, model, places, nameOf));
  const explained = yield* manyByMany(problems, (problem) => explainedProblem(model, problem, places, nameOf));
  return { planish: 1, file, figures, problems: explained };
}

/** The figures of the thing that a section is about, and what is found in it: nothing else is worked out for it. */
export function* explainSectionInSteps(
  model: Model,
  section: Section,
  { file, nameOf = lastPart, problems }: Omit<ExplainOptions, 'names'>,
): Steps<Explained> {
  const named = section.name && model.file.bearersOf(section.name.key).find((each) => each.section === section);
  const set = section.kind?.kind === 'build' ? model.buildFigures() : named && model.figuresOf(named);
  const places = new Places(model.file);
  yield undefined;
  if (set) yield* set.workedOut();
  const of = named
    ? `${named.kind} ${named.word.text}`
    : [section.kind?.kind, section.title?.value].filter(Boolean).join(' ');
  const figures = yield* manyByMany(set?.all() ?? [], (figure) => explainedFigure(figure, model, places, nameOf));
  const here = problems.filter(({ place, isQuiet }) => place.section === section && !isQuiet);
  const explained = yield* manyByMany(here, (problem) => explainedProblem(model, problem, places, nameOf));
  return { planish: 1, file, of, figures, problems: explained };
}

export const explainedProblems = (
  model: Model,
  problems: readonly Problem[],
  nameOf: (uri: string) => string = lastPart,
): ExplainedProblem[] => atOnce(explainedProblemsInSteps(model, problems, nameOf));

/** The same, some at a time: a spec may have tens of thousands. */
export function* explainedProblemsInSteps(
  model: Model,
  problems: readonly Problem[],
  nameOf: (uri: string) => string = lastPart,
): Steps<ExplainedProblem[]> {
  if (!problems.length) return [];
  const places = new Places(model.file);
  yield undefined;
  return yield* manyByMany(problems, (problem) => explainedProblem(model, problem, places, nameOf));
}

function explainedProblem(
  model: Model,
  problem: Problem,
  places: Places,
  nameOf: (uri: string) => string,
): ExplainedProblem {
  const { section, from, to } = problem.place;
  const start = places.at(section, from);
  const end = places.at(section, to);
  return {
    code: problem.code,
    severity: problem.severity,
    message: problem.message,
    line: start.line,
    column: start.column,
    endLine: end.line,
    endColumn: end.column,
    related: problem.related.map(({ uri, place, message }) => ({
      ...places.at(place.section, place.from),
      message,
      ...(uri === model.file.uri ? {} : { file: nameOf(uri) }),
    })),
    fixes: problem.fixes.map(({ title }) => title),
    ...(problem.isQuiet ? { quiet: true } : {}),
  };
}

/** The figures of a spec; with names, those under them, used files looked into as well. */
const figuresOf = (model: Model, names?: readonly string[]): Figure[] => atOnce(figuresInSteps(model, names));

function* figuresInSteps(model: Model, names?: readonly string[]): Steps<Figure[]> {
  const own = (yield* manyByMany(model.figures(), (set) => set.all())).flat();
  if (!names?.length) return own;
  const asked = names.map((name) => name.toLowerCase());
  const isUnder = ({ name }: Figure) =>
    asked.some((each) => name.toLowerCase() === each || name.toLowerCase().startsWith(`${each}.`));
  const found = own.filter(isUnder);
  const have = new Set(own.map(({ name }) => name.toLowerCase()));
  const used = everyFile(model.file)
    .filter((each) => each !== model.file)
    .flatMap((each) => [...each.names().values()].flat())
    .filter((named) => model.file.find(named.word.key) === named);
  for (const named of used) {
    yield undefined;
    for (const figure of model.figuresOf(named)?.all() ?? [])
      if (isUnder(figure) && !have.has(figure.name.toLowerCase())) found.push(figure);
  }
  return found;
}

/** Names that a dotted name can begin with, for the nearest right one. */
export function namesOf(model: Model): string[] {
  return [
    ...model.file.visible().map((named) => named.word.text),
    'build',
    ...figuresOf(model).map(({ name }) => name),
  ];
}

function explainedFigure(
  figure: Figure,
  model: Model,
  places: Places,
  nameOf: (uri: string) => string,
): ExplainedFigure {
  const { section, from } = figure.place;
  const home = places.fileOf(section);
  return {
    of: figure.of,
    name: figure.name,
    title: figure.title,
    value: figure.value,
    unit: figure.unit,
    ...(figure.low === undefined || figure.high === undefined ? {} : { low: figure.low, high: figure.high }),
    shown: shown(figure, model.units()),
    formula: formulaIn(figure, model.units()),
    worked: workedIn(figure, model.units()),
    inputs: figure.inputs,
    basis: figure.basis,
    source: inUnits(figure.source, model.units()),
    ...(figure.outside === undefined ? {} : { outside: inUnits(figure.outside, model.units()) }),
    ...(figure.note === undefined ? {} : { note: inUnits(figure.note, model.units()) }),
    ...places.at(section, from),
    ...(home && home !== model.file ? { file: nameOf(home.uri) } : {}),
  };
}

/** A file with all that it uses, directly or not, itself first. */
export function everyFile(file: SpecFile): SpecFile[] {
  const seen = new Set<SpecFile>([file]);
  for (const each of seen) for (const use of each.uses()) if (use.file) seen.add(use.file);
  return [...seen];
}

/** Lines and columns of places, in whichever of a spec's files they stand. */
export class Places {
  private readonly files = new Map<Section, SpecFile>();
  private readonly starts = new Map<SpecFile, readonly number[]>();

  constructor(file: SpecFile) {
    for (const each of everyFile(file)) for (const section of each.spec.sections) this.files.set(section, each);
  }

  fileOf(section: Section): SpecFile | undefined {
    return this.files.get(section);
  }

  /** Counted from 1. */
  at(section: Section, offset: number): Position {
    const file = this.files.get(section);
    if (!file) return { line: 1, column: 1 };
    let starts = this.starts.get(file);
    if (!starts) {
      starts = lineStarts(file.spec.text);
      this.starts.set(file, starts);
    }
    const wanted = section.start + offset;
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (starts[middle]! <= wanted) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: wanted - starts[low]! + 1 };
  }
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (const { index, 0: lineBreak } of text.matchAll(/\r\n|\r|\n/g)) starts.push(index + lineBreak.length);
  return starts;
}

const lastPart = (uri: string): string => {
  const name = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
};

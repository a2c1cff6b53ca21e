import { nearest } from '../../grammar/nearest.ts';
import type { Excuse, Place, Section } from '../../grammar/tree.ts';
import { say, translated } from '../../l10n/say.ts';
import { atOnce, patiently, type Steps } from '../incremental/steps.ts';
import { ofModel, thingOf } from '../model/per-spec.ts';
import type { Model } from '../model/spec.ts';
import type { SeamModel } from '../model/things/seam.ts';
import type { Finding, Severity } from '../model/values/figure.ts';
import { inUnits } from '../model/values/prose.ts';
import { seen } from '../model/values/seen.ts';
import type { System } from '../model/values/show.ts';
import { checks } from './all.generated.ts';
import type { Check, Problem, Report } from './check.ts';
import { sizedSeam } from './support/rivets.ts';
import { others, sections } from './support/things.ts';

export type SeveritySetting = Severity | 'off';

export interface CheckSettings {
  /** By check code, as the workspace sets it. */
  readonly severity?: Readonly<Record<string, SeveritySetting>>;
}

const byCode = new Map<string, Check>(checks.map((check) => [check.code, check]));

export const checkOf = (code: string): Check | undefined => byCode.get(code);

/**
 * Everything that is wrong or worth knowing in one spec file, in the order of its text: what the reader found, what the
 * model found of names and units, and what the checks say. Lines with a matching `# allow` are left out.
 */
export const problemsOf = (model: Model, settings: CheckSettings = {}): Problem[] => atOnce(judged(model, settings));

/** What was found, as the settings and the excuses want it. */
function* judged(model: Model, settings: CheckSettings): Steps<Problem[]> {
  const excuses = excusesOf(model);
  const problems: Problem[] = [];
  let seen = 0;
  // Section by section, then what sees the whole.
  const lists = yield* patiently(() => [inSections, ...whole].map((look) => look(model)));
  for (const found of lists) {
    for (const finding of found) {
      // To look at the clock after each would be felt at every key.
      if (++seen % MANY === 0) yield undefined;
      const check = byCode.get(finding.code);
      const severity = severityOf(finding, check, settings);
      if (severity === 'off' || (!check?.caution && isExcused(finding, excuses))) continue;
      problems.push(problemOf(finding, severity, check, model.units()));
    }
  }
  for (const problem of unusedExcuses(excuses, model, settings)) {
    if (++seen % MANY === 0) yield undefined;
    problems.push(problem);
  }
  return problems.sort(inOrder);
}

/** So many findings are put together within a millisecond. */
const MANY = 500;

const inOrder = (a: Problem, b: Problem): number =>
  startOf(a) - startOf(b) || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0);

function isExcused({ code, place }: Finding, excuses: Excuses): boolean {
  const excuse = excuses.get(place.section)?.find((each) => each.excuse.code === code && isOn(place, each.line));
  if (excuse) excuse.used = true;
  return excuse !== undefined;
}

/** The same, section by section and check by check. */
export function* problemsInSteps(model: Model, settings: CheckSettings = {}): Steps<Problem[]> {
  const { length } = model.file.spec.sections;
  let done = 0;
  for (const _ of sections.inSteps(model)) yield (0.8 * ++done) / length;
  for (const each of others) for (const _ of each.inSteps(model)) yield undefined;
  let at = 0;
  while (at < whole.length) {
    const until = Math.min(at + TOGETHER, whole.length);
    // Who asks again goes on where it was left.
    yield* patiently(() => {
      for (; at < until; at++) whole[at]!(model);
    });
    yield undefined;
  }
  return yield* judged(model, settings);
}

/** Most have nothing to do by now, and to look at the clock after each is felt at every key. */
const TOGETHER = 8;

/** The same problem for the same finding, so that who shows it sees at once that nothing has changed. */
function problemOf(finding: Finding, severity: Severity, check: Check | undefined, units: System): Problem {
  const problemsKnown = KNOWN[units];
  let problem = problemsKnown.get(finding);
  if (problem?.severity !== severity) {
    const words = inWords(finding, check?.family === 'Language' ? 'mm' : units);
    const isQuiet = severity === 'information' && check?.ofAll === true;
    problem = { ...finding, ...words, severity, check, isQuiet };
    problemsKnown.set(finding, problem);
  }
  return problem;
}
const KNOWN: Readonly<Record<System, WeakMap<Finding, Problem>>> = {
  mm: new WeakMap(),
  'in 1/32': new WeakMap(),
  'in 1/16': new WeakMap(),
  'in decimal': new WeakMap(),
};

/** A message quotes the spec, where a mark may stand that turns round all that is read after it: it is shown instead. */
const inWords = (
  { message, fixes, related }: Finding,
  units: System,
): Pick<Finding, 'message' | 'fixes' | 'related'> => ({
  message: inUnits(seen(translated(message)), units),
  fixes: fixes.map((fix) => ({ ...fix, title: seen(translated(fix.title)) })),
  related: related.map((each) => ({ ...each, message: inUnits(seen(translated(each.message)), units) })),
});

/** What is found of each section, whatever the settings and the excuses say. */
const inSections = sections.list((section, model) => {
  const { file } = model;
  const found: Finding[] = [...file.findingsIn(section)];
  const reports = new Reports(found);
  for (const problem of section.problems) {
    found.push({
      code: problem.code,
      place: { section, from: problem.from, to: problem.to },
      message: problem.message,
      fixes: problem.fixes.map((fix) => file.placed(fix, section)),
      related: [],
    });
  }
  // By number: these loops run through some sixty checks for every section, and an iterator makes an object for each.
  for (let i = 0; i < IN_SECTIONS.length; i++) IN_SECTIONS[i]!.look(section, reports.of(IN_SECTIONS[i]!.check), model);
  const kind = KINDS.find((each) => each === section.kind?.kind);
  const thing = kind && thingOf(model, kind, section);
  if (!thing) return found;
  const looks = LOOKS[kind];
  for (let i = 0; i < looks.length; i++) looks[i]!.look(thing as never, reports.of(looks[i]!.check), model);
  const sized = kind === 'seam' ? sizedSeam(thing as SeamModel) : undefined;
  if (sized) for (const { check, look } of ON_RIVETED) look(sized, reports.of(check), model);
  return found;
});

/** Kinds of which checks look at one thing at a time. */
const KINDS = ['material', 'piece', 'seam', 'hinge', 'joint', 'finish'] as const;
type Look = (thing: never, report: Report, model: Model) => void;

const looksAt = (kind: (typeof KINDS)[number]): { check: Check; look: Look }[] =>
  checks.flatMap((check) => {
    const look = check[kind];
    return look ? [{ check, look: look as Look }] : [];
  });

const LOOKS = {
  material: looksAt('material'),
  piece: looksAt('piece'),
  seam: looksAt('seam'),
  hinge: looksAt('hinge'),
  joint: looksAt('joint'),
  finish: looksAt('finish'),
};
// Few checks look at these: to ask each of them, for every section, whether it does is felt when a long spec is opened.
const IN_SECTIONS = checks.flatMap((check) => (check.section ? [{ check, look: check.section }] : []));
const ON_RIVETED = checks.flatMap((check) => (check.riveted ? [{ check, look: check.riveted }] : []));

const whole = checks.flatMap((check) => {
  const { run } = check;
  if (!run) return [];
  return ofModel((model) => {
    const found: Finding[] = [];
    run(model, new Reports(found).of(check));
    return found;
  });
});

/** Takes down what one check after the other reports. At every key some sixty look at a piece: one closure serves them all. */
class Reports {
  private code = '';

  constructor(private readonly found: Finding[]) {}

  /** The reports of this check, until another one is asked. */
  of(check: Check): Report {
    this.code = check.code;
    return this.take;
  }

  private readonly take: Report = (place, { message, fixes = [], related = [], severity }) => {
    const finding: Finding = { code: this.code, place, message, fixes, related };
    this.found.push(severity ? { ...finding, severity } : finding);
  };
}

const startOf = (problem: Problem): number => problem.place.section.start + problem.place.from;

const RANK: Readonly<Record<SeveritySetting, number>> = { off: 0, hint: 1, information: 2, warning: 3, error: 4 };

function severityOf(finding: Finding, check: Check | undefined, settings: CheckSettings): SeveritySetting {
  const own = finding.severity ?? check?.severity ?? 'error';
  const set = settings.severity?.[finding.code];
  if (set === undefined || RANK[set] === undefined) return own;
  // A caution may be lowered to information, and no further.
  return check?.caution && RANK[set] < RANK.information ? 'information' : set;
}

interface PlacedExcuse {
  readonly section: Section;
  readonly excuse: Excuse;
  readonly line: { readonly from: number; readonly to: number };
  used: boolean;
}

/** Section by section: who is excused is asked of the excuses of one section, however many there are. */
type Excuses = ReadonlyMap<Section, PlacedExcuse[]>;

function excusesOf(model: Model): Excuses {
  const by = new Map<Section, PlacedExcuse[]>();
  for (const excuse of excuses(model)) {
    const have = by.get(excuse.section);
    if (have) have.push({ ...excuse, used: false });
    else by.set(excuse.section, [{ ...excuse, used: false }]);
  }
  return by;
}

const excuses = sections.list((section) =>
  [...section.lines, ...section.singles].flatMap((line) =>
    'excuse' in line && line.excuse ? [{ section, excuse: line.excuse, line }] : [],
  ),
);

const isOn = (place: Place, line: { from: number; to: number }): boolean =>
  place.from < line.to && place.to > line.from;

function* unusedExcuses(excuses: Excuses, model: Model, settings: CheckSettings): Iterable<Problem> {
  const check = byCode.get('excuse-unused');
  const isPartlyRead = model.file.hasUnread();
  for (const each of [...excuses.values()].flat()) {
    if (each.used) continue;
    const { excuse, section } = each;
    const known = byCode.get(excuse.code);
    // What it excuses may only be found once the file is read.
    if (known && !known.caution && isPartlyRead) continue;
    const near = known ? undefined : nearest(excuse.code, byCode.keys());
    const message = known
      ? known.caution
        ? say`“${excuse.code}” is a safety caution, and no excuse takes it away.`
        : say`Nothing on this line is “${excuse.code}”: the excuse can go.`
      : near
        ? say`There is no check “${excuse.code}”: did you mean “${near}”?`
        : say`There is no check “${excuse.code}”.`;
    const severity = severityOf(
      { code: 'excuse-unused', place: { section, ...excuse }, message, fixes: [], related: [] },
      check,
      settings,
    );
    if (severity === 'off') continue;
    const { uri } = model.file;
    const place = { section, from: excuse.from, to: excuse.to };
    const fixes = near
      ? [{ title: say`Change to ${near}`, edits: [{ uri, place: { section, ...excuse.codeAt }, text: near }] }]
      : [
          {
            title: translated('Remove the excuse'),
            edits: [{ uri, place: { section, from: spaceBefore(section.text, excuse.from), to: excuse.to }, text: '' }],
          },
        ];
    yield { code: 'excuse-unused', place, message: seen(message), fixes, related: [], severity, check, isQuiet: false };
  }
}

function spaceBefore(text: string, at: number): number {
  let from = at;
  while (from > 0 && (text[from - 1] === ' ' || text[from - 1] === '\t')) from--;
  return from;
}

import { nearest } from '../../grammar/nearest.ts';
import type { Excuse, Place, Section } from '../../grammar/tree.ts';
import type { Finding, Severity } from '../model/figure.ts';
import type { Model } from '../model/model.ts';
import { checks } from './all.generated.ts';
import type { Check, Problem } from './check.ts';

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
export function problemsOf(model: Model, settings: CheckSettings = {}): Problem[] {
  const { file } = model;
  const found: Finding[] = [...file.examine()];
  for (const section of file.spec.sections) {
    for (const problem of section.problems) {
      found.push({
        code: problem.code,
        place: { section, from: problem.from, to: problem.to },
        message: problem.message,
        fixes: problem.fixes.map((fix) => file.placed(fix, section)),
        related: [],
      });
    }
  }
  for (const check of checks) {
    check.run?.(model, (place, reported) => {
      found.push({
        code: check.code,
        place,
        message: reported.message,
        fixes: reported.fixes ?? [],
        related: reported.related ?? [],
        ...(reported.severity ? { severity: reported.severity } : {}),
      });
    });
  }
  const excuses = excusesOf(model);
  const problems = found.flatMap((finding): Problem[] => {
    const check = byCode.get(finding.code);
    const severity = severityOf(finding, check, settings);
    if (severity === 'off') return [];
    if (!check?.caution) {
      const excuse = excuses.find(
        (each) =>
          each.excuse.code === finding.code && each.section === finding.place.section && isOn(finding.place, each.line),
      );
      if (excuse) {
        excuse.used = true;
        return [];
      }
    }
    return [{ ...finding, severity, check }];
  });
  problems.push(...unusedExcuses(excuses, model, settings));
  return problems.sort((a, b) => startOf(a) - startOf(b) || a.code.localeCompare(b.code));
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

function excusesOf(model: Model): PlacedExcuse[] {
  return model.file.spec.sections.flatMap((section) => {
    const lines = [...section.lines, ...section.singles.filter((single) => single.kind === 'let')];
    return lines.flatMap((line) =>
      'excuse' in line && line.excuse ? [{ section, excuse: line.excuse, line, used: false }] : [],
    );
  });
}

const isOn = (place: Place, line: { from: number; to: number }): boolean =>
  place.from < line.to && place.to > line.from;

function unusedExcuses(excuses: readonly PlacedExcuse[], model: Model, settings: CheckSettings): Problem[] {
  const check = byCode.get('excuse-unused');
  return excuses.flatMap((each): Problem[] => {
    if (each.used) return [];
    const { excuse, section } = each;
    const known = byCode.get(excuse.code);
    const near = known ? undefined : nearest(excuse.code, byCode.keys());
    const message = known
      ? known.caution
        ? `“${excuse.code}” is a safety caution, and no excuse takes it away.`
        : `Nothing on this line is “${excuse.code}”: the excuse can go.`
      : near
        ? `There is no check “${excuse.code}”: did you mean “${near}”?`
        : `There is no check “${excuse.code}”.`;
    const severity = severityOf(
      { code: 'excuse-unused', place: { section, ...excuse }, message, fixes: [], related: [] },
      check,
      settings,
    );
    if (severity === 'off') return [];
    const { uri } = model.file;
    const place = { section, from: excuse.from, to: excuse.to };
    const fixes = near
      ? [{ title: `Change to ${near}`, edits: [{ uri, place: { section, ...excuse.codeAt }, text: near }] }]
      : [
          {
            title: 'Remove the excuse',
            edits: [{ uri, place: { section, from: spaceBefore(section.text, excuse.from), to: excuse.to }, text: '' }],
          },
        ];
    return [{ code: 'excuse-unused', place, message, fixes, related: [], severity, check }];
  });
}

function spaceBefore(text: string, at: number): number {
  let from = at;
  while (from > 0 && (text[from - 1] === ' ' || text[from - 1] === '\t')) from--;
  return from;
}

import { type CheckSettings, checkOf, type SeveritySetting } from '../../checks/run.ts';
import { type InchStep, isInchStep, type UnitName, USUAL_INCH_STEP } from '../../model/values/show.ts';

export interface HintSettings {
  readonly enabled: boolean;
  readonly blankSize: boolean;
  readonly rivetLength: boolean;
  readonly thickness: boolean;
}

export const ALL_HINTS: HintSettings = { enabled: true, blankSize: true, rivetLength: true, thickness: true };

export interface Settings {
  readonly checks: CheckSettings;
  readonly hints: HintSettings;
  /** Whether lines of text stand above builds, pieces and stock. */
  readonly lenses: boolean;
  /** To what lengths in inches are told where a build does not say. */
  readonly inches: InchStep;
  /** In which hints, hovers and papers are told; as the build says where it is not set. */
  readonly units?: UnitName;
}

export const DEFAULT_SETTINGS: Settings = { checks: {}, hints: ALL_HINTS, lenses: true, inches: USUAL_INCH_STEP };

const SEVERITIES = new Set<unknown>(['error', 'warning', 'information', 'hint', 'off']);

/** Settings as the editor gives them. What cannot be understood counts as not set. */
export function readSettings(given: unknown): Settings {
  const root = record(given);
  const checks = record(root['checks']);
  const hints = record(root['hints']);
  const lenses = record(root['lenses'])['enabled'];
  const { units } = root;
  const severity: Record<string, SeveritySetting> = {};
  for (const [code, value] of Object.entries(record(checks['severity'])))
    if (SEVERITIES.has(value) && (checkOf(code) || /^[a-z][a-z0-9-]*$/.test(code)))
      severity[code] = value as SeveritySetting;
  const flag = (name: keyof HintSettings) => (typeof hints[name] === 'boolean' ? hints[name] : ALL_HINTS[name]);
  return {
    checks: { severity },
    hints: {
      enabled: flag('enabled'),
      blankSize: flag('blankSize'),
      rivetLength: flag('rivetLength'),
      thickness: flag('thickness'),
    },
    lenses: lenses !== false,
    inches: isInchStep(root['inches']) ? root['inches'] : USUAL_INCH_STEP,
    ...(units === 'mm' || units === 'in' ? { units } : {}),
  };
}

const record = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Record<string, unknown>) : {};

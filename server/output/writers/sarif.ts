import type { Fix, Log, Region, ReportingDescriptor, Result as SarifResult } from 'sarif';
import { absolute, type Place } from '../../../grammar/tree.ts';
import { checks } from '../../checks/all.generated.ts';
import type { Check, Problem } from '../../checks/check.ts';
import type { Model } from '../../model/spec.ts';
import type { FindingFix, Severity } from '../../model/values/figure.ts';
import { everyFile, Places } from '../documents/explain.ts';

/* Problems as a SARIF 2.1.0 log, for code hosts and viewers that read it. Every check is a rule. */

export interface SarifInput {
  /** Version of Planish. */
  readonly version: string;
  /** Address of the folder that file names are relative to; ends in a slash. */
  readonly root: string;
  readonly files: readonly { readonly model: Model; readonly problems: readonly Problem[] }[];
  /** What was to be looked at and could not be read, and why in a sentence. */
  readonly unread?: readonly { readonly uri: string; readonly why: string }[];
}

const ROOT = '%SRCROOT%';
const LEVEL = { error: 'error', warning: 'warning', information: 'note', hint: 'note' } as const satisfies Record<
  Severity,
  string
>;

export function sarifLog({ version, root, files, unread = [] }: SarifInput): Log {
  const index = new Map(checks.map((check, i) => [check.code, i]));
  return {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Planish', semanticVersion: version, version, rules: checks.map(ruleOf) } },
        originalUriBaseIds: { [ROOT]: { uri: root } },
        columnKind: 'utf16CodeUnits',
        invocations: [
          unread.length
            ? {
                executionSuccessful: false,
                toolExecutionNotifications: unread.map(({ uri, why }) => ({
                  level: 'error',
                  message: { text: why },
                  locations: [{ physicalLocation: { artifactLocation: locationOf(uri, root) } }],
                })),
              }
            : { executionSuccessful: true },
        ],
        artifacts: files.map(({ model }) => ({
          location: locationOf(model.file.uri, root),
          sourceLanguage: 'planish',
        })),
        results: files.flatMap(({ model, problems }, artifact) => {
          const writer = new Writer(model, root);
          return problems.map((problem) => writer.result(problem, artifact, index.get(problem.code)));
        }),
      },
    ],
  };
}

function ruleOf(check: Check): ReportingDescriptor {
  const parts = [check.what, `Why: ${check.why}`, `What to do: ${check.todo}`];
  const source = [...(check.formula ? [`Formula: ${check.formula}`] : []), `Source: ${check.source}`];
  return {
    id: check.code,
    name: check.code.replace(/(?:^|-)(\w)/g, (_, letter: string) => letter.toUpperCase()),
    shortDescription: { text: `${check.title}.` },
    fullDescription: { text: check.what },
    help: {
      text: [...parts, ...source].join('\n\n'),
      markdown: [
        `**${check.title}**`,
        check.what,
        `**Why.** ${check.why}`,
        `**What to do.** ${check.todo}`,
        ...(check.formula ? [`\`${check.formula}\``] : []),
        `*${check.source}*`,
        `\`\`\`planish\n${check.example.trimEnd()}\n\`\`\``,
        `Put right:\n\n\`\`\`planish\n${check.better.trimEnd()}\n\`\`\``,
      ].join('\n\n'),
    },
    defaultConfiguration: { level: LEVEL[check.severity] },
    properties: { tags: [check.family, ...(check.caution ? ['safety'] : [])] },
  };
}

class Writer {
  private readonly places: Places;
  private readonly texts: ReadonlyMap<string, string>;

  constructor(
    model: Model,
    private readonly root: string,
  ) {
    this.places = new Places(model.file);
    this.texts = new Map(everyFile(model.file).map((file) => [file.uri, file.spec.text]));
    this.uri = model.file.uri;
  }

  private readonly uri: string;

  result(problem: Problem, artifact: number, rule: number | undefined): SarifResult {
    const { code, message, severity, place, related, fixes, isQuiet } = problem;
    return {
      ruleId: code,
      ...(rule === undefined ? {} : { ruleIndex: rule }),
      // What marks no line is no result to mend: the standard has a kind for that, which has no level.
      ...(isQuiet ? ({ kind: 'informational', level: 'none' } as const) : { level: LEVEL[severity] }),
      message: { text: message },
      locations: [
        {
          physicalLocation: {
            artifactLocation: { ...locationOf(this.uri, this.root), index: artifact },
            region: this.region(place),
          },
        },
      ],
      ...(related.length
        ? {
            relatedLocations: related.map((each, id) => ({
              id,
              message: { text: each.message },
              physicalLocation: {
                artifactLocation: locationOf(each.uri, this.root),
                region: this.region(each.place),
              },
            })),
          }
        : {}),
      ...(fixes.length ? { fixes: fixes.map((fix) => this.fix(fix)) } : {}),
      properties: { severity },
    };
  }

  private region({ section, from, to }: Place): Region {
    const start = this.places.at(section, from);
    const end = this.places.at(section, to);
    return { startLine: start.line, startColumn: start.column, endLine: end.line, endColumn: end.column };
  }

  private fix({ title, edits }: FindingFix): Fix {
    const byFile = new Map<string, FindingFix['edits'][number][]>();
    for (const edit of edits) {
      const have = byFile.get(edit.uri);
      if (have) have.push(edit);
      else byFile.set(edit.uri, [edit]);
    }
    return {
      description: { text: title },
      artifactChanges: [...byFile].map(([uri, own]) => ({
        artifactLocation: locationOf(uri, this.root),
        replacements: own
          .sort((a, b) => absolute(a.place).from - absolute(b.place).from)
          .map(({ place, text }) => ({
            deletedRegion: this.region(place),
            ...(text ? { insertedContent: { text: this.withBreaks(uri, text) } } : {}),
          })),
      })),
    };
  }

  /** A fix keeps to the line breaks of its file. */
  private withBreaks(uri: string, text: string): string {
    return this.texts.get(uri)?.includes('\r\n') ? text.replace(/\r?\n/g, '\r\n') : text;
  }
}

/** Relative to the root where it lies under it. */
function locationOf(uri: string, root: string): { uri: string; uriBaseId?: string } {
  return uri.startsWith(root) ? { uri: uri.slice(root.length), uriBaseId: ROOT } : { uri };
}

import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Problem } from '../../checks/check.ts';
import { quietLines } from '../../checks/quiet.ts';
import { problemsOf } from '../../checks/run.ts';
import { LARGEST, textOf } from '../../disk-text.ts';
import type { Model } from '../../model/spec.ts';
import type { Severity } from '../../model/values/figure.ts';
import { seen } from '../../model/values/seen.ts';
import { type ExplainedProblem, explainedProblems } from '../../output/documents/explain.ts';
import { sarifLog } from '../../output/writers/sarif.ts';
import type { Arguments } from '../support/arguments.ts';
import {
  type Command,
  type ExitCode,
  force,
  inches,
  language,
  output,
  root,
  speakAs,
  wanted,
} from '../support/command.ts';
import { deliver, hasErrors, isOnScreen, json, posix } from '../support/deliver.ts';
import { CommandError, Specs, shown, specFiles, typed, type Unread } from '../support/files.ts';
import { clean, columns, counted, SEVERITY_COLOUR, type Terminal } from '../support/terminal.ts';

const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;

interface Checked {
  readonly file: string;
  readonly model: Model;
  readonly problems: readonly Problem[];
}

export const check: Command = {
  name: 'check',
  usage: 'FILE|FOLDER…',
  doc: 'Says what cannot be made, what is likely to fail, and what is worth knowing.',
  more: [
    'A folder stands for every .planish file in it and below, folders that begin with a point aside.',
    '- stands for standard input, read as if it lay in this folder.',
    'Ends with 0 where nothing is an error, 1 where something is, 2 where a file cannot be read; the others are checked all the same.',
  ],
  options: {
    format: { value: 'format', choices: ['text', 'json', 'sarif'], doc: 'text (as usual), json or sarif (2.1.0).' },
    severity: {
      value: 'severity',
      choices: SEVERITIES,
      doc: 'Show this and worse: error, warning, information (as usual) or hint.',
    },
    output,
    force,
    inches,
    root,
    language,
  },
  async run({ named, options }, terminal, version): Promise<ExitCode> {
    wanted(named, 'a file or a folder');
    speakAs(options);
    const asStandardInput = named.includes(STANDARD_INPUT);
    const { files, unread: away } = specFiles(named.filter((each) => each !== STANDARD_INPUT));
    const specs = new Specs(files, options);
    const least = SEVERITIES.indexOf((options.get('severity') ?? 'information') as Severity);
    const unread: Unread[] = [...away];
    const checked: Checked[] = asStandardInput ? [await checkedInput(specs, terminal)] : [];
    for (const [i, file] of files.entries()) {
      terminal.progress(`Checking ${i + 1} of ${files.length}: ${shown(file)}`);
      // One that cannot be read keeps nobody from the others.
      try {
        const model = specs.model(file);
        checked.push({ file: typed(file), model, problems: problemsOf(model) });
      } catch (error) {
        if (!(error instanceof CommandError)) throw error;
        unread.push({ file, why: error.message });
      }
    }
    const asked = checked.map((each) => ({
      ...each,
      problems: each.problems.filter((problem) => SEVERITIES.indexOf(problem.severity) <= least),
    }));
    for (const { why } of unread) terminal.refuse(why);
    await deliver(checkedAs(options.get('format'), asked, unread, { specs, terminal, version, options }), {
      options,
      terminal,
      specs,
    });
    return unread.length ? 2 : checked.some((each) => hasErrors(each.problems)) ? 1 : 0;
  },
};

const STANDARD_INPUT = '-';

async function checkedInput(specs: Specs, terminal: Terminal): Promise<Checked> {
  const bytes = await terminal.read(LARGEST);
  if (!bytes) throw new CommandError(`Standard input is larger than any spec (over ${LARGEST / 1e6} MB).`);
  const found = textOf(bytes);
  if ('why' in found) throw new CommandError(`Standard input ${found.why}.`);
  const model = specs.modelOfText(STANDARD_INPUT, found.text);
  return { file: STANDARD_INPUT, model, problems: problemsOf(model) };
}

interface CheckedAs {
  readonly specs: Specs;
  readonly terminal: Terminal;
  readonly version: string;
  readonly options: Arguments['options'];
}

function checkedAs(
  format: string | undefined,
  checked: readonly Checked[],
  unread: readonly Unread[],
  { specs, terminal, version, options }: CheckedAs,
): string {
  switch (format) {
    case 'sarif': {
      const root = `${pathToFileURL(specs.root).href.replace(/\/$/, '')}/`;
      const away = unread.map(({ file, why }) => ({ uri: pathToFileURL(path.resolve(file)).href, why }));
      return json(sarifLog({ version, root, files: checked, unread: away }));
    }
    case 'json':
      return json({
        planish: 1,
        files: [
          ...checked.map(({ file, model, problems }) => ({
            file: posix(file),
            problems: explainedProblems(model, problems, (uri) => posix(specs.nameOf(uri))),
          })),
          ...unread.map(({ file, why }) => ({ file: posix(typed(file)), problems: [], unread: why })),
        ],
      });
    default:
      // Where nothing could be read there is nothing to sum up. Colour only where it goes to the screen itself.
      return checked.length || !unread.length
        ? checkText(checked, unread.length, specs, isOnScreen(options) ? terminal : undefined)
        : '';
  }
}

function checkText(checked: readonly Checked[], unread: number, specs: Specs, terminal: Terminal | undefined): string {
  const paint = (text: string, ...colours: Parameters<Terminal['colour']>[1][]) =>
    terminal ? terminal.colour(text, ...colours) : text;
  const rows = checked.flatMap(({ file, model, problems }) => {
    const marked = problems.filter(({ isQuiet }) => !isQuiet);
    return explainedProblems(model, marked, (uri) => specs.nameOf(uri)).map((problem) => ({ file, problem }));
  });
  const quiet = columns(
    checked.flatMap(({ file, problems }) =>
      quietLines(problems).map((line, i) => [i ? '' : seen(file), paint(clean(line), 'dim')]),
    ),
  );
  const lines = columns(
    rows.map(({ file, problem }) => [
      `${seen(file)}:${problem.line}:${problem.column}`,
      paint(problem.severity, SEVERITY_COLOUR[problem.severity]),
      paint(problem.code, 'dim'),
      clean(problem.message),
    ]),
  );
  const withRelated = lines.flatMap((line, i) => [line, ...relatedLines(rows[i]!.file, rows[i]!.problem)]);
  const parts = [withRelated, quiet].flatMap((part) => (part.length ? [...part, ''] : []));
  return [...parts, summary(checked, unread, paint), ''].join('\n');
}

function relatedLines(file: string, { related }: ExplainedProblem): string[] {
  return related.map((each) => `    ${seen(each.file ?? file)}:${each.line}:${each.column}  ${clean(each.message)}`);
}

function summary(
  checked: readonly { readonly problems: readonly Problem[] }[],
  unread: number,
  paint: (text: string, ...colours: Parameters<Terminal['colour']>[1][]) => string,
): string {
  const all = checked.flatMap(({ problems }) => problems).filter(({ isQuiet }) => !isQuiet);
  const parts = SEVERITIES.flatMap((severity) => {
    const count = all.filter((problem) => problem.severity === severity).length;
    const one = severity === 'information' ? 'thing worth knowing' : severity;
    const many = severity === 'information' ? 'things worth knowing' : `${severity}s`;
    return count ? [paint(counted(count, one, many), SEVERITY_COLOUR[severity])] : [];
  });
  if (unread) parts.push(paint(`${unread} could not be read`, 'red'));
  const files = counted(checked.length, 'file');
  return parts.length ? `${files}: ${parts.join(', ')}` : `${files}: ${paint('nothing to mend', 'green')}`;
}

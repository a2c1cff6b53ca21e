import { nearest } from '../../../grammar/nearest.ts';
import { problemsOf } from '../../checks/run.ts';
import { type ExplainedFigure, explain as explained, namesOf } from '../../output/documents/explain.ts';
import {
  type Command,
  type ExitCode,
  force,
  inches,
  language,
  open,
  output,
  root,
  speakAs,
  wanted,
} from '../support/command.ts';
import { deliver, errorsNoted, isOnScreen, json, posix } from '../support/deliver.ts';
import { CommandError, shown, typed } from '../support/files.ts';
import { clean, type Terminal } from '../support/terminal.ts';

export const explain: Command = {
  name: 'explain',
  usage: 'FILE [NAME…]',
  doc: 'Every figure of a spec, or those under a dotted name, with its formula, basis and source.',
  more: [
    'A name is written as in a spec: skull, skull.blank, stock.thickness. Names of used files may be asked for too.',
    'Ends with 1 where the spec has errors: its figures are then not to be trusted.',
  ],
  options: { json: { doc: 'As JSON, with the problems of the file.' }, output, force, inches, root, language },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const [file, ...names] = wanted(named, 'a file');
    speakAs(options);
    const specs = open(file!, options);
    const model = specs.model(file!);
    const problems = problemsOf(model);
    const found = explained(model, {
      file: posix(typed(file!)),
      nameOf: (uri) => posix(specs.nameOf(uri)),
      names,
      problems,
    });
    for (const name of names) {
      const key = name.toLowerCase();
      const has = found.figures.some(
        (each) => each.name.toLowerCase() === key || each.name.toLowerCase().startsWith(`${key}.`),
      );
      if (has) continue;
      const near = nearest(name, namesOf(model));
      const isKnown = model.file.find(key.split('.')[0]!) !== undefined;
      throw new CommandError(
        `${shown(file!)} has no figure ${name}${near && near.toLowerCase() !== key ? `: did you mean ${near}?` : isKnown ? ': nothing of it can be worked out yet.' : '.'}`,
      );
    }
    const text = options.has('json')
      ? json(found)
      : explainText(found.figures, isOnScreen(options) ? terminal : undefined);
    await deliver(text, { options, terminal, specs });
    return errorsNoted(file!, problems, terminal);
  },
};

function explainText(figures: readonly ExplainedFigure[], terminal: Terminal | undefined): string {
  const paint = (text: string, colour: 'bold' | 'dim') => (terminal ? terminal.colour(text, colour) : text);
  const lines: string[] = [];
  let of = '';
  const width = Math.max(0, ...figures.map(({ name }) => name.length));
  for (const figure of figures) {
    if (figure.of !== of) {
      if (lines.length) lines.push('');
      lines.push(paint(clean(figure.of), 'bold'));
      of = figure.of;
    }
    const indent = ' '.repeat(width + 4);
    const equals = figure.worked === figure.formula ? figure.formula : `${figure.formula} = ${figure.worked}`;
    lines.push(`  ${clean(figure.name.padEnd(width))}  ${clean(figure.shown)}`);
    lines.push(`${indent}${clean(equals)}`);
    lines.push(paint(`${indent}${figure.basis}: ${clean(figure.source)}`, 'dim'));
    if (figure.outside) lines.push(`${indent}Not to be trusted: ${clean(figure.outside)}`);
    if (figure.note) lines.push(paint(`${indent}${clean(figure.note)}`, 'dim'));
  }
  return lines.length ? `${lines.join('\n')}\n` : 'There is no figure in this file.\n';
}

import path from 'node:path';
import { anyOf, nearest } from '../../../grammar/nearest.ts';
import { problemsOf } from '../../checks/run.ts';
import { fontsOnDisk } from '../../disk-fonts.ts';
import { atOnce } from '../../incremental/steps.ts';
import type { Model } from '../../model/spec.ts';
import type { PaperSize } from '../../output/documents/patterns/tiles.ts';
import { type Export, exports, type Part, type ReadAsked, type WriteAsk } from '../../output/exports.ts';
import type { FileFormat } from '../../output/writers/file-formats.ts';
import type { Written } from '../../output/writers/papers.ts';
import type { Arguments } from '../support/arguments.ts';
import { type Command, type ExitCode, force, inches, open, output, root, wanted } from '../support/command.ts';
import { dateOf } from '../support/date.ts';
import { baseOf, deliver, deliverAll, errorsNoted, namesIn } from '../support/deliver.ts';
import { CommandError, isFolder, type Specs, shown } from '../support/files.ts';
import { clean, counted, type Terminal } from '../support/terminal.ts';
import { fileNameFor, type Output } from '../support/writing.ts';

/** A command for each row of the table of exports. */
export const exportCommands: readonly Command[] = exports.map(commandOf);

function commandOf(asked: Export): Command {
  const { command, words, formats } = asked;
  return {
    name: command,
    usage: `FILE --to ${formats.join('|')}`,
    doc: words.doc,
    more: words.more,
    options: optionsOf(asked),
    run: (args, terminal) => run(asked, args, terminal),
  };
}

function optionsOf({ formats, papers, kerf, whole, parts }: Export): Command['options'] {
  const said = anyOf(formats);
  return {
    to: { value: 'format', choices: formats, doc: whole ? `${said}. Left out, the ending of -o says it.` : `${said}.` },
    ...(papers
      ? {
          paper: {
            value: 'paper',
            choices: papers,
            doc: 'Of a PDF: a4, a3, letter, or full for one page of its own size for each piece. Otherwise a4, or letter for a build in inches.',
          },
        }
      : {}),
    ...(whole && parts ? { piece: { value: 'name', doc: 'One piece alone.' } } : {}),
    ...(kerf
      ? {
          kerf: {
            doc: 'Of a DXF or an SVG: what is cut lies half the kerf of its material in the waste. Left out where the cutter allows for it itself.',
          },
        }
      : {}),
    output: whole ? output : { value: 'folder', short: 'o', doc: 'The folder to write them into.' },
    force,
    inches,
    date: { value: 'date', doc: 'The day that stands on it, 2027-03-01. Otherwise today.' },
    root,
  };
}

async function run(asked: Export, { named, options }: Arguments, terminal: Terminal): Promise<ExitCode> {
  const { command, words } = asked;
  const files = wanted(named, 'a file');
  if (files.length > 1) throw new CommandError(`planish ${command} takes one file.`);
  const file = files[0]!;
  const to = formatOf(asked, options);
  const date = dateOf(options);
  const target = targetOf(asked, file, to, options);
  const specs = open(file, options);
  const model = specs.model(file);
  const piece = pieceOf(asked, file, model, options);
  const problems = problemsOf(model);
  terminal.progress(`${words.making} of ${shown(file)}`);
  const read: ReadAsked = { date, problems, kerf: options.has('kerf'), ...(piece === undefined ? {} : { piece }) };
  const made = atOnce(asked.read(model, read));
  for (const { piece: without, reason } of asked.missing?.(made) ?? [])
    terminal.note(`${words.without} ${clean(without)}: ${clean(reason)}.`);
  const parts = asked.parts?.(made);
  if (parts && !parts.length) throw new CommandError(`${shown(file)} has ${words.nothing}.`);
  const paper = options.get('paper') as PaperSize | undefined;
  const ask: WriteAsk = { to, fonts: fontsOnDisk, run: atOnce, ...(paper ? { paper } : {}) };
  const delivery = { options, terminal, specs };
  const isWhole =
    'folder' in target
      ? await writeParts(parts!, ask, { ...delivery, file, folder: target.folder, part: words.part! })
      : await writeWhole(() => asked.whole!(made, ask), {
          ...delivery,
          target: target.file,
          to,
          what: `${words.title} of ${shown(file)}`,
        });
  return errorsNoted(file, problems, terminal) || (isWhole ? 0 : 1);
}

interface Delivery {
  readonly options: Arguments['options'];
  readonly terminal: Terminal;
  readonly specs: Specs;
}

async function writeWhole(
  write: () => Promise<Written>,
  { to, ...delivery }: Delivery & { readonly to: FileFormat; readonly target: string; readonly what: string },
): Promise<boolean> {
  delivery.terminal.progress(`Writing the ${to}`);
  const written = await write();
  await deliver(contentOf(written), delivery);
  return allDrawn(written, delivery.terminal);
}

interface PartsDelivery extends Delivery {
  readonly file: string;
  readonly folder: string;
  readonly part: string;
}

async function writeParts(
  parts: readonly Part[],
  ask: WriteAsk,
  { options, terminal, specs, file, folder, part }: PartsDelivery,
): Promise<boolean> {
  const outputs: Output[] = [];
  const nameOf = namesIn(folder, file, ask.to);
  let isWhole = true;
  for (const { name, write } of parts) {
    terminal.progress(`Writing ${name}`);
    const written = await write(ask);
    outputs.push({ file: nameOf(name), content: contentOf(written) });
    isWhole = allDrawn(written, terminal) && isWhole;
  }
  deliverAll(outputs, folder, { options, specs });
  terminal.note(`${counted(outputs.length, part)} of ${shown(file)} written to ${shown(folder)}.`);
  return isWhole;
}

function formatOf({ formats, papers, kerf }: Export, options: Arguments['options']): FileFormat {
  const said =
    options.get('to') ??
    path
      .extname(options.get('output') ?? '')
      .slice(1)
      .toLowerCase();
  const to = formats.find((format) => format === said);
  if (!to) throw new CommandError(`Say what to write: --to ${formats.join(', --to ')}.`);
  if (papers && options.has('paper') && to !== 'pdf')
    throw new CommandError(`--paper is for a PDF: a${to === 'svg' ? 'n SVG' : ' DXF'} has none.`);
  if (kerf && options.has('kerf') && to === 'pdf')
    throw new CommandError('--kerf is for a cutter: a PDF is cut by hand.');
  return to;
}

/** Where it goes: all of it into one file, or each of its parts into a folder. */
function targetOf(
  { command, fileName, words, whole, parts }: Export,
  file: string,
  to: FileFormat,
  options: Arguments['options'],
): { readonly file: string } | { readonly folder: string } {
  const said = options.get('output');
  if (!whole) {
    if (said === '-')
      throw new CommandError(`planish ${command} writes a file for each ${words.part}: -o takes a folder.`);
    return { folder: said ?? path.dirname(file) };
  }
  const name = fileNameFor(baseOf(file), `${fileName}.${to}`);
  if (said === undefined) return { file: path.join(path.dirname(file), name) };
  if (said === '-') return { file: said };
  if (parts && (isFolder(said) || /[\\/]$/.test(said))) return { folder: said };
  return { file: isFolder(said) ? path.join(said, name) : said };
}

/** The one piece that was asked for. @throws {CommandError} where there is none at all, or not this. */
function pieceOf({ words }: Export, file: string, model: Model, options: Arguments['options']): string | undefined {
  const pieces = model.pieces().map(({ name }) => name);
  if (words.noPiece && !pieces.length)
    throw new CommandError(`${shown(file)} makes nothing: it has no piece, so ${words.noPiece}.`);
  const piece = options.get('piece');
  if (piece === undefined || pieces.some((name) => name.toLowerCase() === piece.toLowerCase())) return piece;
  const near = nearest(piece, pieces);
  throw new CommandError(`${shown(file)} has no piece ${clean(piece)}${near ? `: did you mean ${near}?` : '.'}`);
}

/** Names the pieces that have a pattern which the file could not hold; true where there is none. */
function allDrawn({ leftOut = [] }: Written, terminal: Terminal): boolean {
  for (const { piece, reason } of leftOut) terminal.note(`Not drawn: ${clean(piece)}: ${clean(reason)}.`, 'red');
  return !leftOut.length;
}

const contentOf = ({ text, bytes }: Pick<Written, 'text' | 'bytes'>): string | Uint8Array => text ?? bytes ?? '';

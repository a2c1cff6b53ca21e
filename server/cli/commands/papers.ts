import path from 'node:path';
import { nearest } from '../../../grammar/nearest.ts';
import { problemsOf } from '../../checks/run.ts';
import { fontsOnDisk } from '../../disk-fonts.ts';
import { atOnce } from '../../model/steps.ts';
import type { CutList } from '../../output/cut-list.ts';
import { cutListOf } from '../../output/cut-list-of.ts';
import { orderListOf } from '../../output/order-list.ts';
import { LAYOUT_FORMATS, type LayoutFormat, layoutsOf, writeLayout } from '../../output/patterns/layouts.ts';
import { patternsOf } from '../../output/patterns/patterns-of.ts';
import { PAPERS, type PaperSize } from '../../output/patterns/tiles.ts';
import { exportPatterns, onePiece, PATTERN_FORMATS, type PatternFormat } from '../../output/patterns/writers.ts';
import {
  exportCutList,
  exportOrderList,
  FORMATS,
  type Format,
  ORDER_FORMATS,
  type Written,
} from '../../output/writers.ts';
import type { Arguments } from '../support/arguments.ts';
import { type Command, type ExitCode, force, open, output, root, wanted } from '../support/command.ts';
import { baseOf, deliver, deliverAll, errorsNoted, namesIn } from '../support/deliver.ts';
import { CommandError, isFolder, shown } from '../support/files.ts';
import { clean, counted, type Terminal } from '../support/terminal.ts';
import { fileNameFor, type Output } from '../support/writing.ts';

export const cutlist: Command = {
  name: 'cutlist',
  usage: 'FILE --to html|pdf|csv|md|json',
  doc: 'Writes the cut list: blanks laid on the stock, wire, rivets, leather, what to buy.',
  more: [
    'Without -o it is written beside the spec: sallet.planish makes sallet.cut-list.html.',
    'Ends with 1 where the spec has errors: the list is written all the same, and says so at its head.',
  ],
  options: listOptions(FORMATS),
  run: (args, terminal) =>
    writeList(args, terminal, {
      name: 'cutlist',
      title: 'Cut list',
      formats: FORMATS,
      write: (list, to) => exportCutList(list, to, fontsOnDisk),
    }),
};

export const order: Command = {
  name: 'order',
  usage: 'FILE --to html|pdf|md|json',
  doc: 'Writes the order list: sheets, hides, wire, rivets and parts to buy, less what is in the rack.',
  more: [
    'Without -o it is written beside the spec: sallet.planish makes sallet.order-list.html.',
    'At the prices that stand in the spec and its stock. Ends with 1 where the spec has errors.',
  ],
  options: listOptions(ORDER_FORMATS),
  run: (args, terminal) =>
    writeList(args, terminal, {
      name: 'order',
      title: 'Order list',
      formats: ORDER_FORMATS,
      write: (list, to) => exportOrderList(orderListOf(list), to, fontsOnDisk),
    }),
};

function listOptions(formats: readonly Format[]): Command['options'] {
  const said = `${formats.slice(0, -1).join(', ')} or ${formats[formats.length - 1]}`;
  return {
    to: { value: 'format', choices: formats, doc: `${said}. Left out, the ending of -o says it.` },
    output,
    force,
    date: { value: 'date', doc: 'The day that stands on the paper, 2027-03-01. Otherwise today.' },
    root,
  };
}

interface ListPaper<F extends Format> {
  readonly name: string;
  /** `Cut list`: said when it is written, and part of the name of the file. */
  readonly title: string;
  readonly formats: readonly F[];
  write(list: CutList, to: F): Promise<Written>;
}

/** A paper that says no more than the cut list knows. */
async function writeList<F extends Format>(
  { named, options }: Arguments,
  terminal: Terminal,
  { name, title, formats, write }: ListPaper<F>,
): Promise<ExitCode> {
  const files = wanted(named, 'a file');
  if (files.length > 1) throw new CommandError(`planish ${name} takes one file.`);
  const file = files[0]!;
  const to = formatOf(options, formats);
  const date = dateOf(options);
  const specs = open(file, options);
  const target = targetOf(file, `${title.toLowerCase().replace(' ', '-')}.${to}`, options.get('output'));
  const model = specs.model(file);
  if (!model.pieces().length)
    throw new CommandError(`${shown(file)} makes nothing: it has no piece, so there is nothing to cut.`);
  const problems = problemsOf(model);
  terminal.progress(`Laying out ${shown(file)}`);
  const list = cutListOf(model, { date, problems });
  terminal.progress(`Writing the ${to}`);
  const written = await write(list, to);
  await deliver(contentOf(written), { options, terminal, specs, target, what: `${title} of ${shown(file)}` });
  return errorsNoted(file, problems, terminal);
}

function formatOf<F extends string>(options: ReadonlyMap<string, string>, formats: readonly F[]): F {
  const said =
    options.get('to') ??
    path
      .extname(options.get('output') ?? '')
      .slice(1)
      .toLowerCase();
  const found = formats.find((format) => format === said);
  if (!found) throw new CommandError(`Say what to write: --to ${formats.join(', --to ')}.`);
  return found;
}

function dateOf(options: ReadonlyMap<string, string>): string {
  const date = options.get('date') ?? today();
  if (!isDate(date)) throw new CommandError(`--date takes a day such as 2027-03-01, not ${date}.`);
  return date;
}

function targetOf(file: string, ending: string, said: string | undefined): string {
  const name = fileNameFor(baseOf(file), ending);
  if (said === undefined) return path.join(path.dirname(file), name);
  return said !== '-' && isFolder(said) ? path.join(said, name) : said;
}

/** Today by the shop's own clock; a build that must come out the same twice sets SOURCE_DATE_EPOCH. */
function today(): string {
  const epoch = Number(process.env['SOURCE_DATE_EPOCH']);
  const now = Number.isFinite(epoch) && epoch > 0 ? new Date(epoch * 1000) : new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function isDate(text: string): boolean {
  const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(text);
}

const kerf = {
  doc: 'Of a DXF or an SVG: what is cut lies half the kerf of its material in the waste. Left out where the cutter allows for it itself.',
};

export const patterns: Command = {
  name: 'patterns',
  usage: 'FILE --to pdf|svg|dxf',
  doc: 'Writes the patterns of the pieces at 1:1, for paper or for a cutter.',
  more: [
    'Without -o they are written beside the spec, all in one file: sallet.planish makes sallet.patterns.pdf.',
    'With -o and a folder (one that is there, or a name that ends in /) each piece gets a file of its own.',
    'A DXF is of release 12 in mm, with the layers CUT, DRILL, BEND, MARK and NOTE; an SVG has the same as groups.',
    'Ends with 1 where the spec has errors: the patterns are written all the same, and a PDF says so at its head; and where a PDF has too many sheets.',
  ],
  options: {
    to: { value: 'format', choices: PATTERN_FORMATS, doc: 'pdf, svg or dxf. Left out, the ending of -o says it.' },
    paper: {
      value: 'paper',
      choices: PAPERS,
      doc: 'Of a PDF: a4, a3, letter, or full for one page of its own size for each piece. Otherwise a4, or letter for a build in inches.',
    },
    piece: { value: 'name', doc: 'One piece alone.' },
    kerf,
    output,
    force,
    date: { value: 'date', doc: 'The day that stands on the paper, 2027-03-01. Otherwise today.' },
    root,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const files = wanted(named, 'a file');
    if (files.length > 1) throw new CommandError('planish patterns takes one file.');
    const file = files[0]!;
    const to: PatternFormat = formatOf(options, PATTERN_FORMATS);
    const paper = options.get('paper') as PaperSize | undefined;
    if (paper && to !== 'pdf')
      throw new CommandError(`--paper is for a PDF: a${to === 'svg' ? 'n SVG' : ' DXF'} has none.`);
    if (options.has('kerf') && to === 'pdf') throw new CommandError('--kerf is for a cutter: a PDF is cut by hand.');
    const date = dateOf(options);
    const specs = open(file, options);
    const model = specs.model(file);
    const pieces = model.pieces().map(({ name }) => name);
    if (!pieces.length)
      throw new CommandError(`${shown(file)} makes nothing: it has no piece, so there is no pattern.`);
    const piece = options.get('piece');
    if (piece !== undefined && !pieces.some((name) => name.toLowerCase() === piece.toLowerCase())) {
      const near = nearest(piece, pieces);
      throw new CommandError(`${shown(file)} has no piece ${clean(piece)}${near ? `: did you mean ${near}?` : '.'}`);
    }
    const problems = problemsOf(model);
    terminal.progress(`Drawing the patterns of ${shown(file)}`);
    const aside = options.has('kerf');
    const made = patternsOf(model, { date, problems, kerf: aside, ...(piece === undefined ? {} : { piece }) });
    for (const { piece: without, reason } of made.missing)
      terminal.note(`No pattern of ${clean(without)}: ${clean(reason)}.`);
    if (!made.patterns.length) throw new CommandError(`${shown(file)} has no pattern that can be drawn.`);
    const ask = { to, fonts: fontsOnDisk, ...(paper ? { paper } : {}) };
    const target = options.get('output');
    if (target !== undefined && target !== '-' && (isFolder(target) || /[\\/]$/.test(target))) {
      const outputs: Output[] = [];
      const nameOf = namesIn(target, file, to);
      let isWhole = true;
      for (const { piece: name } of made.patterns) {
        terminal.progress(`Writing ${name}`);
        const written = await exportPatterns(onePiece(made, name), ask);
        outputs.push({ file: nameOf(name), content: contentOf(written) });
        isWhole = allDrawn(written, terminal) && isWhole;
      }
      deliverAll(outputs, target, { options, specs });
      terminal.note(`${counted(outputs.length, 'pattern')} of ${shown(file)} written to ${shown(target)}.`);
      return errorsNoted(file, problems, terminal) || (isWhole ? 0 : 1);
    }
    terminal.progress(`Writing the ${to}`);
    const written = await exportPatterns(made, ask);
    const place = targetOf(file, `patterns.${to}`, target);
    const what = `Patterns of ${shown(file)}`;
    await deliver(contentOf(written), { options, terminal, specs, target: place, what });
    const isWhole = allDrawn(written, terminal);
    return errorsNoted(file, problems, terminal) || (isWhole ? 0 : 1);
  },
};

/** Names the pieces that have a pattern which the file could not hold; true where there is none. */
function allDrawn({ leftOut = [] }: Written, terminal: Terminal): boolean {
  for (const { piece, reason } of leftOut) terminal.note(`Not drawn: ${clean(piece)}: ${clean(reason)}.`, 'red');
  return !leftOut.length;
}

export const layouts: Command = {
  name: 'layouts',
  usage: 'FILE --to svg|dxf',
  doc: 'Writes the sheets with their blanks as the cut list lays them, at 1:1 for a cutter: a file for each sheet.',
  more: [
    'Without -o they are written beside the spec: sallet.planish makes sallet.skull-plate-1.dxf and so on.',
    'Everything that is cut, drilled, bent or marked in the flat lies on its layer, as on the patterns.',
    'Ends with 1 where the spec has errors: the sheets are written all the same.',
  ],
  options: {
    to: { value: 'format', choices: LAYOUT_FORMATS, doc: 'svg or dxf.' },
    kerf,
    output: { value: 'folder', short: 'o', doc: 'The folder to write them into.' },
    force,
    date: { value: 'date', doc: 'The day that stands in the file, 2027-03-01. Otherwise today.' },
    root,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const files = wanted(named, 'a file');
    if (files.length > 1) throw new CommandError('planish layouts takes one file.');
    const file = files[0]!;
    const to: LayoutFormat = formatOf(options, LAYOUT_FORMATS);
    const date = dateOf(options);
    const folder = options.get('output') ?? path.dirname(file);
    if (folder === '-') throw new CommandError('planish layouts writes a file for each sheet: -o takes a folder.');
    const specs = open(file, options);
    const model = specs.model(file);
    const problems = problemsOf(model);
    terminal.progress(`Laying out ${shown(file)}`);
    const made = layoutsOf(model, { date, problems, kerf: options.has('kerf') });
    for (const { piece, reason } of made.missing) terminal.note(`Not laid: ${clean(piece)}: ${clean(reason)}.`);
    if (!made.sheets.length) throw new CommandError(`${shown(file)} has nothing that can be laid on a sheet.`);
    const nameOf = namesIn(folder, file, to);
    const outputs = made.sheets.map((sheet): Output => {
      terminal.progress(`Writing ${sheet.name}`);
      return { file: nameOf(sheet.name), content: atOnce(writeLayout(made, sheet, to)) };
    });
    deliverAll(outputs, folder, { options, specs });
    terminal.note(`${counted(outputs.length, 'sheet')} of ${shown(file)} written to ${shown(folder)}.`);
    return errorsNoted(file, problems, terminal);
  },
};

const contentOf = ({ text, bytes }: Pick<Written, 'text' | 'bytes'>): string | Uint8Array => text ?? bytes ?? '';

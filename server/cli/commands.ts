import { spawn } from 'node:child_process';
import { existsSync, realpathSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { anyOf, nearest } from '../../grammar/nearest.ts';
import { formatSpec } from '../../grammar/printer.ts';
import type { Problem } from '../checks/check.ts';
import { problemsOf } from '../checks/run.ts';
import { fontsOnDisk } from '../disk-fonts.ts';
import { LARGEST, textOf } from '../disk-text.ts';
import type { Severity } from '../model/figure.ts';
import type { Model } from '../model/model.ts';
import type { PieceModel } from '../model/piece.ts';
import { seen, seenInJson } from '../model/seen.ts';
import { atOnce } from '../model/steps.ts';
import { surfaceOf } from '../model/surface.ts';
import type { CutList } from '../output/cut-list.ts';
import { cutListOf } from '../output/cut-list-of.ts';
import { type ExplainedFigure, type ExplainedProblem, explain, explainedProblems, namesOf } from '../output/explain.ts';
import { formViewSvg } from '../output/form-view.ts';
import { orderListOf } from '../output/order-list.ts';
import { LAYOUT_FORMATS, type LayoutFormat, layoutsOf, writeLayout } from '../output/patterns/layouts.ts';
import { patternsOf } from '../output/patterns/patterns-of.ts';
import { PAPERS, type PaperSize } from '../output/patterns/tiles.ts';
import { exportPatterns, onePiece, PATTERN_FORMATS, type PatternFormat } from '../output/patterns/writers.ts';
import { pieceMap } from '../output/piece-map.ts';
import { sarifLog } from '../output/sarif.ts';
import { strainMapSvg } from '../output/strain-map.ts';
import {
  exportCutList,
  exportOrderList,
  FORMATS,
  type Format,
  ORDER_FORMATS,
  type Written,
} from '../output/writers.ts';
import { starter, starters } from '../starters.ts';
import { type Arguments, type Option, readArguments } from './support/arguments.ts';
import {
  CommandError,
  isFolder,
  readFile,
  readText,
  Specs,
  shown,
  specFiles,
  typed,
  type Unread,
} from './support/files.ts';
import { clean, columns, counted, SEVERITY_COLOUR, type Terminal } from './support/terminal.ts';
import {
  ChangedMeanwhile,
  clearAway,
  fileNameFor,
  isStandardOutput,
  makeFolder,
  type Output,
  putAllInPlace,
  putInPlace,
} from './support/writing.ts';

/** 0 clean, 1 errors found, 2 could not read or bad arguments. */
export type ExitCode = 0 | 1 | 2;

export interface Command {
  readonly name: string;
  /** What stands behind the name. */
  readonly usage: string;
  readonly doc: string;
  /** More, for the command's own help. */
  readonly more?: readonly string[];
  readonly options: Readonly<Record<string, Option>>;
  run(args: Arguments, terminal: Terminal, version: string): Promise<ExitCode> | ExitCode;
}

const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;

const output: Option = { value: 'path', short: 'o', doc: 'Where to write; - is standard output.' };
const force: Option = { doc: 'Replace a file that is already there.' };
const root: Option = {
  value: 'folder',
  doc: 'The workspace: `use` reads nothing outside it. Otherwise this folder or the repository that the spec lies in.',
};

// ---- check ---------------------------------------------------------------------------------------------------------

interface Checked {
  readonly file: string;
  readonly model: Model;
  readonly problems: readonly Problem[];
}

const check: Command = {
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
    root,
  },
  async run({ named, options }, terminal, version): Promise<ExitCode> {
    wanted(named, 'a file or a folder');
    const asStandardInput = named.includes(STANDARD_INPUT);
    const { files, unread: away } = specFiles(named.filter((each) => each !== STANDARD_INPUT));
    const specs = new Specs(files, options.get('root'));
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

const isOnScreen = (options: Arguments['options']): boolean => !options.has('output') || options.get('output') === '-';

const json = (data: unknown): string => `${seenInJson(JSON.stringify(data, null, 2))}\n`;

function checkText(checked: readonly Checked[], unread: number, specs: Specs, terminal: Terminal | undefined): string {
  const paint = (text: string, ...colours: Parameters<Terminal['colour']>[1][]) =>
    terminal ? terminal.colour(text, ...colours) : text;
  const rows = checked.flatMap(({ file, model, problems }) =>
    explainedProblems(model, problems, (uri) => specs.nameOf(uri)).map((problem) => ({ file, problem })),
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
  return [...withRelated, ...(rows.length ? [''] : []), summary(checked, unread, paint), ''].join('\n');
}

function relatedLines(file: string, { related }: ExplainedProblem): string[] {
  return related.map((each) => `    ${seen(each.file ?? file)}:${each.line}:${each.column}  ${clean(each.message)}`);
}

function summary(
  checked: readonly { readonly problems: readonly Problem[] }[],
  unread: number,
  paint: (text: string, ...colours: Parameters<Terminal['colour']>[1][]) => string,
): string {
  const all = checked.flatMap(({ problems }) => problems);
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

// ---- explain -------------------------------------------------------------------------------------------------------

const explainCommand: Command = {
  name: 'explain',
  usage: 'FILE [NAME…]',
  doc: 'Every figure of a spec, or those under a dotted name, with its formula, basis and source.',
  more: [
    'A name is written as in a spec: skull, skull.blank, stock.thickness. Names of used files may be asked for too.',
    'Ends with 1 where the spec has errors: its figures are then not to be trusted.',
  ],
  options: { json: { doc: 'As JSON, with the problems of the file.' }, output, force, root },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const [file, ...names] = wanted(named, 'a file');
    const specs = open(file!, options);
    const model = specs.model(file!);
    const problems = problemsOf(model);
    const found = explain(model, {
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

// ---- cut list ------------------------------------------------------------------------------------------------------

const cutlist: Command = {
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

// ---- order list ----------------------------------------------------------------------------------------------------

const order: Command = {
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

const baseOf = (file: string): string => path.basename(file).replace(/\.planish$/i, '');

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

// ---- patterns ------------------------------------------------------------------------------------------------------

const kerf = {
  doc: 'Of a DXF or an SVG: what is cut lies half the kerf of its material in the waste. Left out where the cutter allows for it itself.',
};

const patterns: Command = {
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

// ---- layouts -------------------------------------------------------------------------------------------------------

const layouts: Command = {
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

// ---- format --------------------------------------------------------------------------------------------------------

const format: Command = {
  name: 'format',
  usage: 'FILE|FOLDER…',
  doc: 'Lays specs out as Planish does. What they mean never changes.',
  more: ['Files are changed in place. With --check nothing is written, and it ends with 1 where something would be.'],
  options: { check: { doc: 'Only say which files would change.' } },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const { files, unread } = specFiles(wanted(named, 'a file or a folder'));
    // All are read before any is written: a file that cannot be read leaves the others as they are.
    if (unread[0]) throw new CommandError(unread[0].why);
    for (const file of files) readText(file);
    const only = options.has('check');
    if (!only) for (const folder of new Set(files.map((file) => path.dirname(file)))) clearAway(folder);
    let changed = 0;
    let left = 0;
    for (const file of files) {
      try {
        if (!layOut(file, only)) continue;
        changed++;
        await terminal.print(`${shown(file)}${only ? ' would change' : ' laid out'}`);
      } catch (error) {
        if (!(error instanceof CommandError)) throw error;
        left++;
        terminal.refuse(error.message);
      }
    }
    const same = files.length - changed;
    terminal.note(
      changed
        ? `${counted(changed, 'file')} ${only ? 'would change' : 'changed'}, ${same} as ${same === 1 ? 'it was' : 'they were'}.`
        : `${counted(files.length, 'file')}: ${left ? 'nothing changed' : 'nothing to change'}.`,
    );
    return left ? 2 : only && changed ? 1 : 0;
  },
};

/** Whether there is something to change. Somebody may save the file at the same time: what is laid out is what stands there now. */
function layOut(file: string, only: boolean): boolean {
  for (let tries = 3; ; tries--) {
    const { bytes } = readFile(file);
    // A mark of byte order stays.
    const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
    const made = formatSpec(text);
    if (made === text) return false;
    if (only) return true;
    try {
      putInPlace(file, made, { force: true, instead: bytes });
      return true;
    } catch (error) {
      if (!(error instanceof ChangedMeanwhile) || tries === 1) throw error;
    }
  }
}

// ---- new -----------------------------------------------------------------------------------------------------------

const create: Command = {
  name: 'new',
  usage: 'FOLDER [--from NAME]',
  doc: 'Begins a build: a spec that already checks clean, and a stock file to put your own rack in.',
  get more() {
    return ['Starters:', ...columns(starters().map(({ id, description }) => [`  ${id}`, description]))];
  },
  options: {
    get from(): Option {
      return {
        value: 'starter',
        choices: starters().map(({ id }) => id),
        doc: 'Which starter; helm where it is left out.',
      };
    },
    force,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const folders = wanted(named, 'a folder');
    if (folders.length > 1) throw new CommandError('planish new takes one folder.');
    const folder = folders[0]!;
    const files = starter(options.get('from') ?? 'helm') ?? [];
    const outputs = files.map(
      (each): Output => ({
        file: path.join(folder, ...each.path.split('/')),
        content: each.text,
      }),
    );
    for (const { file } of outputs) makeFolder(path.dirname(file));
    putAllInPlace(outputs, { force: options.has('force') });
    for (const { file } of outputs) await terminal.print(typed(file));
    terminal.note(`Next: planish check ${shown(folder)}`);
    return 0;
  },
};

// ---- serve ---------------------------------------------------------------------------------------------------------

const serve: Command = {
  name: 'serve',
  usage: '--stdio',
  doc: 'Starts the language server for an editor.',
  options: { stdio: { doc: 'Speak over standard input and output: the one way there is.' } },
  run({ named, options }) {
    if (named.length) throw new CommandError('planish serve takes no file.');
    if (!options.has('stdio')) throw new CommandError('planish serve speaks over --stdio: say so.');
    // The server is a program of its own beside this one; from source, it is started as this one was.
    const here = path.dirname(realpathSync(process.argv[1]!));
    const bundled = path.join(here, 'server.cjs');
    const [file, how] = existsSync(bundled) ? [bundled, []] : [path.join(here, 'main.ts'), process.execArgv];
    if (!existsSync(file)) throw new CommandError('The language server is not beside this program.');
    const child = spawn(process.execPath, [...how, file, '--stdio'], { stdio: 'inherit' });
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal));
    return new Promise((resolve) => {
      child.on('error', () => resolve(2));
      child.on('exit', (code) => resolve(code === 0 ? 0 : 2));
    });
  },
};

// ---- draw ----------------------------------------------------------------------------------------------------------

const draw: Command = {
  name: 'draw',
  usage: 'FILE PIECE',
  doc: 'A piece as a drawing: its flat blank with the thickness that forming leaves, and where to stretch and shrink.',
  more: ['With --form, the net of the formed piece from three sides.'],
  options: {
    to: { value: 'format', choices: ['svg'], doc: 'svg: the one there is.' },
    form: { doc: 'The formed piece instead of its blank.' },
    output,
    force,
    root,
  },
  async run({ named, options }, terminal): Promise<ExitCode> {
    const [file, name, ...more] = wanted(named, 'a file and a piece');
    if (!name || more.length) throw new CommandError('planish draw takes a file and the name of one piece.');
    const specs = open(file!, options);
    const model = specs.model(file!);
    const pieces = model.pieces();
    const piece = pieces.find((each) => each.name.toLowerCase() === name.toLowerCase());
    if (!piece) {
      const near = nearest(
        name,
        pieces.map((each) => each.name),
      );
      throw new CommandError(`${shown(file!)} has no piece ${name}${near ? `: did you mean ${near}?` : '.'}`);
    }
    // Only then has every file been read that the spec names.
    const problems = problemsOf(model);
    await deliver(drawingOf(piece, model, options.has('form')), { options, terminal, specs });
    return errorsNoted(file!, problems, terminal);
  },
};

function drawingOf(piece: PieceModel, model: Model, formed: boolean): string {
  const refused = (why: string) => new CommandError(`“${piece.name}” cannot be drawn: ${why}.`);
  if (formed) {
    const surface = surfaceOf(piece);
    if (!surface) throw refused('it has no formed surface');
    return formViewSvg({ surface, title: `${piece.name}, formed` });
  }
  const map = pieceMap(piece, model.units());
  if ('refused' in map) throw refused(map.refused);
  return strainMapSvg(map);
}

// ---- later ---------------------------------------------------------------------------------------------------------

function later(name: string, doc: string): Command {
  return {
    name,
    usage: 'FILE',
    doc: `${doc} Not built yet.`,
    options: {},
    run() {
      throw new CommandError(`planish ${name} is not built yet.`);
    },
  };
}

export const commands: readonly Command[] = [
  check,
  explainCommand,
  cutlist,
  patterns,
  layouts,
  order,
  draw,
  format,
  create,
  serve,
  later('buildsheet', 'The order of work, with tools and settings.'),
  later('quote', 'A price for the job.'),
];

export const isLater = (command: Command): boolean => command.doc.endsWith('Not built yet.');

export async function runCommand(
  name: string,
  args: readonly string[],
  terminal: Terminal,
  version: string,
): Promise<ExitCode> {
  const command = commands.find((each) => each.name === name);
  if (!command) {
    const near = nearest(
      name,
      commands.map((each) => each.name),
    );
    throw new CommandError(
      `There is no command ${clean(name)}${near ? `: did you mean ${near}?` : `. There are ${anyOf(commands.filter((each) => !isLater(each)).map((each) => each.name))}.`}`,
    );
  }
  // What is not built yet says so whatever options come with it.
  if (isLater(command)) return command.run({ named: [], options: new Map() }, terminal, version);
  return command.run(readArguments(name, args, command.options), terminal, version);
}

// ---- shared --------------------------------------------------------------------------------------------------------

function wanted(named: readonly string[], what: string): readonly string[] {
  if (!named.length) throw new CommandError(`Say ${what}.`);
  return named;
}

function open(file: string, options: ReadonlyMap<string, string>): Specs {
  readText(file);
  return new Specs([file], options.get('root'));
}

interface Delivery {
  readonly options: Arguments['options'];
  readonly terminal: Terminal;
  /** What was read for it. */
  readonly specs: Specs;
  readonly target?: string;
  readonly what?: string;
}

/** To standard output, or to a file, whole or not at all. */
async function deliver(
  content: string | Uint8Array,
  { options, terminal, specs, target = options.get('output') ?? '-', what = '' }: Delivery,
): Promise<void> {
  if (target === '-' || isStandardOutput(target)) return terminal.write(content);
  putInPlace(target, content, { force: options.has('force'), madeFrom: specs.read });
  terminal.note(`${what ? `${what} written` : 'Written'} to ${shown(target)}.`);
}

/** Files into a folder, all or none: new ones beside old ones would be worse than none. */
function deliverAll(
  outputs: readonly Output[],
  folder: string,
  { options, specs }: Pick<Delivery, 'options' | 'specs'>,
) {
  makeFolder(folder);
  putAllInPlace(outputs, { force: options.has('force'), madeFrom: specs.read });
}

/** How the files are called that are made of the parts of one spec: each otherwise, also where a disk does not tell `A` from `a`. */
function namesIn(folder: string, spec: string, ending: string): (part: string) => string {
  const taken = new Set<string>();
  return (part) => {
    for (let number = 1; ; number++) {
      const name = fileNameFor(`${baseOf(spec)}.${part}${number > 1 ? ` (${number})` : ''}`, ending);
      const key = name.normalize('NFC').toLowerCase();
      if (taken.has(key)) continue;
      taken.add(key);
      return path.join(folder, name);
    }
  };
}

const contentOf = ({ text, bytes }: Pick<Written, 'text' | 'bytes'>): string | Uint8Array => text ?? bytes ?? '';

const hasErrors = (problems: readonly Problem[]): boolean => problems.some(({ severity }) => severity === 'error');

function errorsNoted(file: string, problems: readonly Problem[], terminal: Terminal): ExitCode {
  const errors = problems.filter(({ severity }) => severity === 'error').length;
  if (!errors) return 0;
  terminal.note(`${shown(file)} has ${counted(errors, 'error')}: planish check ${shown(file)} lists them.`, 'red');
  return 1;
}

const posix = (file: string): string => file.split(path.sep).join('/');

import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/*
 * Tests as data: a spec with what is expected written under its lines. Knows no grammar and no model, so that every
 * area tests in the same notation.
 *
 *   piece skull
 *     frm plate-16
 *   # ^^^ unknown-word                            a mark: its carets stand under the marked text
 *     rad$0                                       a cursor; several are numbered in order
 *   peice ridge
 *   #~~~~ error[unknown-word] did you mean        from column 0 the # counts as the first marked character
 *   #_ slug                                       one character at column 0
 *     make 2,
 *   #       | comma-stray                         an empty place, before this column
 *   #  ^^^^^^> nested                             it goes on past the end of the line
 *   #- stock.planish                              what follows is another file
 *
 * After the carets: a code, or `severity[code]`, then, if it matters, a part of the message. A language comment needs a
 * space or another # after its #, and `$` is no mark of the language, so nothing here can be meant as spec text, with
 * one exception: a mark line may begin with `# ` and blanks before its carets, so a comment of carets alone cannot be
 * tested inside a fixture.
 *
 * UPDATE=1 rewrites the expectations: in the test's own source for a text, in the file for a snapshot.
 */

export interface Mark {
  readonly from: number;
  readonly to: number;
  readonly code: string;
  readonly severity?: string;
  /** A part of the message, or the whole where a tool says it. */
  readonly message?: string;
}

export interface FixtureFile {
  /** `spec.planish` where the fixture names none. */
  readonly path: string;
  /** The text without cursors and expectations. */
  readonly text: string;
  readonly cursors: readonly number[];
  readonly marks: readonly Mark[];
}

export interface Fixture {
  /** As written, without the indent it shares. */
  readonly source: string;
  readonly files: readonly FixtureFile[];
  /** The first file: most fixtures have one. */
  readonly file: FixtureFile;
}

export interface FoundMark extends Mark {
  /** Left out: the first file. */
  readonly path?: string;
}

const { CI, UPDATE } = process.env;

const CURSOR = '$0';
const FILE = /^#-\s*(\S+)\s*$/;
const MARK_LINE = /^#(?:~+|_|[ \t]*(?:\^|\|))/;

/** Reads the notation. Cursors are taken out of the text; expectation lines too. */
export function readFixture(written: string): Fixture {
  const source = dedent(written);
  const files: FixtureFile[] = [];
  let name = 'spec.planish';
  let lines: string[] = [];
  const finish = () => files.push(readFile(name, lines));
  for (const line of source.split('\n')) {
    const file = FILE.exec(line)?.[1];
    if (file !== undefined) {
      if (files.length || lines.some((text) => text.trim())) finish();
      name = file;
      lines = [];
    } else {
      lines.push(line);
    }
  }
  finish();
  return { source, files, file: files[0]! };
}

function readFile(name: string, lines: readonly string[]): FixtureFile {
  const marks: Mark[] = [];
  const cursors: number[] = [];
  let text = '';
  let lineFrom = 0;
  let first = true;
  for (const line of lines) {
    const found = first ? undefined : readMarks(line);
    if (found) {
      for (const { column, width, ...mark } of found)
        marks.push({ ...mark, from: lineFrom + column, to: lineFrom + column + width });
      continue;
    }
    if (!first) text += '\n';
    first = false;
    lineFrom = text.length;
    let rest = line;
    for (let at = rest.indexOf(CURSOR); at >= 0; at = rest.indexOf(CURSOR)) {
      text += rest.slice(0, at);
      cursors.push(text.length);
      rest = rest.slice(at + CURSOR.length);
    }
    text += rest;
  }
  return { path: name, text, cursors, marks };
}

interface LineMark {
  readonly column: number;
  readonly width: number;
  readonly code: string;
  readonly severity?: string;
  readonly message?: string;
}

function readMarks(line: string): LineMark[] | undefined {
  if (!MARK_LINE.test(line)) return undefined;
  const groups: { column: number; width: number }[] = [];
  let at = 1;
  const start = /^#(~+|_)/.exec(line)?.[1];
  if (start) {
    groups.push({ column: 0, width: start === '_' ? 1 : start.length + 1 });
    at = 1 + start.length;
  }
  const next = /\s*(\^+|\|)/y;
  for (;;) {
    next.lastIndex = at;
    const match = next.exec(line);
    if (!match) break;
    const carets = match[1]!;
    at = next.lastIndex;
    groups.push({ column: at - carets.length, width: carets === '|' ? 0 : carets.length });
  }
  const rest = line.slice(at).replace(/^>/, '').trim();
  const label = /^(?:([a-z]+)\[([^\]]+)\]|([^\s]+))\s*(.*)$/.exec(rest);
  if (!label) throw new Error(`A mark names a code after its carets: ${line}`);
  const [, severity, bracketed, plain, message] = label;
  return groups.map((group) => ({
    ...group,
    code: (bracketed ?? plain)!,
    ...(severity ? { severity } : {}),
    ...(message ? { message } : {}),
  }));
}

/** A file with marks written under its lines, in the notation: what a test compares and what UPDATE=1 writes. */
function writeMarks(file: Pick<FixtureFile, 'text' | 'cursors'>, marks: readonly Mark[]): string {
  const sorted = [...marks].sort((a, b) => a.from - b.from || a.to - b.to || a.code.localeCompare(b.code));
  const out: string[] = [];
  let at = 0;
  for (const line of file.text.split('\n')) {
    const end = at + line.length;
    let shown = line;
    for (const cursor of [...file.cursors].reverse())
      if (cursor >= at && cursor <= end) shown = shown.slice(0, cursor - at) + CURSOR + shown.slice(cursor - at);
    out.push(shown);
    for (const mark of sorted) if (mark.from >= at && mark.from <= end) out.push(writeMark(mark, at, end));
    at = end + 1;
  }
  return out.join('\n');
}

function writeMark(mark: Mark, lineFrom: number, lineEnd: number): string {
  const column = mark.from - lineFrom;
  const width = Math.min(mark.to, lineEnd) - mark.from;
  const past = mark.to > lineEnd ? '>' : '';
  // An empty place at column 0 cannot be drawn: it is drawn as the character that follows.
  const carets =
    column > 0
      ? `#${' '.repeat(column - 1)}${width ? '^'.repeat(width) : '|'}`
      : width > 1
        ? `#${'~'.repeat(width - 1)}`
        : '#_';
  const label = mark.severity ? `${mark.severity}[${mark.code}]` : mark.code;
  return `${carets}${past} ${label}${mark.message ? ` ${mark.message}` : ''}`;
}

/**
 * Compares what was found with what the fixture expects, all of it, and shows a difference as two fixtures. A severity
 * or a message is compared only where the fixture says one.
 */
export function expectMarks(fixture: Fixture, found: readonly FoundMark[]): void {
  const actual: string[] = [];
  const expected: string[] = [];
  const names = fixture.files.length > 1 || fixture.file.path !== 'spec.planish';
  for (const file of fixture.files) {
    const here = found.filter((mark) => (mark.path ?? fixture.file.path) === file.path);
    const head = names ? `#- ${file.path}\n` : '';
    actual.push(head + writeMarks(file, asExpected(here, file)));
    expected.push(head + writeMarks(file, file.marks));
  }
  const strangers = found.filter(({ path: at }) => at !== undefined && !fixture.files.some((file) => file.path === at));
  assert.deepEqual(strangers, [], 'marks in files that the fixture does not have');
  const [is, wanted] = [actual.join('\n'), expected.join('\n')];
  if (is === wanted) return;
  if (UPDATE && rewriteSource(fixture.source, is)) return;
  const messages = found.map((mark) => `  ${mark.code}: ${mark.message ?? ''}`).join('\n');
  assert.equal(is, wanted, `the marks differ (UPDATE=1 rewrites them)\n${messages}\n`);
}

/** Found marks with only as much detail as the mark expected at the same place says. */
function asExpected(found: readonly Mark[], file: FixtureFile): Mark[] {
  const open = [...file.marks];
  return found.map((mark) => {
    const i = open.findIndex(
      (want) =>
        want.code === mark.code &&
        want.from === mark.from &&
        lineEndCut(file.text, want) === lineEndCut(file.text, mark),
    );
    const want = i >= 0 ? open.splice(i, 1)[0] : undefined;
    const part = want?.message;
    return {
      from: mark.from,
      to: mark.to,
      code: mark.code,
      ...(want?.severity && mark.severity ? { severity: mark.severity } : {}),
      ...(part !== undefined ? { message: mark.message?.includes(part) ? part : (mark.message ?? '') } : {}),
    };
  });
}

/** Where a mark's carets end: marks are drawn to the end of their first line. */
function lineEndCut(text: string, mark: Mark): number {
  const end = text.indexOf('\n', mark.from);
  return Math.min(mark.to, end < 0 ? text.length : end);
}

/** Compares with a file under `expected/`, and writes it with UPDATE=1 or where there is none outside CI. */
export function expectSnapshot(file: string, actual: string): void {
  const missing = !fs.existsSync(file);
  if (UPDATE || (missing && !CI)) {
    if (missing || fs.readFileSync(file, 'utf8') !== actual) {
      fs.mkdirSync(path.dirname(file), { recursive: true });
      fs.writeFileSync(file, actual);
    }
    return;
  }
  assert.ok(!missing, `${file} is missing: UPDATE=1 writes it`);
  assert.equal(actual, fs.readFileSync(file, 'utf8'), `differs from ${file} (UPDATE=1 rewrites it)`);
}

function dedent(written: string): string {
  const lines = written.replace(/^[ \t]*\n/, '').split('\n');
  if (lines.length > 1 && !lines[lines.length - 1]!.trim()) lines[lines.length - 1] = '';
  const indents = lines.filter((line) => line.trim()).map((line) => line.length - line.trimStart().length);
  const indent = indents.length ? Math.min(...indents) : 0;
  return lines.map((line) => line.slice(indent)).join('\n');
}

/** Puts `now` where `before` stands in the source of the test that is running. False where it is not found just once. */
function rewriteSource(before: string, now: string): boolean {
  const file = callingTest();
  if (!file) return false;
  const source = fs.readFileSync(file, 'utf8');
  for (const raw of [true, false]) {
    const spelled = (text: string) => (raw ? text : text.replace(/[\\`]|\$(?=\{)/g, '\\$&'));
    // The indent of the fixture in the source is that of its first line.
    const lines = spelled(before).split('\n');
    const pattern = lines
      .map((line) => (line ? `(?:[ \\t]*)${line.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}` : '[ \\t]*'))
      .join('\\n');
    const matches = [...source.matchAll(new RegExp(`(?<=\`\\n?)${pattern}`, 'g'))];
    if (matches.length !== 1) continue;
    const match = matches[0]!;
    const have = match[0].split('\n');
    const first = have.findIndex((line) => line.trim());
    const indent = /^[ \t]*/.exec(have[first] ?? '')![0].slice(/^[ \t]*/.exec(lines[first] ?? '')![0].length);
    const last = have[have.length - 1]!;
    const written = spelled(now)
      .split('\n')
      .map((line) => (line ? indent + line : line));
    if (!last.trim()) written[written.length - 1] = last;
    fs.writeFileSync(
      file,
      source.slice(0, match.index) + written.join('\n') + source.slice(match.index + match[0].length),
    );
    return true;
  }
  return false;
}

function callingTest(): string | undefined {
  for (const line of (new Error().stack ?? '').split('\n')) {
    const at = /(?:file:\/\/[^\s)]+?|\/[^\s)]+?)\.test\.ts/.exec(line)?.[0];
    if (at) return at.startsWith('file:') ? fileURLToPath(at) : at;
  }
  return undefined;
}

import { createHash, randomBytes } from 'node:crypto';
import {
  type BigIntStats,
  closeSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import path from 'node:path';
import { codeOf, reasonOf, sortOf } from '../../disk-text.ts';
import { CommandError, shown } from './files.ts';

/*
 * How what was made comes to its place: whole or not at all. It is written beside, and takes its place by a change of name
 * when it is all there, so that a full disk, a kill and two at once leave the old or the new. What was read is never replaced.
 */

export interface Output {
  readonly file: string;
  readonly content: string | Uint8Array;
}

export interface Manner {
  /** What is there may be replaced. */
  readonly force?: boolean;
  /** Which files what is written was made from: none of them is ever replaced. */
  readonly madeFrom?: { has(found: BigIntStats): boolean };
  /** What the file has to hold still when it is replaced: else somebody else has changed it meanwhile. */
  readonly instead?: Uint8Array;
}

/** The file is not any more what it was when it was read. */
export class ChangedMeanwhile extends CommandError {}

export const putInPlace = (file: string, content: string | Uint8Array, manner: Manner): void =>
  putAllInPlace([{ file, content }], manner);

/** All of them or none: all are written beside before the first takes its place. @throws {CommandError} saying what hinders. */
export function putAllInPlace(outputs: readonly Output[], manner: Manner): void {
  const placed: Placed[] = [];
  try {
    // What can be said before anything is written is.
    const targets = outputs.map(({ file }) => targetOf(file, manner));
    for (const folder of new Set(targets.flatMap(({ file, through }) => (through ? [] : path.dirname(file)))))
      clearAway(folder);
    for (const [i, { content }] of outputs.entries()) {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      const target = targets[i]!;
      placed.push({ ...target, ...(target.through ? { bytes } : { beside: beside(target, bytes) }) });
    }
    for (const each of placed) settle(each, manner);
  } finally {
    for (const { beside } of placed) if (beside !== undefined) remove(beside);
  }
}

/** A path may be a folder's or one's whose folder is not there yet. */
export function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new CommandError(`The folder ${shown(folder)} cannot be made: ${reasonOf(error)}.`);
  }
}

/**
 * A name that every disk takes, for what is called so in a spec: without marks that part folders or mean something to a
 * shell of another system, and not longer than names may be. Another name than what was asked for ends in a few letters that
 * are the same for the same name and others for others.
 */
export function fileNameFor(name: string, ending: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is taken out.
  const plain = name.replace(/[\u0000-\u001f\u007f-\u009f/\\:*?"<>|\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, '-');
  const room = LONGEST_NAME - Buffer.byteLength(ending) - 1;
  if (plain === name && Buffer.byteLength(plain) <= room) return `${plain}.${ending}`;
  const told = `-${createHash('sha256').update(name).digest('hex').slice(0, 8)}`;
  let short = '';
  for (const letter of plain) {
    if (Buffer.byteLength(short + letter) > room - told.length) break;
    short += letter;
  }
  return `${short}${told}.${ending}`;
}

/** Most disks take 255 bytes, some that encrypt names 143. */
const LONGEST_NAME = 143;

/** Whether a path is where standard output goes already: `/dev/stdout`, or the file that the shell sends it to. */
export function isStandardOutput(file: string): boolean {
  try {
    const [out, found] = [fstatSync(1, { bigint: true }), statSync(file, { bigint: true })];
    return out.dev === found.dev && out.ino === found.ino;
  } catch {
    return false;
  }
}

// ---- targets -------------------------------------------------------------------------------------------------------

interface Target {
  /** Where the path leads, through all links. */
  readonly file: string;
  readonly found?: BigIntStats;
  /** A device or a pipe: it takes what is written, and is not replaced. */
  readonly through: boolean;
}

interface Placed extends Target {
  readonly bytes?: Uint8Array;
  /** The file that has the content and waits to take its place. */
  readonly beside?: string;
}

function targetOf(given: string, { force, madeFrom }: Manner): Target {
  // Where a link to a pipe leads has no name of its own.
  const found = foundAt(given);
  if (!found) return { file: whereItLeads(given), through: false };
  const sort = sortOf(found);
  if (sort === 'pipe' || found.isCharacterDevice()) return { file: given, found, through: true };
  if (sort) throw new CommandError(`${shown(given)} is a ${sort}: nothing is written there.`);
  if (madeFrom?.has(found))
    throw new CommandError(
      `${shown(given)} is one of the files that this is made from. Nothing was written, and --force does not replace it: give another name with -o.`,
    );
  if (!force) throw alreadyThere(given);
  if (!(found.mode & 0o222n))
    throw new CommandError(`${shown(given)} is read-only, and was left as it is. Nothing was written.`);
  return { file: whereItLeads(given), found, through: false };
}

const alreadyThere = (file: string) =>
  new CommandError(`${shown(file)} is already there. Nothing was written: --force replaces it.`);

function foundAt(file: string): BigIntStats | undefined {
  try {
    return statSync(file, { bigint: true });
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw cannot(file, error);
  }
}

const cannot = (file: string, error: unknown) =>
  new CommandError(`${shown(file)} cannot be written: ${reasonOf(error)}.`);

/** A link stays, and what it leads to is written, also where that is not there yet. */
function whereItLeads(file: string): string {
  let at = file;
  for (let links = 0; links < 40; links++) {
    try {
      return realpathSync(at);
    } catch (error) {
      if (codeOf(error) !== 'ENOENT') throw cannot(file, error);
    }
    let next: string;
    try {
      if (!lstatSync(at).isSymbolicLink()) return at;
      next = readlinkSync(at);
    } catch {
      return at;
    }
    at = path.resolve(path.dirname(at), next);
  }
  throw new CommandError(`${shown(file)} cannot be written: its links go in a circle.`);
}

// ---- beside, and into its place ------------------------------------------------------------------------------------

/** Writes the content beside its place, with the mode and the owner of what it replaces. */
function beside({ file, found }: Target, bytes: Uint8Array): string {
  const name = path.join(path.dirname(file), `.planish-${HOST}-${process.pid}-${randomBytes(6).toString('hex')}.part`);
  let made = false;
  try {
    const handle = openSync(name, 'wx', found ? 0o600 : 0o666);
    made = true;
    try {
      if (found) keepAsItWas(handle, found, file);
      writeAll(handle, bytes);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    return name;
  } catch (error) {
    if (made) remove(name);
    throw error instanceof CommandError ? error : cannot(file, error);
  }
}

function keepAsItWas(handle: number, { uid, gid, mode }: BigIntStats, file: string): void {
  if (process.platform === 'win32') return;
  const own = fstatSync(handle, { bigint: true });
  if (own.uid !== uid || own.gid !== gid) {
    try {
      fchownSync(handle, Number(uid), Number(gid));
    } catch {
      throw new CommandError(
        `${shown(file)} belongs to somebody else, and would be yours if it were replaced. Nothing was written: give another name, or remove it first.`,
      );
    }
  }
  fchmodSync(handle, Number(mode & 0o7777n));
}

function writeAll(handle: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
}

function settle({ file, found, bytes, beside }: Placed, { force, instead }: Manner): void {
  try {
    if (instead && !holds(file, instead)) throw changed(file);
    if (beside === undefined) writeThrough(file, bytes!);
    else if (force) renameSync(beside, file);
    else putWhereNothingIs(beside, file);
  } catch (error) {
    if (error instanceof CommandError) throw error;
    if (codeOf(error) === 'EEXIST' && !found) throw alreadyThere(file);
    throw cannot(file, error);
  }
}

const changed = (file: string) =>
  new ChangedMeanwhile(`${shown(file)} was changed by somebody else meanwhile, and was left as it is.`);

function holds(file: string, bytes: Uint8Array): boolean {
  try {
    return readFileSync(file).equals(bytes);
  } catch {
    return false;
  }
}

function writeThrough(file: string, bytes: Uint8Array): void {
  const handle = openSync(file, 'w');
  try {
    writeAll(handle, bytes);
  } finally {
    closeSync(handle);
  }
}

/** A second name fails where a file is there already, which a rename would not. */
function putWhereNothingIs(beside: string, target: string): void {
  try {
    linkSync(beside, target);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw error;
    // Some disks know no second names.
    if (foundAt(target)) throw alreadyThere(target);
    renameSync(beside, target);
  }
}

function remove(file: string): void {
  try {
    unlinkSync(file);
  } catch {
    // It has taken its place, or goes when the next one clears away.
  }
}

// ---- what a kill has left ------------------------------------------------------------------------------------------

/** A process is known by its number on its own machine only. */
const HOST = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
const LEFT = /^\.planish-([0-9a-f]{8})-(\d+)-[0-9a-f]{12}\.part$/;
/** Nobody takes so long to write what is ready. */
const LONG_AGO_MS = 60_000;

/** Removes what a run that was killed has left half written. */
export function clearAway(folder: string): void {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch {
    return;
  }
  for (const name of names) {
    const [, host, number] = LEFT.exec(name) ?? [];
    if (number === undefined) continue;
    const file = path.join(folder, name);
    if (isLongAgo(file) || (host === HOST && !isRunning(Number(number)))) remove(file);
  }
}

function isLongAgo(file: string): boolean {
  try {
    return Date.now() - statSync(file).mtimeMs > LONG_AGO_MS;
  } catch {
    return false;
  }
}

function isRunning(number: number): boolean {
  // One writes one thing after the other: what bears its own number is another's who had it before.
  if (number === process.pid) return false;
  try {
    process.kill(number, 0);
    return true;
  } catch (error) {
    return codeOf(error) === 'EPERM';
  }
}

/*
 * Starts what lies in planish.cjs, the server and the command line. To compile it is a third of its start: what V8 has made of
 * it is kept beside it, in .cache, and the next start reads that. It is of this very file, this V8 and this machine; where it
 * cannot be read or written, or V8 will not have it, the program is compiled as any other.
 */
const { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } = require('node:fs');
const { wrap } = require('node:module');
const path = require('node:path');
const { Script } = require('node:vm');

const FILE = path.join(__dirname, 'planish.cjs');
const KEPT = path.join(__dirname, '../.cache');

/** Wakes one of the two. They run by other flags of V8, so each has what was made for it. */
module.exports = function start(which) {
  program(which)[which]();
};

/** Loads what lies beside it later on, as the PDF writer: a program that is started so cannot do it by itself. */
module.exports.load = (file) => import(file);

function program(which) {
  const { size, mtimeMs } = statSync(FILE);
  const { v8 } = process.versions;
  const name = `${which}-${size}-${Math.round(mtimeMs)}-${v8}-${process.arch}.bin`;
  const place = path.join(KEPT, name);
  let cachedData;
  try {
    cachedData = readFileSync(place);
  } catch {
    // It is not there yet.
  }
  const script = new Script(wrap(readFileSync(FILE, 'utf8')), { filename: FILE, cachedData });
  const own = { exports: {} };
  script.runInThisContext().call(own.exports, own.exports, require, own, FILE, __dirname);
  if (cachedData === undefined || script.cachedDataRejected) keepSoon(() => keep(name, script.createCachedData()));
  return own.exports;
}

/**
 * When what is used of it has been compiled too: after a while, or at its end where that comes first. Not at the end of a long
 * life: V8 lets go of what has not run for long, so that what runs at the start only would be missing.
 */
function keepSoon(keepIt) {
  const timer = setTimeout(atEnd, SOON);
  timer.unref();
  process.once('exit', atEnd);
  function atEnd() {
    clearTimeout(timer);
    process.off('exit', atEnd);
    keepIt();
  }
}
/** ms. */
const SOON = 10_000;

function keep(name, data) {
  try {
    mkdirSync(KEPT, { recursive: true });
    for (const other of readdirSync(KEPT))
      if (other.startsWith(name.slice(0, name.indexOf('-') + 1)) && other !== name) rmSync(path.join(KEPT, other));
    // Whole or not at all: another may start meanwhile.
    const half = path.join(KEPT, `${process.pid}.part`);
    writeFileSync(half, data);
    renameSync(half, path.join(KEPT, name));
  } catch {
    // A folder that may not be written to: then every start compiles.
  }
}

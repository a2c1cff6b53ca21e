/*
 * Loaded into the server's process before the server (`node --import`), to say how long the server heard nobody.
 *
 * A step is one turn of the event loop: whatever is done between two times that the loop looks for messages. An immediate that
 * does not keep the loop awake runs once a turn, right after that look, so the time between two of them is a step. What is
 * measured is the time that the processor spent on this one thread, as the kernel counts it for every thread
 * (/proc/…/schedstat): neither other programs, nor V8's threads that compile and sweep beside it, nor a turn that sleeps count.
 * Garbage that is collected on the thread itself does, since the server hears nobody meanwhile. The kernel brings its count up
 * to date at each tick, so that a step is right to a few milliseconds. Elsewhere than on Linux it is the time of the whole process.
 */
import { openSync, readFileSync, readSync, writeFileSync } from 'node:fs';

const processor = ofThread() ?? ofProcess;
let longest = 0;
let last = processor();
turn();

process.on('message', (anew) => {
  look();
  process.send({ longest, seconds: ofProcess() / 1000, peak: peak() });
  if (anew) begin();
  longest = 0;
});
process.channel?.unref();

function turn() {
  look();
  setImmediate(turn).unref();
}

function look() {
  const now = processor();
  longest = Math.max(longest, now - last);
  last = now;
}

/** What the case before left behind is no step, and no memory, of the next. */
function begin() {
  globalThis.gc?.();
  try {
    // The high-water mark of memory begins again from here.
    writeFileSync('/proc/self/clear_refs', '5');
  } catch {
    // Not on this system: then it is that of all cases so far.
  }
  last = processor();
}

/** Milliseconds of this thread, where the kernel tells them. */
function ofThread() {
  try {
    const file = openSync(`/proc/self/task/${process.pid}/schedstat`);
    const bytes = Buffer.alloc(64);
    return () => Number(bytes.toString('latin1', 0, readSync(file, bytes, 0, 64, 0)).split(' ')[0]) / 1e6;
  } catch {
    return undefined;
  }
}

/** Milliseconds of all threads together. */
function ofProcess() {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** The most memory that it held since the beginning, MiB. */
function peak() {
  try {
    return Number(/VmHWM:\s*(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))[1]) / 1024;
  } catch {
    return process.resourceUsage().maxRSS / 1024;
  }
}

import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';

/** Compares with the file of that name in `expected`; `UPDATE=1` writes it instead. */
export function assertExpected(name: string, text: string): void {
  const file = new URL(`./expected/${name}`, import.meta.url);
  if (process.env['UPDATE'] === '1') writeFileSync(file, text);
  assert.equal(
    text,
    readFileSync(file, 'utf8'),
    `${name} has changed: look at it, and run with UPDATE=1 if it is right`,
  );
}

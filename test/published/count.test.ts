import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { allRows } from './rows.ts';

// Run by itself, this file brings the others along; in a whole run the first of them are read before it. Imported, not
// required: some need packages that can only be imported.
if (!allRows.length)
  for (const file of readdirSync(import.meta.dirname).sort())
    if (file.endsWith('.test.ts') && file !== 'count.test.ts') await import(`./${file}`);

/** One source under one name, however its pages and rows are quoted. */
const bookOf = (source: string): string =>
  source
    .split(/[:;,(]/)[0]!
    .trim()
    .toLowerCase();

describe('what stands against outside sources', () => {
  it('is enough of it, and from enough places', () => {
    // Rows worked out apart from this code, and rules of thumb, are checks but no outside source.
    const outside = allRows.filter(
      ({ status }) => status === 'seen' || status === 'rule seen' || status === 'from memory',
    );
    const books = new Set(outside.map(({ source }) => bookOf(source)).filter((book) => !book.startsWith('the same')));
    const by = new Map<string, number>();
    for (const { status } of allRows) by.set(status, (by.get(status) ?? 0) + 1);
    const counted = [...by].map(([status, count]) => `${count} ${status}`).join(', ');
    console.log(
      `      ${allRows.length} checks (${counted}); ${outside.length} of them against ${books.size} outside sources`,
    );
    if (process.env['SOURCES'] === '1') console.log([...books].sort().join('\n'));
    assert.ok(outside.length >= 150);
    assert.ok(books.size >= 40, `${books.size} sources`);
  });
});

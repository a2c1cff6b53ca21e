import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { allRows, type Kind } from './rows.ts';
import { WORKS, type WorkId } from './works.ts';

// Run by itself, this file brings the others along; in a whole run the first of them are read before it. Imported, not
// required: some need packages that can only be imported.
if (!allRows.length)
  for (const file of readdirSync(import.meta.dirname).sort())
    if (file.endsWith('.test.ts') && file !== 'count.test.ts') await import(`./${file}`);

/** One source under one name, however its pages and rows are quoted. */
const bookOf = ({ work, source }: { readonly work?: WorkId; readonly source: string }): string =>
  work ??
  source
    .split(/[:;,(]/)[0]!
    .trim()
    .toLowerCase();

/** Kinds that say that a computation is right. */
const SHOWING: readonly Kind[] = ['worked example', 'other method', 'physical limit'];

/** As many as there were when they were last counted: rows do not vanish unseen. */
const LEAST: Readonly<Record<Kind, number>> = {
  table: 465,
  'hand sum': 156,
  'own two ways': 140,
  'worked example': 47,
  'other method': 171,
  'physical limit': 41,
};

/** Works whose examples are worked again, whose laws are held to, or whose programs stand beside ours. */
const LEAST_WORKS = 45;

describe('what stands against outside sources', () => {
  it('is enough of it, and from enough places', () => {
    // Rows worked out apart from this code, and rules of thumb, are checks but no outside source.
    const outside = allRows.filter(
      ({ status }) => status === 'seen' || status === 'rule seen' || status === 'from memory',
    );
    const books = new Set(outside.map(bookOf).filter((book) => !book.startsWith('the same')));
    const by = new Map<string, number>();
    for (const { status } of allRows) by.set(status, (by.get(status) ?? 0) + 1);
    const counted = [...by].map(([status, count]) => `${count} ${status}`).join(', ');
    console.log(
      `      ${allRows.length} checks (${counted}); ${outside.length} of them against ${books.size} outside sources`,
    );
    const shown = allRows.filter(
      ({ kind, status }) => SHOWING.includes(kind) && status !== 'from memory' && status !== 'common practice',
    );
    // A work counts by its name alone, and only where its text was read; a law without a book is told beside.
    const works = new Set(shown.flatMap(({ work, status }) => (work && status !== 'worked' ? [work] : [])));
    const laws = new Set(shown.filter(({ work }) => !work).map(bookOf));
    const kinds = Object.keys(LEAST) as Kind[];
    const ofKind = (kind: Kind) => allRows.filter((row) => row.kind === kind).length;
    console.log(
      `      by kind: ${kinds.map((kind) => `${ofKind(kind)} ${kind}`).join(', ')}; ${shown.length} of the last three, none from memory, from ${works.size} works and by ${laws.size} laws and methods without one`,
    );
    if (process.env['SOURCES'] === '1') console.log([...works, ...laws].sort().join('\n'));
    for (const kind of kinds) assert.ok(ofKind(kind) >= LEAST[kind], `${ofKind(kind)} of kind ${kind}`);
    assert.ok(shown.length >= 120, `${shown.length} that show something`);
    assert.ok(works.size >= LEAST_WORKS, `${works.size} works`);
    for (const [id, work] of Object.entries(WORKS)) {
      assert.ok(
        allRows.some((row) => row.work === id),
        `no row is from ${id}`,
      );
      for (const [name, told] of Object.entries(work)) assert.ok(told.trim(), `${id} has no ${name}`);
    }
    const titles = Object.values(WORKS).map(({ author, title }) => `${author}: ${title}`);
    assert.equal(new Set(titles).size, titles.length, 'one work stands twice');
    if (process.env['SOURCES'] === '1') console.log([...books].sort().join('\n'));
    assert.ok(outside.length >= 150);
    assert.ok(books.size >= 40, `${books.size} sources`);
  });
});

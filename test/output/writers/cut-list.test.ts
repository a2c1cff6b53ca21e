import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from '@cantoo/pdf-lib';
import fc from 'fast-check';
import { atOnce } from '../../../server/incremental/steps.ts';
import type { CutList, CutListInput } from '../../../server/output/documents/cut-list.ts';
import { cutListPaper, STATEMENT } from '../../../server/output/documents/cut-list-paper.ts';
import { gatherCutList } from '../../../server/output/documents/gather.ts';
import { writeCsv } from '../../../server/output/writers/csv.ts';
import { csvCell, markdown, markup } from '../../../server/output/writers/escape.ts';
import { writeHtml } from '../../../server/output/writers/html.ts';
import { writeJson } from '../../../server/output/writers/json.ts';
import { writeMarkdown } from '../../../server/output/writers/markdown.ts';
import { exportCutList, FORMATS } from '../../../server/output/writers/papers.ts';
import { writePdf } from '../../../server/output/writers/pdf.ts';
import { assertExpected } from '../expected.ts';
import { HOSTILE, hostile, sallet } from '../sample.ts';

const face = (path: string) =>
  new Uint8Array(readFileSync(new URL(`../../../node_modules/@expo-google-fonts/noto-sans/${path}`, import.meta.url)));
const fonts = { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };

const list = gatherCutList(sallet);

const paperOf = (list: CutList) => atOnce(cutListPaper(list));

/** RFC 4180, strictly. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = text.startsWith('\ufeff') ? 1 : 0;
  while (at < text.length) {
    let cell = '';
    if (text[at] === '"') {
      at++;
      for (;;) {
        assert.ok(at < text.length, 'a quoted cell ends');
        if (text[at] !== '"') cell += text[at++];
        else if (text[at + 1] === '"') {
          cell += '"';
          at += 2;
        } else {
          at++;
          break;
        }
      }
    } else {
      while (at < text.length && text[at] !== ',' && text[at] !== '\r') {
        assert.ok(text[at] !== '"' && text[at] !== '\n', 'no bare quote or line feed');
        cell += text[at++];
      }
    }
    row.push(cell);
    if (text[at] === ',') {
      at++;
      continue;
    }
    assert.equal(text.slice(at, at + 2), '\r\n', 'a row ends with CRLF');
    at += 2;
    rows.push(row);
    row = [];
  }
  return rows;
}

/** Elements open and close in order, entities are known, and no `<` or `&` stands loose. Gives back the text. */
function readHtml(html: string): string {
  const open: string[] = [];
  let text = '';
  const body = html.replace(/^<!DOCTYPE html>/, '').replace(/<style>[^<]*<\/style>/, '');
  const parts = body.matchAll(/<(\/?)([a-z0-9]+)((?:\s+[a-zA-Z-]+(?:="[^"<>]*")?)*)\s*(\/?)>|([^<]+)|(<)/g);
  for (const [whole, close, name, attributes, own, plain, loose] of parts) {
    assert.ok(!loose, `a loose < near ${JSON.stringify(text.slice(-60))}`);
    for (const piece of [plain, attributes]) {
      if (piece) assert.ok(!/&(?!(?:amp|lt|gt|quot|#39);)/.test(piece), `a loose & in ${piece}`);
    }
    if (plain) text += plain;
    else if (close) assert.equal(open.pop(), name, `${whole} closes`);
    else if (name && !own && !['meta', 'input'].includes(name)) open.push(name);
  }
  assert.deepEqual(open, []);
  return text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&');
}

async function pdfText(bytes: Uint8Array): Promise<string | undefined> {
  const folder = mkdtempSync(join(tmpdir(), 'planish-'));
  try {
    const path = join(folder, 'list.pdf');
    writeFileSync(path, bytes);
    return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
  } catch (error) {
    if ((error as { code?: string }).code === 'ENOENT') return undefined;
    throw error;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('gathering a cut list', () => {
  it('multiplies by builds and spares', () => {
    assert.equal(list.builds, 7);
    const skull = list.materials[0]!.rows[0]!;
    assert.deepEqual([skull.mark, skull.perBuild, skull.total, skull.massTotal], ['A', 2, 14, 14 * 787]);
    assert.ok(Math.abs(list.wires[0]!.lengthTotal - (2 * 305 + 2 * 224.6) * 7) < 1e-6);
    assert.equal(list.totals.blanks, 105 + 21 + 49);
  });

  it('buys rivets by the pack beyond what is in the drawer', () => {
    const rivet = list.rivets[0]!;
    assert.deepEqual([rivet.total, rivet.buy], [252, { short: 212, packs: 3 }]);
    assert.equal(rivet.cost.toBuy, 43.5);
    assert.deepEqual(list.parts[0]!.buy, { short: 4, packs: 4 });
  });

  it('says whose price is missing instead of a sum that leaves it out', () => {
    assert.equal(list.totals.cost.used, undefined);
    assert.deepEqual(list.totals.priceMissing, ['phosphor bronze 0.8 mm, half hard']);
    const priced = gatherCutList({ ...sallet, materials: sallet.materials.filter((m) => m.name !== 'bronze-strip') });
    const hide = (0.25 + 1) * 7 * (6 * 15_200 + 620 * 24);
    const want = 58 + (96 * hide) / 2_200_000 + (7 * 2 * (305 + 224.6) * 1.2) / 1000 + (252 / 100) * 14.5 + 7 * 2.1;
    assert.ok(Math.abs(priced.totals.cost.used! - want) < 1e-9);
    assert.ok(
      Math.abs(priced.totals.cost.toBuy! - (0 + 96 + (7 * 2 * (305 + 224.6) * 1.2) / 1000 + 43.5 + 8.4)) < 1e-9,
    );
  });

  it('gives every blank a letter of its own', () => {
    const one = sallet.materials[0]!.blanks[5]!;
    const many: CutListInput = {
      ...sallet,
      materials: [{ ...sallet.materials[0]!, blanks: Array.from({ length: 60 }, (_, i) => ({ ...one, id: `b${i}` })) }],
    };
    const marks = gatherCutList(many).materials[0]!.rows.map((r) => r.mark);
    assert.equal(new Set(marks).size, 60);
    assert.deepEqual([marks[0], marks[23], marks[24], marks[25]], ['A', 'Z', 'AA', 'AB']);
  });

  it('names the blanks that lie on no sheet, and prices nothing that leaves them out', () => {
    const steel = sallet.materials[0]!;
    const big = gatherCutList({
      ...sallet,
      materials: [{ ...steel, blanks: [{ ...steel.blanks[5]!, id: 'wall', label: 'wall', long: 3000, wide: 200 }] }],
    });
    const row = big.materials[0]!.rows[0]!;
    assert.equal(row.unplaced?.copies, 42);
    assert.match(row.unplaced?.reason ?? '', /bigger than the largest sheet/);
    assert.equal(big.materials[0]!.cost.used, undefined);
    assert.match(readHtml(atOnce(writeHtml(paperOf(big)))), /Blanks that lie on no sheet/);
  });
});

describe('writing a cut list', () => {
  it('is as expected in HTML, CSV, Markdown and JSON', () => {
    assertExpected('sallet.html', atOnce(writeHtml(paperOf(list))));
    assertExpected('sallet.csv', atOnce(writeCsv(list)));
    assertExpected('sallet.md', atOnce(writeMarkdown(paperOf(list))));
    assertExpected('sallet.json', atOnce(writeJson('cut list', list)));
    const inches = gatherCutList({ ...sallet, units: 'in 1/32' });
    assertExpected('sallet-inches.md', atOnce(writeMarkdown(paperOf(inches))));
  });

  it('says in every paper what it does not say, and prints the cautions', async () => {
    for (const text of [readHtml(atOnce(writeHtml(paperOf(list)))), atOnce(writeMarkdown(paperOf(list)))]) {
      assert.ok(text.includes(STATEMENT));
      for (const title of ['Not certified', 'Zinc fume', 'Hot work', 'Cut edges'])
        assert.ok(text.includes(title), title);
    }
  });

  it('heads a list that has errors with a banner', () => {
    const bad = gatherCutList({
      ...sallet,
      problems: [
        { severity: 'error', code: 'dome-impossible', message: 'A dome 120 mm wide cannot be 90 mm deep.', line: 12 },
        {
          severity: 'error',
          code: 'unknown-name',
          message: 'No material is called skul-plate.',
          line: 20,
          file: 'stock.planish',
        },
      ],
    });
    const html = readHtml(atOnce(writeHtml(paperOf(bad))));
    const banner = 'Not ready to cut: 2 things cannot be made as written';
    assert.ok(html.indexOf(banner) > 0 && html.indexOf(banner) < html.indexOf('Cautions'));
    assert.ok(html.includes('stock.planish, line 20'));
    assert.ok(atOnce(writeMarkdown(paperOf(bad))).includes(banner));
    assert.ok(!readHtml(atOnce(writeHtml(paperOf(list)))).includes('Not ready to cut'));
  });

  it('writes nothing that asks for another file or runs', () => {
    const html = atOnce(writeHtml(paperOf(list)));
    assert.match(
      html,
      /<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:;/,
    );
    assert.doesNotMatch(html, /<script|<link|<img|<iframe|@import|url\(|src=|href=|\son[a-z]+=|https?:/i);
    assert.match(html, /^<!DOCTYPE html>\n<html lang="en">/);
    assert.match(html, /<title>Cut list: Harbour-watch sallet<\/title>/);
  });

  it('draws every blank on every sheet', () => {
    const html = atOnce(writeHtml(paperOf(list)));
    const sheets = list.materials.flatMap((m) => m.layout?.sheets ?? []);
    assert.equal(html.match(/<svg /g)?.length, sheets.length);
    assert.equal(
      html.match(/<path class="(?:blank|flipped)"/g)?.length,
      sheets.reduce((sum, s) => sum + s.placements.length, 0),
    );
    assert.doesNotMatch(html, /NaN|Infinity|undefined/);
  });

  it('keeps table roles, row heads and ids that are one of a kind', () => {
    const html = atOnce(writeHtml(paperOf(list)));
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    assert.equal(new Set(ids).size, ids.length);
    for (const [, of] of html.matchAll(/aria-labelledby="([^"]+)"/g))
      for (const id of of!.split(' ')) assert.ok(ids.includes(id), id);
    assert.equal(html.match(/<table /g)?.length, html.match(/<caption /g)?.length);
  });

  it('gives JSON that reads back', () => {
    const back = JSON.parse(atOnce(writeJson('cut list', list))) as CutList & {
      planish: number;
      numbers: Record<string, string>;
    };
    assert.equal(back.planish, 1);
    assert.deepEqual(back.numbers, {
      length: 'mm',
      area: 'mm2',
      mass: 'g',
      angle: 'deg',
      share: '0 to 1',
      money: 'GBP',
    });
    assert.equal(back.materials[0]?.rows[0]?.long, 310);
  });

  it('gives a flat CSV with as many cells in every row, and numbers as numbers', () => {
    const [head, ...rows] = readCsv(atOnce(writeCsv(list, { byteOrderMark: true })));
    assert.ok(rows.every((r) => r.length === head!.length));
    assert.deepEqual(
      [...new Set(rows.map((r) => r[0]))],
      ['blank', 'sheet', 'leather', 'hide', 'wire', 'rivet', 'rivets to have', 'part'],
    );
    const total = head!.indexOf('mass total (g)');
    assert.equal(Number(rows[0]![total]), 14 * 787);
    assert.ok(atOnce(writeCsv(list, { byteOrderMark: true })).startsWith('\ufeffkind,'));
    assert.ok(atOnce(writeCsv(list)).startsWith('kind,'));
  });

  it('offers each format once, with its extension and media type', async () => {
    const all = await Promise.all(FORMATS.map((f) => exportCutList(list, f, () => fonts)));
    assert.deepEqual(
      all.map((w) => w.extension),
      ['.html', '.pdf', '.csv', '.md', '.json'],
    );
    assert.ok(all.every((w) => (w.text === undefined) !== (w.bytes === undefined)));
  });

  it('holds an empty build', async () => {
    const empty = gatherCutList({
      title: '',
      file: 'new.planish',
      make: 0,
      spare: 0,
      units: 'mm',
      date: '2027-01-18',
      cautions: [],
      problems: [],
      materials: [],
      wires: [],
      rivets: [],
      parts: [],
    });
    for (const format of FORMATS) {
      const written = await exportCutList(empty, format, fonts);
      assert.ok((written.text ?? written.bytes!).length > 0);
    }
    assert.doesNotMatch(atOnce(writeHtml(paperOf(empty))), /NaN|undefined/);
  });
});

describe('the PDF', () => {
  it('has the same bytes each time', async () => {
    assert.deepEqual(
      await writePdf(paperOf(list), fonts),
      await writePdf(paperOf(gatherCutList(structuredClone(sallet))), fonts),
    );
  });

  it('can be read, with every piece and page number in it', async () => {
    const bytes = await writePdf(paperOf(list), fonts);
    const pdf = await PDFDocument.load(bytes, { updateMetadata: false });
    assert.equal(pdf.getTitle(), 'Cut list: Harbour-watch sallet');
    assert.equal(pdf.getCreationDate()?.toISOString(), '2027-01-18T00:00:00.000Z');
    const pages = pdf.getPageCount();
    assert.ok(pages >= 4 && pages <= 10, `${pages} pages`);
    const { width, height } = pdf.getPage(0).getSize();
    assert.deepEqual([Math.round(width), Math.round(height)], [595, 842]);
    const text = await pdfText(bytes);
    if (text === undefined) return;
    for (const m of list.materials) for (const r of m.rows) assert.ok(text.includes(r.label), r.label);
    for (let page = 1; page <= pages; page++) assert.ok(text.includes(`page ${page} of ${pages}`));
    assert.ok(text.includes('Not certified.') && text.includes('2 × 7 = 14') && text.includes('329.8 × 145.4 mm'));
    assert.ok(!text.includes('\ufffd'));
  });

  it('is Letter where the build is shown in inches', async () => {
    const pdf = await PDFDocument.load(await writePdf(paperOf(gatherCutList({ ...sallet, units: 'in 1/32' })), fonts));
    assert.deepEqual(pdf.getPage(0).getSize(), { width: 612, height: 792 });
  });

  it('keeps every word on the page, in the margins, and off every other word', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'planish-'));
    const path = join(folder, 'list.pdf');
    try {
      for (const input of [sallet, hostile('long words '.repeat(30)), hostile('W'.repeat(300))]) {
        const bytes = await writePdf(paperOf(gatherCutList(input)), fonts);
        writeFileSync(path, bytes);
        let boxes: string;
        try {
          boxes = execFileSync('pdftotext', ['-bbox', path, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 });
        } catch (error) {
          if ((error as { code?: string }).code !== 'ENOENT') throw error;
          // Without poppler: every page is there, and it loads.
          assert.ok((await PDFDocument.load(bytes)).getPageCount() > 0);
          continue;
        }
        for (const page of boxes.split('<page ').slice(1)) {
          const words = [
            ...page.matchAll(/<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)/g),
          ].map((m) => ({ x: Number(m[1]), y: Number(m[2]), x2: Number(m[3]), y2: Number(m[4]), text: m[5]! }));
          for (const w of words) {
            assert.ok(
              w.x > 36 && w.x2 < 595.3 - 36 && w.y > 15 && w.y2 < 842 - 15,
              `${w.text} at ${w.x} ${w.y} ${w.x2} ${w.y2}`,
            );
          }
          for (const [i, a] of words.entries()) {
            for (const b of words.slice(i + 1)) {
              // Boxes of lines are as high as the face allows, so lines that stand close share a little height.
              const across = Math.min(a.x2, b.x2) - Math.max(a.x, b.x);
              const down = Math.min(a.y2, b.y2) - Math.max(a.y, b.y);
              const low = Math.min(a.y2 - a.y, b.y2 - b.y);
              // Put into words where it is so only: there are hundreds of thousands of pairs.
              if (across >= 1 && down >= low * 0.5) assert.fail(`${a.text} and ${b.text} at ${a.x} ${a.y}`);
            }
          }
        }
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('holds any text, and says when a letter is replaced', async () => {
    for (const [i, text] of HOSTILE.entries()) {
      const bytes = await writePdf(
        paperOf(gatherCutList({ ...hostile(text), units: i % 2 === 0 ? 'mm' : 'in 1/32' })),
        fonts,
      );
      assert.ok((await PDFDocument.load(bytes)).getPageCount() > 0);
    }
    const chinese = await pdfText(await writePdf(paperOf(gatherCutList(hostile('鋼の兜'))), fonts));
    if (chinese !== undefined) assert.match(chinese, /stands for a letter that the type of this PDF does not have/);
  });
});

describe('hostile names', () => {
  for (const text of HOSTILE) {
    const name = JSON.stringify(text.length > 40 ? `${text.slice(0, 12)}… (${text.length})` : text);
    it(`are harmless: ${name}`, () => {
      const bad = gatherCutList(hostile(text));
      const html = atOnce(writeHtml(paperOf(bad)));
      readHtml(html);
      assert.doesNotMatch(html, /<script|<img|\ufffe/i);
      for (const row of readCsv(atOnce(writeCsv(bad)))) {
        for (const cell of row) assert.ok(/^-?\d+(\.\d+)?$/.test(cell) || !/^\s*[=+\-@]/.test(cell), `formula ${cell}`);
      }
      const paper = atOnce(writeMarkdown(paperOf(bad)));
      assert.doesNotMatch(paper, /<(?!br>)[a-z!/]/i);
      assert.doesNotMatch(paper, /(?<!\\)\]\(/);
      JSON.parse(atOnce(writeJson('cut list', bad)));
      for (const table of paper.split('\n\n').filter((p) => p.startsWith('|'))) {
        const bars = table
          .trim()
          .split('\n')
          .map((line) => line.match(/(?<!\\)\|/g)?.length);
        assert.equal(new Set(bars).size, 1, `a table keeps its columns: ${table}`);
      }
    });
  }

  it('are harmless whatever they are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        assert.doesNotMatch(markup(text), /[<>"']|&(?!(?:amp|lt|gt|quot|#39);)/);
        assert.equal(readCsv(`${csvCell(text)}\r\n`).length, 1);
        assert.doesNotMatch(markdown(text), /[<>\n\r]|(?<!\\)(?:\\\\)*\|/);
        readHtml(`<p>${markup(text)}</p>`);
      }),
      { numRuns: 500 },
    );
  });
});

describe('escapes', () => {
  it('guards cells that a spreadsheet would run, and leaves numbers alone', () => {
    const cases: [string | number | undefined, string][] = [
      ['=1+1', "'=1+1"],
      ['+1', "'+1"],
      ['-1', "'-1"],
      ['@x', "'@x"],
      ['\t=1', "'\t'=1"],
      ['\r=1', '"\'\r\'=1"'],
      ['\u0001\u200b=1', "'\ufffd\u200b=1"],
      // Set to another mark than the comma, a spreadsheet parts the cell there, quotes or no quotes.
      ['a;=1+1', "a;'=1+1"],
      ['a; -b, ;@c', '"a;\' -b, ;\'@c"'],
      ['a\t+1|=2', "a\t'+1|'=2"],
      ['Raised; the tail', 'Raised; the tail'],
      ['  =1', "'  =1"],
      ['＝1', "'＝1"],
      [-2.5, '-2.5'],
      [0, '0'],
      [undefined, ''],
      [Number.NaN, ''],
      ['a "b", c', '"a ""b"", c"'],
      ['a\nb', '"a\nb"'],
      ['plain', 'plain'],
    ];
    for (const [value, want] of cases) assert.equal(csvCell(value), want);
  });

  it('takes out what reorders a line or is no text', () => {
    assert.equal(markup('a\u202Eb\u0000c\ud800'), 'a\ufffdb\ufffdc\ufffd');
    assert.equal(markup('a\u200eb\u200fc\u061cd\u2067e'), 'a\ufffdb\ufffdc\ufffdd\ufffde');
    assert.equal(markup('שלום'), 'שלום');
  });

  it('leaves ordinary words readable in Markdown', () => {
    assert.equal(markdown('skull half, 12.5 mm'), 'skull half, 12.5 mm');
    assert.equal(markdown('a|b <i> [x](y) *z*'), 'a\\|b &lt;i&gt; \\[x\\](y) \\*z\\*');
    assert.equal(markdown('# no heading'), '\\# no heading');
    assert.equal(markdown('1. no list'), '1\\. no list');
  });
});

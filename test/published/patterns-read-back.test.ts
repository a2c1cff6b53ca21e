import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { type Page as Browsed, chromium } from 'playwright-core';
import { findBrowser } from '../../.scripts/setup.mjs';
import { patternsOf } from '../../server/output/documents/patterns/patterns-of.ts';
import type { PaperSize } from '../../server/output/documents/patterns/tiles.ts';
import { exportPatterns, type PatternFormat } from '../../server/output/writers/patterns.ts';
import { circlePerimeter, ellipsePerimeter, platePerimeter } from '../../server/trade/blank/plane-shapes.ts';
import { figureValue } from '../model/support.ts';
import { specOf } from '../samples/support.ts';
import { DPI, Page } from './rendered.ts';
import { holdsAgainst, type Row } from './rows.ts';

/*
 * Patterns read back by programs that are not ours: a PDF is rendered by Poppler and measured in pixels, a DXF is read and
 * audited by ezdxf, an SVG is measured by a browser.
 */

const { resolve } = createRequire(import.meta.url);
const face = (file: string) => new Uint8Array(readFileSync(resolve(`@expo-google-fonts/noto-sans/${file}`)));
const fonts = { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };

const spec = (form: string) =>
  specOf({ 'a.planish': `material plate\n  mild steel 1.5 mm\npiece one\n  from plate\n  ${form}\n` });
const written = async (form: string, to: PatternFormat, paper?: PaperSize) => {
  const patterns = patternsOf(spec(form), { date: '2027-03-01', problems: [] });
  return exportPatterns(patterns, { to, fonts, ...(paper ? { paper } : {}) });
};

const middle = ([from, to]: [number, number]) => (from + to) / 2;
const near = (is: number, wanted: number, within: number, what: string) =>
  assert.ok(Math.abs(is - wanted) <= within, `${what}: ${is.toFixed(3)}, wanted ${wanted}`);

const folder = mkdtempSync(path.join(tmpdir(), 'planish-patterns-'));
after(() => rmSync(folder, { recursive: true, force: true }));

async function rendered(form: string, paper: PaperSize): Promise<Page[]> {
  const file = path.join(folder, 'one.pdf');
  writeFileSync(file, (await written(form, 'pdf', paper)).bytes!);
  for (const old of readdirSync(folder)) if (old.endsWith('.pgm')) rmSync(path.join(folder, old));
  // The first page is the cover.
  execFileSync('pdftoppm', ['-r', String(DPI), '-gray', '-f', '2', file, path.join(folder, 'page')]);
  return readdirSync(folder)
    .filter((each) => each.endsWith('.pgm'))
    .sort()
    .map((each) => new Page(path.join(folder, each)));
}

/** The width of a plate, mm: a level through it that only its sides cross, and an upright that only top and bottom do. */
function widthOf(page: Page): number {
  const bottoms = page.up(60, 31.2, 270);
  const sides = page
    .across(middle(bottoms.find(([from, to]) => to - from < 1)!) + 60, 9, 190)
    .filter(([from, to]) => to - from < 1);
  const lefts = sides.map(middle);
  return Math.max(...lefts) - Math.min(...lefts);
}

interface ReadDxf {
  readonly faults: number;
  readonly cut: number;
  readonly area: number;
  readonly box: readonly [number, number];
  readonly layers: readonly string[];
  readonly units: number;
  readonly version: string;
}

/** A form’s DXF as ezdxf reads and audits it. */
async function byEzdxf(form: string): Promise<ReadDxf> {
  const file = path.join(folder, 'one.dxf');
  writeFileSync(file, (await written(form, 'dxf')).text!);
  const script = [
    'import ezdxf, json, math, sys',
    'from ezdxf import path, units',
    'd = ezdxf.readfile(sys.argv[1])',
    'cut = [e for e in d.modelspace() if e.dxf.layer == "CUT"]',
    'p = list(path.make_path(cut[0]).flattening(0.001))',
    'a = sum(p[i-1].x*p[i].y - p[i].x*p[i-1].y for i in range(len(p)))/2',
    'a = math.pi*cut[0].dxf.radius**2 if cut[0].dxftype() == "CIRCLE" else a',
    'xs=[v.x for v in p]; ys=[v.y for v in p]',
    'print(json.dumps(dict(faults=len(d.audit().errors), cut=len(cut), area=abs(a), box=[max(xs)-min(xs), max(ys)-min(ys)], layers=sorted(l.dxf.name for l in d.layers), units=d.header["$INSUNITS"], version=d.dxfversion)))',
  ].join('\n');
  return JSON.parse(execFileSync('/usr/bin/python3', ['-c', script, file], { encoding: 'utf8' }));
}

/** Forms whose patterns are read back, with the figures that we tell of them. */
const FORMS = [
  { form: 'plate 120 x 80 mm', box: [120, 80] },
  { form: 'disc 90 mm', box: [90, 90] },
  { form: 'oval 120 x 80 mm', box: [120, 80] },
  { form: 'cone round 560 to 700 mm, high 75 mm, wrap 150 deg' },
] as const;
const areaOf = (form: string) => figureValue(spec(form), 'one.blank.area');

/** Area of the cut line, mm², filled and counted in pixels by resvg: a tenth of a millimetre each, their greys as shares. */
async function byResvg(form: string): Promise<number> {
  const svg = (await written(form, 'svg')).text!;
  const [, box] = /viewBox="([^"]+)"/.exec(svg)!;
  const [x, y, wide, high] = box!.split(/\s+/).map(Number) as [number, number, number, number];
  const cut = /<g[^>]*id="cut"[\s\S]*?<\/g>/.exec(svg)![0];
  const shape = /<(?:path|circle|ellipse)[^>]*>/.exec(cut)![0].replace(/(?:fill|stroke|style|class)="[^"]*"/g, '');
  const filled = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${x} ${y} ${wide} ${high}" width="${wide * 10}" height="${high * 10}"><g fill="black" stroke="none">${shape}</g></svg>`;
  const { pixels } = new Resvg(filled).render();
  let area = 0;
  for (let i = 3; i < pixels.length; i += 4) area += pixels[i]! / 255;
  return area / 100;
}

/** How long Chromium finds the lines that are cut out, mm; each page in the same browser. */
let browsing: Promise<readonly number[]> | undefined;
const byChromium = (): Promise<readonly number[]> => {
  browsing ??= inBrowser(async (page) => {
    const found: number[] = [];
    for (const { form } of ROUND) {
      await page.setContent((await written(form, 'svg')).text!.replace(/^<\?xml.*\n/, ''));
      found.push(await page.evaluate<number>(`document.querySelector('#cut path, #cut circle').getTotalLength()`));
    }
    return found;
  });
  return browsing;
};

async function inBrowser<T>(use: (page: Browsed) => Promise<T>): Promise<T> {
  const program = findBrowser();
  assert.ok(program && existsSync(program));
  const browser = await chromium.launch({ executablePath: program, args: ['--no-sandbox'] });
  try {
    return await use(await browser.newPage());
  } finally {
    await browser.close();
  }
}

/** Forms whose way round has a formula, mm. */
const ROUND = [
  { form: 'plate 120 x 80 mm', round: platePerimeter(120, 80) },
  { form: 'disc 90 mm', round: circlePerimeter(90) },
  { form: 'oval 120 x 80 mm', round: ellipsePerimeter(120, 80) },
];

holdsAgainst(
  'Patterns as other programs measure what is written',
  [
    ...FORMS.map(
      ({ form }): Row => ({
        what: `${form}: area of its blank in the DXF, mm²`,
        work: 'ezdxf',
        source: 'path.make_path, flattened to a thousandth of a millimetre',
        status: 'rule seen',
        ours: () => areaOf(form),
        theirs: async () => (await byEzdxf(form)).area,
        within: 1e-4 * 30_000,
      }),
    ),
    ...FORMS.map(
      ({ form }): Row => ({
        what: `${form}: area of its blank in the SVG, mm²`,
        work: 'resvg',
        source: 'the cut line filled, in pixels of 0.1 mm',
        status: 'rule seen',
        ours: () => areaOf(form),
        theirs: () => byResvg(form),
        within: 5,
      }),
    ),
    {
      what: 'plate 120 × 80: its width in the PDF, mm',
      work: 'poppler',
      source: 'pdftoppm, in pixels of 0.1 mm',
      status: 'rule seen',
      ours: 120,
      theirs: async () => widthOf((await rendered('plate 120 x 80 mm', 'a4'))[0]!),
      within: 0.1,
    },
    ...ROUND.map(
      ({ form, round }, i): Row => ({
        what: `${form}: way round its cut line in the SVG, mm`,
        work: 'chromium',
        source: 'getTotalLength',
        status: 'rule seen',
        ours: round,
        theirs: async () => (await byChromium())[i]!,
        within: 0.002 * round.value, // it measures arcs by chords of half a pixel
      }),
    ),
  ],
  'other method',
);

describe('patterns read back by others', () => {
  for (const paper of ['a4', 'letter', 'full'] as const)
    it(`have bars of 100 mm and 4 in, and a plate as large as it is, on ${paper}`, async () => {
      const [page] = await rendered('plate 120 x 80 mm', paper);
      for (const [y, length] of [
        [18, 100],
        [10, 101.6],
      ] as const) {
        const bar = page!.across(y).find(([from, to]) => to - from > 50)!;
        near(bar[1] - bar[0], length, 0.4, 'bar with its end strokes');
        // Between the middles of the two end strokes, above the bar.
        const ends = page!.across(y + 3.6, 9, 9 + length + 2).filter(([from, to]) => to - from < 0.5);
        near(middle(ends.at(-1)!) - middle(ends[0]!), length, 0.1, 'bar');
      }
      near(widthOf(page!), 120, 0.1, 'width of the plate');
    });

  it('join over two sheets by their marks', async () => {
    const [one, two] = await rendered('strip 300 x 40 mm', 'a4');
    // Crosses stand where a thin upright of 8 mm is: the middle of the lap.
    const cross = (page: Page, from: number, to: number) => {
      for (let x = from; x <= to; x += 0.1) {
        const [found] = page.up(x, 40, 270).filter(([low, high]) => Math.abs(high - low - 8) < 0.4);
        if (found) return { x, y: middle(found) };
      }
      throw new Error('no cross');
    };
    const [right, left] = [cross(one!, 188, 199), cross(two!, 10.6, 22)];
    near(right.y, left.y, 0.1, 'height of the crosses');
    // From the strip's left end to the cross on one sheet, and from it to the right end on the other.
    const ends = (page: Page, from: number, to: number, pick: 'first' | 'last') => {
      for (let y = 60; y < 260; y += 0.5) {
        const cut = page.across(y, from, to).filter(([a, b]) => b - a < 0.8);
        const found = pick === 'first' ? cut[0] : cut.at(-1);
        if (found && page.up(middle(found), y - 8, y + 8).some(([a, b]) => b - a > 15)) return middle(found);
      }
      throw new Error('no end');
    };
    const [start, end] = [ends(one!, 10.5, 180, 'first'), ends(two!, 24, 199.5, 'last')];
    near(right.x - start + (end - left.x), 300, 0.2, 'length over both sheets');
  });

  it('are read by ezdxf without a fault, as large as they are', async () => {
    for (const each of FORMS) {
      const { form } = each;
      const found = await byEzdxf(form);
      assert.equal(found.faults, 0, form);
      assert.equal(found.cut, 1);
      assert.equal(found.version, 'AC1009');
      assert.equal(found.units, 4);
      for (const layer of ['CUT', 'DRILL', 'BEND', 'MARK', 'NOTE']) assert.ok(found.layers.includes(layer), layer);
      if ('box' in each) for (const [i, size] of each.box.entries()) near(found.box[i]!, size, 0.02, form);
    }
  });

  it('are measured by a browser as they are', async () => {
    await inBrowser(async (page) => {
      await page.setContent((await written('plate 120 x 80 mm', 'svg')).text!.replace(/^<\?xml.*\n/, ''));
      // As text: the test is of Node and knows no types of a page.
      const found = await page.evaluate<{ width: number; height: number; round: number; groups: string[] }>(`(() => {
        const cut = document.querySelector('#cut path');
        const { width, height } = cut.getBoundingClientRect();
        const groups = [...document.querySelectorAll('g')].map(({ id }) => id);
        return { width, height, round: cut.getTotalLength(), groups };
      })()`);
      const pixels = 96 / 25.4;
      // The box of the drawn line holds half its width at both sides.
      near(found.width / pixels, 120, 0.3, 'width on the screen');
      near(found.height / pixels, 80, 0.3, 'height on the screen');
      near(found.round, 400, 0.01, 'way round');
      assert.deepEqual(found.groups, ['cut', 'drill', 'bend', 'mark', 'note']);
    });
  });
});

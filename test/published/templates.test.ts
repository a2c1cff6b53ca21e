import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { patternsOf } from '../../server/output/documents/patterns/patterns-of.ts';
import { exportPatterns, onePiece, type PatternFormat } from '../../server/output/writers/patterns.ts';
import { figureValue, modelFrom } from '../model/support.ts';
import { DPI, Page } from './rendered.ts';
import { holdsAgainst, type Row } from './rows.ts';

/*
 * Templates against sections that are known: of balls, cones and ovals, with the outside out by half of what forming leaves of the sheet. The figures
 * first, then the boards as they are written, read back out of the files.
 */

const T = 1.5;
const specOf = (form: string, template: string) => `material plate
  mild steel ${T} mm
piece one
  from plate
  ${form}
  ${template}
`;
const figure = (form: string, template: string, name: string) =>
  figureValue(modelFrom(specOf(form, template)), `one.template-1.${name}`);

/** The ball of a cap 200 mm wide and 60 deep, at the middle of the thickness. */
const ball = (100 ** 2 + 60 ** 2) / 120;
const level = (high: number, out: number) => Math.sqrt((ball + out) ** 2 - (high + ball - 60) ** 2);
const CAP = 'dome 200 mm, deep 60 mm';
/** What dishing leaves of the sheet on the mean: a cap's faces lie half of that from its middle. */
const LEFT = figureValue(modelFrom(specOf(CAP, '')), 'one.thickness.mean');
const CONE = 'cone round 400 to 600 mm, high 200 mm, wrap 180 deg';
const slope = Math.hypot(1, 100 / Math.PI / 200);
const OVAL = 'cylinder round 520 mm, high 120 mm, long 200 mm, wrap 180 deg';

/** Way round an ellipse by Gauss and Kummer's series, and the half width that gives this way round. */
function wayRound(a: number, b: number): number {
  const h = ((a - b) / (a + b)) ** 2;
  let [sum, term] = [1, 1];
  for (let n = 1; n < 60; n++) {
    term *= ((0.5 - n + 1) / n) ** 2 * h;
    sum += term;
  }
  return Math.PI * (a + b) * sum;
}
function halfWidth(round: number, half: number): number {
  let [low, high] = [1, 1000];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (wayRound(middle, half) < round) low = middle;
    else high = middle;
  }
  return low;
}

const section = 'section of a ball, r = √((R ± t/2)² − z²)';
holdsAgainst(
  'Templates: sections that are known',
  [
    ...[15, 30, 45].flatMap((high): Row[] => [
      {
        what: `cap 200 × 60 at ${high} mm, way round the outside, mm`,
        source: section,
        status: 'worked',
        ours: figure(CAP, `template at ${high} mm`, 'length'),
        theirs: 2 * Math.PI * level(high, LEFT / 2),
        within: 1e-6,
      },
      {
        what: `cap 200 × 60 at ${high} mm, width of the inside, mm`,
        source: section,
        status: 'worked',
        ours: figure(CAP, `template at ${high} mm, inside`, 'wide'),
        theirs: 2 * level(high, -LEFT / 2),
        // None of the section's points need lie just at its widest.
        within: 1e-3,
      },
    ]),
    {
      what: 'cap 200 × 60, outside along its middle, mm',
      source: 'arc of a circle, (R + t/2) × 4 atan(h/a)',
      status: 'worked',
      ours: figure(CAP, 'template along middle', 'length'),
      theirs: (ball + LEFT / 2) * 4 * Math.atan(0.6),
      within: 1e-6,
    },
    ...[0, 80, 200].map(
      (high): Row => ({
        what: `half cone 400 to 600 mm round, outside at ${high} mm, mm`,
        source: 'circle, π × (r + t/2 ÷ cos of the slope)',
        status: 'worked',
        ours: figure(CONE, `template at ${high} mm`, 'length'),
        // A cone is told from its top to its bottom.
        theirs: Math.PI * ((600 - high) / (2 * Math.PI) + (T / 2) * slope),
        within: 1e-6,
      }),
    ),
    {
      what: 'half oval 520 mm round and 200 long, outside, mm',
      source: 'half an ellipse by the series of Gauss and Kummer, and π/2 × t for its parallel',
      status: 'worked',
      ours: figure(OVAL, 'template at 60 mm', 'length'),
      theirs: 260 + (Math.PI / 2) * T,
      within: 0.002,
    },
    {
      what: 'half oval 520 mm round and 200 long, width of the outside, mm',
      source: 'ellipse of that way round by the series of Gauss and Kummer',
      status: 'worked',
      ours: figure(OVAL, 'template at 60 mm', 'wide'),
      theirs: 2 * halfWidth(520, 100) + T,
      within: 1e-5,
    },
  ],
  'other method',
);

// ---- as they are written -------------------------------------------------------------------------------------------

const { resolve } = createRequire(import.meta.url);
const face = (file: string) => new Uint8Array(readFileSync(resolve(`@expo-google-fonts/noto-sans/${file}`)));
const fonts = { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };

const written = (form: string, template: string, to: PatternFormat) => {
  const patterns = patternsOf(modelFrom(specOf(form, template)), { date: '2027-03-01', problems: [] });
  const board = patterns.patterns.find(({ piece }) => piece.startsWith('one, template'))!;
  return exportPatterns(onePiece(patterns, board.piece), { to, fonts, ...(to === 'pdf' ? { paper: 'full' } : {}) });
};

type Corner = { x: number; y: number; bulge: number };

/** The closed lines on the layer of a drawing that is cut, as polylines with their bulges. */
function cutLines(dxf: string): Corner[][] {
  const lines = dxf.split('\r\n');
  const groups = Array.from(
    { length: lines.length >> 1 },
    (_, i) => [Number(lines[2 * i]), lines[2 * i + 1]!] as const,
  );
  const found: Corner[][] = [];
  let [on, inVertex] = [false, false];
  for (const [code, value] of groups) {
    if (code === 0) {
      inVertex = value === 'VERTEX';
      if (value === 'POLYLINE') on = false;
      else if (inVertex && on) found.at(-1)!.push({ x: 0, y: 0, bulge: 0 });
    } else if (code === 8 && !inVertex && value === 'CUT' && !on) {
      on = true;
      found.push([]);
    } else if (inVertex && on) {
      const corner = found.at(-1)!.at(-1)!;
      if (code === 10) corner.x = Number(value);
      if (code === 20) corner.y = Number(value);
      if (code === 42) corner.bulge = Number(value);
    }
  }
  return found.filter((line) => line.length > 0);
}

/** A polyline's corners and nine points along each of its arcs, by the sagitta of the arc over its chord. */
type Spot = { x: number; y: number; curved: boolean };
function pointsOn(corners: readonly Corner[]): Spot[] {
  return corners.flatMap((from, i): Spot[] => {
    const to = corners[(i + 1) % corners.length]!;
    if (!from.bulge) return [{ x: from.x, y: from.y, curved: false }];
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const angle = 4 * Math.atan(from.bulge);
    const radius = Math.hypot(dx, dy) / 2 / Math.sin(angle / 2);
    const up = radius * Math.cos(angle / 2);
    const long = Math.hypot(dx, dy);
    const [cx, cy] = [(from.x + to.x) / 2 - (up * dy) / long, (from.y + to.y) / 2 + (up * dx) / long];
    const start = Math.atan2(from.y - cy, from.x - cx);
    return Array.from({ length: 10 }, (_, k) => {
      const at = start + (angle * k) / 10;
      return { x: cx + Math.abs(radius) * Math.cos(at), y: cy + Math.abs(radius) * Math.sin(at), curved: true };
    });
  });
}

describe('Templates as they are written', () => {
  it('have the section of a cap as their hole in a DXF, to a fiftieth of a millimetre', async () => {
    const [frame, hole] = cutLines((await written(CAP, 'template at 30 mm', 'dxf')).text!);
    const radius = level(30, LEFT / 2);
    const box = (corners: readonly Corner[], key: 'x' | 'y') => {
      const all = corners.map((corner) => corner[key]);
      return [Math.min(...all), Math.max(...all)] as const;
    };
    const [left, right] = box(frame!, 'x');
    const [bottom, top] = box(frame!, 'y');
    assert.ok(Math.abs(right - left - 2 * (radius + 30)) < 1e-4, `frame ${right - left}`);
    const middle = [(left + right) / 2, (bottom + top) / 2] as const;
    const off = pointsOn(hole!).map(({ x, y }) => Math.hypot(x - middle[0], y - middle[1]) - radius);
    assert.ok(
      off.length >= 10 && off.every((each) => Math.abs(each) < 0.02),
      `off by ${Math.max(...off.map(Math.abs))}`,
    );
  });

  it('have the outside of a leaning wall as their edge in a DXF', async () => {
    const [outline] = cutLines((await written(CONE, 'template at 80 mm', 'dxf')).text!);
    const radius = 520 / (2 * Math.PI) + (T / 2) * slope;
    const curved = pointsOn(outline!).filter(({ curved }) => curved);
    // Its axis lies half way across, on the line between its ends: the bottom of the board.
    const xs = outline!.map(({ x }) => x);
    const axis = (Math.min(...xs) + Math.max(...xs)) / 2;
    const low = Math.min(...outline!.map(({ y }) => y));
    const off = curved.map(({ x, y }) => Math.hypot(x - axis, y - low) - radius);
    assert.ok(
      off.length >= 10 && off.every((each) => Math.abs(each) < 0.02),
      `off by ${Math.max(...off.map(Math.abs))}`,
    );
  });

  it('are as large in a PDF as they are, by the pixels of Poppler', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'planish-templates-'));
    try {
      writeFileSync(path.join(folder, 'one.pdf'), (await written(CAP, 'template at 30 mm', 'pdf')).bytes!);
      execFileSync('pdftoppm', ['-r', String(DPI), '-gray', '-f', '2', 'one.pdf', 'page'], { cwd: folder });
      const file = readdirSync(folder).find((each) => each.endsWith('.pgm'))!;
      const page = new Page(path.join(folder, file));
      const radius = level(30, LEFT / 2);
      // The level on which the uprights lie furthest apart is that of the axis.
      const widest = Array.from({ length: 400 }, (_, i) => 40 + i / 2)
        .map((y) =>
          page
            .across(y)
            .filter(([from, to]) => to - from < 1)
            .map(([from, to]) => (from + to) / 2),
        )
        // Two of the frame and two of the hole: what more there is are letters.
        .filter((uprights) => uprights.length === 4)
        .map((uprights) => {
          const [left, right] = [uprights[0]!, uprights.at(-1)!];
          const inner = uprights.filter((x) => x > left + 20 && x < right - 20);
          return { frame: right - left, hole: Math.max(...inner) - Math.min(...inner) };
        })
        .reduce((most, each) => (each.hole > most.hole ? each : most));
      assert.ok(Math.abs(widest.frame - 2 * (radius + 30)) < 0.15, `frame ${widest.frame}`);
      assert.ok(Math.abs(widest.hole - 2 * radius) < 0.15, `hole ${widest.hole}, wanted ${2 * radius}`);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

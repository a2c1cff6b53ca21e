import { type Flat, outlineOf } from '../../geometry/flatten/flatten.ts';
import { levelLines } from '../../geometry/flatten/levels.ts';
import { type System, show, unitOf } from '../../model/values/show.ts';
import { markup } from '../writers/escape.ts';

/** What a plate's map is drawn from. */
export interface StrainMap {
  readonly flat: Flat;
  /** Starting thickness, mm. */
  readonly thickness: number;
  /** Stands above the drawing. */
  readonly title: string;
  /** Lines below it: how it was reckoned, what it is good for. */
  readonly notes: readonly string[];
  readonly system: System;
}

/**
 * From the sheet as it is to the thinnest and the thickest place: told apart by those who see few colours, light enough
 * for arrows, and never alone, since every contour has its figure.
 */
const THINNER = ['#f7f7f7', '#fdb863', '#d9730a'];
const THICKER = ['#f7f7f7', '#b2abd2', '#7363a6'];
const MARGIN = 10;
const HEAD = 18;
const LEGEND = 52;
const LINE = 6;
/** Width of a small letter, mm, on the safe side. */
const LETTER = 2;
/** Between the crosses of arrows, mm. */
const GRID = 24;
/** An arrow this long, mm, is a strain of one; shorter strains than the least are not drawn. */
const ARROW = 90;
const LEAST = 0.01;

/**
 * The flat blank life-size, mm: bands and contours of the thickness that forming leaves, and crosses of arrows for how far
 * the metal stretches (arrows apart) and shrinks (arrows together) there.
 */
export function strainMapSvg(map: StrainMap): string {
  const { flat, thickness, system } = map;
  const { points } = outlineOf(flat);
  const left = Math.min(...points.map(([x]) => x));
  const top = Math.max(...points.map(([, y]) => y));
  const x = (value: number) => round(value - left + MARGIN);
  const y = (value: number) => round(top - value + HEAD + MARGIN);
  const values = flat.thickness.map((share) => share * thickness);
  const levels = levelsOf(values, { thickness, system });
  const wide = Math.max(flat.long + 2 * MARGIN + LEGEND, 150);
  const high = HEAD + flat.wide + 2 * MARGIN;
  const legendAt = flat.long + 2 * MARGIN + 6;
  const notes = [...map.notes, ...edgeNotes(flat, system)].flatMap((note) =>
    wrapped(note, (wide - 2 * MARGIN) / LETTER),
  );
  const height = Math.max(high, HEAD + 30 + LINE * (levels.length + 6)) + LINE * notes.length + MARGIN / 2;
  const outline = `M${points.map(([px, py]) => `${x(px)} ${y(py)}`).join('L')}Z`;
  const contours = contoursOf(flat, values, levels, x, y, system);
  const parts = [
    ...bandsOf(flat, values, levels, thickness, x, y),
    ...contours.map(({ line }) => line),
    `<path class="cut" d="${outline}"/>`,
    arrowsOf(flat, x, y),
    ...contours.map(({ figure }) => figure).filter(Boolean),
    legendOf(levels, map, legendAt),
    ...notes.map(
      (note, i) =>
        `<text x="${MARGIN}" y="${round(height - MARGIN / 2 - LINE * (notes.length - 1 - i))}" class="note">${markup(note)}</text>`,
    ),
  ];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${round(wide)}mm" height="${round(height)}mm" viewBox="0 0 ${round(wide)} ${round(height)}">
<title>${markup(map.title)}</title>
<style>text{font:4px sans-serif;fill:#111}.title{font-size:6px;font-weight:bold}.note{font-size:3.6px}.cut{fill:none;stroke:#111;stroke-width:.7}.contour{fill:none;stroke:#333;stroke-width:.3}.figure{text-anchor:middle;paint-order:stroke;stroke:#fff;stroke-width:1px;stroke-linejoin:round}.stretch{stroke:#111;stroke-width:.35;fill:none}.shrink{stroke:#111;stroke-width:.35;stroke-dasharray:1 .7;fill:none}.head{fill:#111}.swatch{stroke:#555;stroke-width:.2}</style>
<rect width="100%" height="100%" fill="#fff"/>
<text x="${MARGIN}" y="10" class="title">${markup(map.title)}</text>
<text x="${MARGIN}" y="17">Thickness after forming from ${markup(show(thickness, 'mm', system))}, on the flat blank, life-size</text>
${parts.join('\n')}
</svg>
`;
}

type Scale = (value: number) => number;

/** Steps that are easily read, in the units that they are shown in. */
const STEPS: Readonly<Record<'mm' | 'in', readonly number[]>> = {
  mm: [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5],
  in: [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2].map((step) => step * 25.4),
};
/** Less than this share of a sheet is within what it is rolled to and what a hand measures: common practice (no source). */
const EVEN = 0.01;

/** Even steps of thickness, so many or fewer, that part the bands; none where the whole plate is as good as even. */
export function levelsOf(
  values: Float64Array,
  { thickness, system, most = 7 }: { thickness: number; system: System; most?: number },
): number[] {
  const sorted = values.slice().sort();
  // The very corners of the mesh would stretch the scale for nothing.
  const low = sorted[Math.floor(0.01 * sorted.length)]!;
  const high = sorted[Math.ceil(0.99 * (sorted.length - 1))]!;
  const least = EVEN * thickness;
  if (high - low < least) return [];
  const steps = STEPS[unitOf(system)];
  const step =
    steps.find((each) => each >= least && (high - low) / each <= most) ?? Math.max(steps.at(-1)!, (high - low) / most);
  const first = Math.ceil(low / step);
  const last = Math.floor(high / step);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/** Of the band below each level, and of the last above all: paler the nearer it lies to the sheet that it came from. */
function colourOf(band: number, levels: readonly number[], thickness: number): string {
  const [from, to] = [levels[band - 1] ?? -Infinity, levels[band] ?? Infinity];
  const hair = 1e-6 * thickness;
  const under = levels.filter((level) => level < thickness + hair).length;
  const over = levels.filter((level) => level > thickness - hair).length;
  // Where there are few bands none is so far from the sheet as to be deep.
  const most = Math.max(under, over, 4);
  if (to < thickness + hair) return mixed(THINNER, (under - band) / most);
  if (from > thickness - hair) return mixed(THICKER, (over - (levels.length - band)) / most);
  return THINNER[0]!;
}

/** A colour so far along three. */
function mixed(colours: readonly string[], share: number): string {
  const at = 2 * Math.min(1, Math.max(0, share));
  const i = at > 1 ? 1 : 0;
  const part = (colour: string, k: number) => Number.parseInt(colour.slice(1 + 2 * k, 3 + 2 * k), 16);
  return `#${[0, 1, 2]
    .map((k) => Math.round(part(colours[i]!, k) + (at - i) * (part(colours[i + 1]!, k) - part(colours[i]!, k))))
    .map((value) => value.toString(16).padStart(2, '0'))
    .join('')}`;
}

function bandsOf(
  flat: Flat,
  values: Float64Array,
  levels: readonly number[],
  thickness: number,
  x: Scale,
  y: Scale,
): string[] {
  const { triangles } = flat.topology;
  return Array.from({ length: levels.length + 1 }, (_, band) => {
    const [from, to] = [levels[band - 1] ?? -Infinity, levels[band] ?? Infinity];
    let path = '';
    for (let t = 0; t < triangles.length; t += 3) {
      let corners = [0, 1, 2].map((i): Corner => {
        const vertex = triangles[t + i]!;
        return [x(flat.positions[2 * vertex]!), y(flat.positions[2 * vertex + 1]!), values[vertex]!];
      });
      if (Number.isFinite(from)) corners = clipped(corners, (value) => value - from);
      if (Number.isFinite(to)) corners = clipped(corners, (value) => to - value);
      if (corners.length > 2) path += `M${corners.map(([cx, cy]) => `${round(cx)} ${round(cy)}`).join('L')}Z`;
    }
    const colour = colourOf(band, levels, thickness);
    return path ? `<path d="${path}" fill="${colour}" stroke="${colour}" stroke-width=".15"/>` : '';
  }).filter(Boolean);
}

type Corner = readonly [x: number, y: number, value: number];

/** The part of a polygon where a rising function of the value is nought or more. */
function clipped(corners: readonly Corner[], above: (value: number) => number): Corner[] {
  return corners.flatMap((from, i): Corner[] => {
    const to = corners[(i + 1) % corners.length]!;
    const [a, b] = [above(from[2]), above(to[2])];
    const own = a >= 0 ? [from] : [];
    if (a >= 0 === b >= 0) return own;
    const share = a / (a - b);
    const between = (k: 0 | 1 | 2) => from[k] + share * (to[k] - from[k]);
    return [...own, [between(0), between(1), between(2)]];
  });
}

function contoursOf(
  flat: Flat,
  values: Float64Array,
  levels: readonly number[],
  x: Scale,
  y: Scale,
  system: System,
): { line: string; figure: string }[] {
  return levels.flatMap((level) =>
    levelLines(flat, values, level).map(({ points }) => {
      const places = points.map(([px, py]) => [x(px), y(py)] as const);
      const line = `<path class="contour" d="M${places.map(([px, py]) => `${round(px)} ${round(py)}`).join('L')}"/>`;
      const length = places
        .slice(1)
        .reduce((sum, [px, py], i) => sum + Math.hypot(px - places[i]![0], py - places[i]![1]), 0);
      if (length < 25) return { line, figure: '' };
      const [px, py] = places[places.length >> 1]!;
      const figure = `<text class="figure" x="${round(px)}" y="${round(py + 1.4)}">${markup(show(level, 'mm', system).replace(/ .*$/, ''))}</text>`;
      return { line, figure };
    }),
  );
}

/** A cross of arrows in the triangle nearest to each point of a grid. */
function arrowsOf(flat: Flat, x: Scale, y: Scale): string {
  const { triangles } = flat.topology;
  const nearest = new Map<string, { t: number; off: number; at: readonly [number, number] }>();
  for (let t = 0; t < triangles.length / 3; t++) {
    const centre = ([0, 1] as const).map(
      (k) => [0, 1, 2].reduce((sum, i) => sum + flat.positions[2 * triangles[3 * t + i]! + k]!, 0) / 3,
    ) as [number, number];
    const cell = centre.map((each) => Math.round(each / GRID));
    const off = Math.hypot(centre[0] - GRID * cell[0]!, centre[1] - GRID * cell[1]!);
    const key = cell.join();
    // A cell that the plate only grazes has no triangle near its middle.
    if (off < GRID / 4 && off < (nearest.get(key)?.off ?? Infinity)) nearest.set(key, { t, off, at: centre });
  }
  const made: string[] = [];
  for (const { t, at } of nearest.values()) {
    const { most, least, angle } = flat.strains;
    made.push(arrow(x(at[0]), y(at[1]), -angle[t]!, most[t]!));
    made.push(arrow(x(at[0]), y(at[1]), -angle[t]! - Math.PI / 2, least[t]!));
  }
  return made.join('');
}

/** Heads point apart for a stretch, together for a shrink, whose line is broken too. */
function arrow(px: number, py: number, angle: number, strain: number): string {
  if (Math.abs(strain) < LEAST) return '';
  const half = Math.min(GRID * 0.42, Math.max(2.2, (ARROW * Math.abs(strain)) / 2));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const point = (along: number, aside: number) =>
    `${round(px + c * along - s * aside)} ${round(py + s * along + c * aside)}`;
  const head = (side: 1 | -1) => {
    const tip = side * (strain > 0 ? half : half - 1.4);
    const back = side * (strain > 0 ? half - 1.4 : half);
    return `M${point(tip, 0)}L${point(back, 0.7)}L${point(back, -0.7)}Z`;
  };
  return `<path class="${strain > 0 ? 'stretch' : 'shrink'}" d="M${point(-half, 0)}L${point(half, 0)}"/><path class="head" d="${head(1)}${head(-1)}"/>`;
}

function legendOf(levels: readonly number[], { flat, thickness, system }: StrainMap, at: number): string {
  const even = flat.thickness.every((share) => Math.abs(share - 1) < EVEN / 10) ? 'even' : 'even within 1 %';
  const unit = show(1, 'mm', system).replace(/^\S+ /, '');
  const figure = (level: number) => show(level, 'mm', system).replace(/ .*$/, '');
  const rows = Array.from({ length: levels.length + 1 }, (_, band) => {
    const [from, to] = [levels[band - 1], levels[band]];
    const text =
      from === undefined && to === undefined
        ? even
        : from === undefined
          ? `under ${figure(to!)}`
          : to === undefined
            ? `over ${figure(from)}`
            : `${figure(from)} to ${figure(to)}`;
    const top = HEAD + MARGIN + LINE * (band + 1);
    return `<rect class="swatch" x="${round(at)}" y="${round(top - 3.6)}" width="7" height="4.6" fill="${colourOf(band, levels, thickness)}"/><text x="${round(at + 10)}" y="${round(top)}">${markup(text)}</text>`;
  });
  const below = HEAD + MARGIN + LINE * (levels.length + 2.6);
  return [
    `<text x="${round(at)}" y="${HEAD + MARGIN}">thickness, ${markup(unit)}</text>`,
    ...rows,
    arrow(at + 4, below - 1.2, 0, 0.08),
    `<text x="${round(at + 10)}" y="${round(below)}">stretch it</text>`,
    arrow(at + 4, below + LINE - 1.2, 0, -0.08),
    `<text x="${round(at + 10)}" y="${round(below + LINE)}">shrink it</text>`,
    `<text x="${round(at)}" y="${round(below + 2 * LINE)}" class="note">${markup(show(ARROW * 0.1, 'mm', system))} long: 0.1</text>`,
  ].join('');
}

/** How long each edge is on the flat plate and after forming: what has to shrink or stretch to meet its mate. */
function edgeNotes({ surface, lengths }: Flat, system: System): string[] {
  const said = [...surface.edges.keys()].flatMap((name) => {
    const length = lengths.get(name);
    if (!length) return [];
    const change = 100 * (length.formed / length.flat - 1);
    const how = Math.abs(change) < 0.05 ? 'as it is' : `${change > 0 ? '+' : '−'}${Math.abs(change).toFixed(1)} %`;
    return [`${name} ${show(length.flat, 'mm', system)} flat, ${show(length.formed, 'mm', system)} formed (${how})`];
  });
  return said.length ? [`Edges: ${said.join('; ')}`] : [];
}

/** In lines of so many letters, broken at blanks. */
function wrapped(text: string, letters: number): string[] {
  const lines = [''];
  for (const word of text.split(' ')) {
    const line = lines[lines.length - 1]!;
    if (!line) lines[lines.length - 1] = word;
    else if (line.length + 1 + word.length <= letters) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

const round = (value: number) => Math.round(value * 100) / 100;

import type { Surface } from '../../geometry/surface/surface.ts';
import { markup } from '../writers/escape.ts';

/** What is drawn of a formed piece: the net of its surface from three sides, to one scale. */
export interface FormView {
  readonly surface: Surface;
  /** Stands above the drawing. */
  readonly title: string;
}

/** Each view by the directions that run right and up on the paper. */
const VIEWS = [
  { name: 'front', right: [-1, 0, 0], up: [0, 0, 1] },
  { name: 'left side', right: [0, -1, 0], up: [0, 0, 1] },
  { name: 'top, front down', right: [-1, 0, 0], up: [0, -1, 0] },
] as const;

const MARGIN = 8;
const GAP = 14;
const HEAD = 16;

/**
 * The formed surface as an SVG, mm life-size: from the front, from the wearer's left and from above. The net is faint
 * where it is seen from inside; edges are heavy, lines on the form dashed.
 */
export function formViewSvg({ surface, title }: FormView): string {
  const panels = VIEWS.map((view) => panelOf(surface, view));
  const height = Math.max(...panels.map((panel) => panel.height)) + HEAD + 2 * MARGIN;
  let left = MARGIN;
  const drawn = panels.map((panel) => {
    const made = `<g transform="translate(${round(left)} ${HEAD + MARGIN})"><text x="0" y="-4" class="name">${panel.name}</text>${panel.marks}</g>`;
    left += panel.width + GAP;
    return made;
  });
  const width = left - GAP + MARGIN;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}mm" height="${round(height)}mm" viewBox="0 0 ${round(width)} ${round(height)}">
<title>${markup(title)}</title>
<style>path{fill:none;stroke-linejoin:round;stroke-linecap:round}.net{stroke:#345;stroke-width:.2}.inside{stroke:#345;stroke-width:.2;opacity:.22}.edge{stroke:#123;stroke-width:.9}.line{stroke:#a33;stroke-width:.5;stroke-dasharray:3 2}text{font:5px sans-serif;fill:#123}.title{font-size:6px;font-weight:bold}</style>
<rect width="100%" height="100%" fill="#fff"/>
<text x="${MARGIN}" y="10" class="title">${markup(title)}</text>
${drawn.join('\n')}
</svg>
`;
}

interface Panel {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly marks: string;
}

function panelOf(surface: Surface, { name, right, up }: (typeof VIEWS)[number]): Panel {
  const { positions, triangles } = surface;
  const along = (vertex: number, way: readonly number[]) =>
    positions[3 * vertex]! * way[0]! + positions[3 * vertex + 1]! * way[1]! + positions[3 * vertex + 2]! * way[2]!;
  const count = positions.length / 3;
  const xs = Float64Array.from({ length: count }, (_, i) => along(i, right));
  const ys = Float64Array.from({ length: count }, (_, i) => -along(i, up));
  const [least, top] = [xs.reduce((a, b) => Math.min(a, b), Infinity), ys.reduce((a, b) => Math.min(a, b), Infinity)];
  const at = (vertex: number) => `${round(xs[vertex]! - least)} ${round(ys[vertex]! - top)}`;
  const facing = new Map<string, boolean>();
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
    // Anticlockwise from outside: on paper, y down, the turn is the other way.
    const seen = (xs[b]! - xs[a]!) * (ys[c]! - ys[a]!) - (xs[c]! - xs[a]!) * (ys[b]! - ys[a]!) < 0;
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const key = from < to ? `${from} ${to}` : `${to} ${from}`;
      facing.set(key, seen || (facing.get(key) ?? false));
    }
  }
  const net = (seen: boolean) =>
    [...facing]
      .filter(([, each]) => each === seen)
      .map(([key]) => {
        const [from, to] = key.split(' ').map(Number) as [number, number];
        return `M${at(from)}L${at(to)}`;
      })
      .join('');
  const chains = (all: ReadonlyMap<string, Uint32Array>) =>
    [...all.values()]
      .filter((chain) => chain.length > 1)
      .map((chain) => `M${[...chain].map(at).join('L')}`)
      .join('');
  return {
    name,
    width: xs.reduce((a, b) => Math.max(a, b), -Infinity) - least,
    height: ys.reduce((a, b) => Math.max(a, b), -Infinity) - top,
    marks: `<path class="inside" d="${net(false)}"/><path class="net" d="${net(true)}"/><path class="line" d="${chains(surface.lines)}${chains(surface.folds ?? new Map())}"/><path class="edge" d="${chains(surface.edges)}"/>`,
  };
}

const round = (value: number) => Math.round(value * 100) / 100;

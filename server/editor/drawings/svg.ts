import { markup } from '../../output/writers/escape.ts';

/*
 * Small drawings for hovers. They lie on the editor's own background, so every colour stands out from white and from
 * black alike; what a part is says its label, never its colour alone.
 */

const INK = '#7d8690';
export const METAL = '#4f86b5';
export const SOFT = '#a9744f';
export const FASTENER = '#c0842f';

export interface Sketch {
  readonly width: number;
  readonly height: number;
  /** The drawing in words, for who cannot see it. */
  readonly description: string;
  readonly marks: readonly string[];
}

const number = (value: number): string => String(Math.round(value * 10) / 10);

/** Points of a path, closed: `12,4 18,4 …`. */
export const polygon = (points: readonly (readonly [number, number])[], fill: string, opacity = 0.45): string =>
  `<polygon points="${points.map(([x, y]) => `${number(x)},${number(y)}`).join(' ')}" fill="${fill}" fill-opacity="${opacity}" stroke="${fill}"/>`;

export const shape = (d: string, fill: string, opacity = 0.45): string =>
  `<path d="${d.replace(/-?\d+\.\d+/g, (each) => number(Number(each)))}" fill="${fill}" fill-opacity="${opacity}" stroke="${fill}"/>`;

export const circle = (x: number, y: number, r: number, fill: string, opacity = 0.45): string =>
  `<circle cx="${number(x)}" cy="${number(y)}" r="${number(r)}" fill="${fill}" fill-opacity="${opacity}" stroke="${fill}"/>`;

export const line = (x1: number, y1: number, x2: number, y2: number, dashed = false): string =>
  `<line x1="${number(x1)}" y1="${number(y1)}" x2="${number(x2)}" y2="${number(y2)}" stroke="${INK}"${dashed ? ' stroke-dasharray="3 3"' : ''}/>`;

export const label = (x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end' = 'start'): string =>
  `<text x="${number(x)}" y="${number(y)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}>${markup(text)}</text>`;

function svgOf(sketch: Sketch): string {
  const { width, height, description, marks } = sketch;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}" height="${number(height)}" font-family="sans-serif" font-size="11"><title>${markup(description)}</title><g fill="${INK}">${marks.join('')}</g></svg>`;
}

/** As Markdown shows it: the picture in the text itself, so that nothing has to be fetched. */
export function pictureOf(sketch: Sketch): string {
  const bytes = new TextEncoder().encode(svgOf(sketch));
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  const words = sketch.description.replace(/[[\]\\\r\n]/g, ' ');
  return `![${words}](data:image/svg+xml;base64,${btoa(binary)})`;
}

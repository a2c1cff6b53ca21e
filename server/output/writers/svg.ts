import type { Path } from '../../geometry/outline/path.ts';
import { radiusOf, spansOf, sweepOf } from '../../geometry/outline/span.ts';
import { type Steps, share } from '../../incremental/steps.ts';
import { isInches, type System } from '../../model/values/show.ts';
import { asCircle } from '../documents/patterns/paths.ts';
import { LAYERS, type Layer, type Patterns } from '../documents/patterns/pattern.ts';
import type { Stroke } from '../documents/patterns/plan.ts';
import { type Laid, laidOut } from '../documents/patterns/sheet.ts';
import { markup } from './escape.ts';

/** Patterns as SVG, one unit a millimetre: a group for each layer, text as text. Same patterns, same text. */
export function* writeSvg(patterns: Patterns): Steps<string> {
  const sheet = yield* share(0, 0.9, laidOut(patterns));
  return yield* svgOfLaid({ ...sheet, ...patterns, title: `${patterns.title}: patterns at 1:1` });
}

/** Plans where they lie, and what is told of them. */
export interface SvgSheet {
  readonly laid: readonly Laid[];
  readonly wide: number;
  readonly high: number;
  readonly title: string;
  readonly file: string;
  readonly version: string;
  readonly date: string;
  readonly units: System;
}

export function* svgOfLaid({ laid, wide, high, title, file, version, date, units }: SvgSheet): Steps<string> {
  const byLayer = new Map<Layer, string[]>(LAYERS.map((layer) => [layer, []]));
  for (const each of laid) {
    let count = 0;
    for (const stroke of each.plan.strokes) {
      if (count++ % STROKES_AT_ONCE === 0) yield undefined;
      byLayer.get(stroke.layer)!.push(`    ${drawn(stroke, each, high)}\n`);
    }
  }
  for (const each of laid) {
    yield undefined;
    byLayer.get('note')!.push(...written(each, high).map((text) => `    ${text}\n`));
  }
  const layers: string[] = [];
  for (const [layer, inLayer] of byLayer) {
    yield undefined;
    layers.push(`  <g id="${layer}">\n${inLayer.join('')}  </g>\n`);
  }
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${n(wide)}mm" height="${n(high)}mm" viewBox="0 0 ${n(wide)} ${n(high)}" fill="none" stroke-width="0.25">
  <title>${markup(title)}</title>
  <desc>${markup(`${file}, ${version}, ${date}. ${isInches(units) ? '25.4 units are an inch' : 'One unit is one millimetre'}. ${NOT_CERTIFIED}`)}</desc>
  <style>text{font-family:sans-serif;stroke:none;fill:#1d2226}#cut{stroke:#000}#drill{stroke:#a01c1c}#bend{stroke:#94471c;stroke-dasharray:4 1.5}#mark{stroke:#2b5c8a;stroke-width:.18}.later,.rivet{stroke-dasharray:1.2 .8}.centre{stroke-dasharray:6 1.5 1 1.5}.sheet{stroke:#7a7f84}</style>
${layers.join('')}</svg>
`;
}

const STROKES_AT_ONCE = 100;

export const NOT_CERTIFIED =
  'A pattern says what to cut. It is no statement that any piece protects anyone: that is for the group’s rulebook, the production’s safety lead and their inspectors to decide.';

function n(value: number): string {
  const text = value.toFixed(4).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}

function drawn({ kind, path }: Stroke, { x, y, plan }: Laid, high: number): string {
  const at = (px: number, py: number) => `${n(x + px)} ${n(high - y - py)}`;
  const round = asCircle(path);
  const own = `class="${kind}" data-piece="${markup(plan.pattern.piece)}"`;
  if (round) {
    const [cx, cy] = at(round.centre.x, round.centre.y).split(' ');
    return `<circle ${own} cx="${cx}" cy="${cy}" r="${n(round.radius)}"/>`;
  }
  return `<path ${own} d="${dOf(path, at)}"/>`;
}

function dOf(path: Path, at: (x: number, y: number) => string): string {
  const spans = spansOf(path);
  const first = spans[0];
  if (!first) return '';
  const sides = spans.map((span) => {
    const to = at(span.to.x, span.to.y);
    if (span.bulge === 0) return `L${to}`;
    const sweep = sweepOf(span);
    const radius = n(radiusOf(span));
    // y runs down here: anticlockwise on the drawing is the sweep that SVG calls nought.
    return `A${radius} ${radius} 0 ${Math.abs(sweep) > Math.PI ? 1 : 0} ${sweep > 0 ? 0 : 1} ${to}`;
  });
  return `M${at(first.from.x, first.from.y)}${sides.join('')}${path.closed ? 'Z' : ''}`;
}

function written({ x, y, plan }: Laid, high: number): string[] {
  return plan.texts.map((text) => {
    const [px, py] = [n(x + text.x), n(high - y - text.y)];
    const turn = text.turn ? ` transform="rotate(${n(-text.turn)} ${px} ${py})"` : '';
    const anchor = text.anchor === 'middle' ? ' text-anchor="middle"' : '';
    const bold = text.bold ? ' font-weight="bold"' : '';
    return `<text x="${px}" y="${py}" font-size="${n(text.size)}"${anchor}${bold}${turn}>${markup(text.text)}</text>`;
  });
}

import { boxOfPath } from '../../geometry/outline/measure.ts';
import { around, centreOf, radiusOf, spansOf, sweepOf } from '../../geometry/outline/span.ts';
import { type Steps, share } from '../../incremental/steps.ts';
import { asCircle, type Box } from '../documents/patterns/paths.ts';
import { LAYERS, type Layer, type Patterns } from '../documents/patterns/pattern.ts';
import { type Stroke, type Text, textWidth } from '../documents/patterns/plan.ts';
import { type Laid, laidOut } from '../documents/patterns/sheet.ts';
import { printable } from './escape.ts';

/*
 * Drawing exchange files of release 12 (AC1009), which every cutter and every drawing program reads. Lines and arcs are
 * lines and arcs: closed outlines are polylines with bulges, whole circles circles. Source: the DXF reference.
 */

/** AutoCAD colour index by layer. */
const COLOURS: Readonly<Record<Layer, number>> = { cut: 7, drill: 1, bend: 6, mark: 5, note: 8 };

/** All patterns of a build side by side, mm. Same patterns, same text. */
export function* writeDxf(patterns: Patterns): Steps<string> {
  const { laid } = yield* share(0, 0.9, laidOut(patterns));
  return yield* dxfOfLaid(laid);
}

/** Plans where they lie, mm. */
export function* dxfOfLaid(laid: readonly Laid[]): Steps<string> {
  const drawn: { readonly text: string; readonly extent: Box }[] = [];
  for (const each of laid) {
    yield undefined;
    drawn.push(yield* drawnOf(each));
  }
  const extent = extentOf(drawn.map(({ extent }) => extent));
  return [textOf(head(extent)), ...drawn.map(({ text }) => text), textOf(FOOT)].join('');
}

const STROKES_AT_ONCE = 200;
const GROUPS_AT_ONCE = 5_000;

/** What lies in one plan, and how far it reaches. */
function* drawnOf({ plan, x, y }: Laid): Steps<{ text: string; extent: Box }> {
  const boxes: Box[] = [];
  const parts: string[] = [];
  for (const [i, { layer, path }] of plan.strokes.entries()) {
    if (i % STROKES_AT_ONCE === STROKES_AT_ONCE - 1) yield undefined;
    const vertices = path.vertices.map((vertex) => ({ ...vertex, x: vertex.x + x, y: vertex.y + y }));
    const placed = { ...path, vertices };
    boxes.push(boxOfPath(placed));
    const groups = pathGroups({ layer, path: placed });
    // One line alone may have tens of thousands of points.
    for (let from = 0; from < groups.length; from += GROUPS_AT_ONCE) {
      if (from) yield undefined;
      parts.push(textOf(groups.slice(from, from + GROUPS_AT_ONCE)));
    }
  }
  const texts = plan.texts.map((text) => ({ ...text, x: text.x + x, y: text.y + y }));
  return {
    text: `${parts.join('')}${textOf(texts.flatMap(textGroups))}`,
    extent: extentOf(boxes),
  };
}

/** Of the drawing, whose origin always counts. */
const extentOf = (boxes: readonly Box[]): Box => boxes.reduce(around, { left: 0, right: 0, bottom: 0, top: 0 });

function head({ left, right, bottom, top }: Box): Group[] {
  return [
    [0, 'SECTION'],
    [2, 'HEADER'],
    [9, '$ACADVER'],
    [1, 'AC1009'],
    [9, '$DWGCODEPAGE'],
    [3, 'ANSI_1252'],
    // Millimetres. Release 12 has no name for it and reads past it; later readers go by it.
    [9, '$INSUNITS'],
    [70, 4],
    [9, '$MEASUREMENT'],
    [70, 1],
    [9, '$EXTMIN'],
    [10, left],
    [20, bottom],
    [30, 0],
    [9, '$EXTMAX'],
    [10, right],
    [20, top],
    [30, 0],
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'TABLES'],
    [0, 'TABLE'],
    [2, 'LTYPE'],
    [70, 1],
    [0, 'LTYPE'],
    [2, 'CONTINUOUS'],
    [70, 0],
    [3, 'Solid line'],
    [72, 65],
    [73, 0],
    [40, 0],
    [0, 'ENDTAB'],
    [0, 'TABLE'],
    [2, 'LAYER'],
    [70, LAYERS.length],
    ...LAYERS.flatMap((layer): Group[] => [
      [0, 'LAYER'],
      [2, layer.toUpperCase()],
      [70, 0],
      [62, COLOURS[layer]],
      [6, 'CONTINUOUS'],
    ]),
    [0, 'ENDTAB'],
    [0, 'TABLE'],
    [2, 'STYLE'],
    [70, 1],
    [0, 'STYLE'],
    [2, 'STANDARD'],
    [70, 0],
    [40, 0],
    [41, 1],
    [50, 0],
    [71, 0],
    [42, 2.5],
    [3, 'txt'],
    [4, ''],
    [0, 'ENDTAB'],
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'ENTITIES'],
  ];
}

const FOOT: readonly Group[] = [
  [0, 'ENDSEC'],
  [0, 'EOF'],
];

const textOf = (groups: readonly Group[]): string =>
  groups
    .map(
      ([code, value]) =>
        `${String(code).padStart(3)}\r\n${typeof value === 'number' ? number(value, code) : value}\r\n`,
    )
    .join('');

type Group = readonly [number, string | number];

/** Codes from 60 on are whole numbers, the others that are numbers have decimals. */
function number(value: number, code: number): string {
  if (code >= 60) return String(value);
  const text = value
    .toFixed(6)
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '.0');
  return text === '-0.0' ? '0.0' : text;
}

function pathGroups({ layer, path }: Pick<Stroke, 'layer' | 'path'>): Group[] {
  const name = layer.toUpperCase();
  const round = asCircle(path);
  if (round) {
    return [
      [0, 'CIRCLE'],
      [8, name],
      [10, round.centre.x],
      [20, round.centre.y],
      [30, 0],
      [40, round.radius],
    ];
  }
  const spans = spansOf(path);
  if (spans.length === 1 && !path.closed) {
    const span = spans[0]!;
    if (span.bulge === 0) {
      return [
        [0, 'LINE'],
        [8, name],
        [10, span.from.x],
        [20, span.from.y],
        [30, 0],
        [11, span.to.x],
        [21, span.to.y],
        [31, 0],
      ];
    }
    const centre = centreOf(span);
    const angle = (x: number, y: number) => (Math.atan2(y - centre.y, x - centre.x) * 180) / Math.PI;
    const ends = [angle(span.from.x, span.from.y), angle(span.to.x, span.to.y)];
    const [start, end] = sweepOf(span) > 0 ? ends : ends.reverse();
    return [
      [0, 'ARC'],
      [8, name],
      [10, centre.x],
      [20, centre.y],
      [30, 0],
      [40, radiusOf(span)],
      [50, start!],
      [51, end!],
    ];
  }
  const last = spans.at(-1);
  const vertices = [
    ...spans.map(({ from, bulge }) => ({ ...from, bulge })),
    ...(path.closed || !last ? [] : [{ ...last.to, bulge: 0 }]),
  ];
  return [
    [0, 'POLYLINE'],
    [8, name],
    [66, 1],
    [10, 0],
    [20, 0],
    [30, 0],
    [70, path.closed ? 1 : 0],
    ...vertices.flatMap(({ x, y, bulge }): Group[] => [
      [0, 'VERTEX'],
      [8, name],
      [10, x],
      [20, y],
      [30, 0],
      ...(bulge ? ([[42, bulge]] as Group[]) : []),
    ]),
    [0, 'SEQEND'],
    [8, name],
  ];
}

/** Set from its start: centred text needs a width that every reader has of its own. */
function textGroups({ text, x, y, size, turn, anchor }: Text): Group[] {
  const back = anchor === 'middle' ? textWidth(text, size) / 2 : 0;
  const angle = (turn * Math.PI) / 180;
  return [
    [0, 'TEXT'],
    [8, 'NOTE'],
    [10, x - back * Math.cos(angle)],
    [20, y - back * Math.sin(angle)],
    [30, 0],
    // The height is that of a capital, less than that of the type.
    [40, size * 0.72],
    [1, dxfText(text)],
    [50, turn],
    [41, 0.9],
  ];
}

/**
 * Text as a group of a drawing file: on one line, nothing in it a control code. `%%` begins one, so does `^`, and letters
 * beyond ASCII are written by their number.
 */
export function dxfText(text: string): string {
  const plain = printable(text)
    .replace(/\s+/g, ' ')
    .replace(/%{2,}/g, (signs) => '%%%'.repeat(signs.length))
    .replaceAll('\\', '\\U+005C')
    .replaceAll('^', '^ ');
  let out = '';
  for (let i = 0; i < plain.length; i++) {
    const code = plain.charCodeAt(i);
    out += code > 126 ? `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}` : plain[i];
  }
  return out;
}

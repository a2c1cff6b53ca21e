import { moved, turned } from '../../geometry/motion/motion.ts';
import type { Vector } from '../../geometry/surface/vector.ts';
import {
  type Flat,
  type Side,
  type Sight,
  type Standing,
  type Stroke,
  sightsInSteps,
} from '../../geometry/view/sight.ts';
import { patiently, type Steps } from '../../incremental/steps.ts';
import { type Box, boxOf } from '../../model/assembly/assembled.ts';
import { bodyName } from '../../model/assembly/body.ts';
import { plateBodies } from '../../model/assembly/joint-poses.ts';
import { swungBodies } from '../../model/assembly/lift.ts';
import { type Assembly, assemblyOf, type PlacedBody } from '../../model/assembly/pose.ts';
import { shapeOf } from '../../model/assembly/shape.ts';
import type { Model } from '../../model/spec.ts';
import type { JointModel } from '../../model/things/joint.ts';
import { type System, show } from '../../model/values/show.ts';
import { markup } from '../writers/escape.ts';

/*
 * The whole build as it stands together, from three sides, mm life-size, as an SVG. What nothing stiff joins stands in rows of its
 * own. Openings, rivets, wire and straps are not drawn.
 */

/** Each view by the directions that run right and up on the paper, and by the axes of the box that it shows. */
const VIEWS: readonly { readonly name: string; readonly side: Side; readonly across: 0 | 1; readonly upward: 1 | 2 }[] =
  [
    { name: 'front', side: { right: [-1, 0, 0], up: [0, 0, 1] }, across: 0, upward: 2 },
    { name: 'left side', side: { right: [0, -1, 0], up: [0, 0, 1] }, across: 1, upward: 2 },
    { name: 'top, front down', side: { right: [-1, 0, 0], up: [0, -1, 0] }, across: 0, upward: 1 },
  ];

const MARGIN = 10;
const GAP = 26;
const HEAD = 18;
const ROOM = 14;
const LINE = 6;

export interface ViewAsked {
  readonly title: string;
  readonly system: System;
  /** The pieces drawn out of each other. */
  readonly exploded?: boolean;
}

/** Nothing where no piece of the build has a shape. */
export function* assemblySvgInSteps(model: Model, asked: ViewAsked): Steps<string | undefined> {
  const assembly = yield* patiently(() => assemblyOf(model));
  const rows: Row[] = [];
  for (const { bodies } of assembly.groups) {
    const row = yield* rowOf(bodies, asked);
    if (row) rows.push(row);
  }
  if (!rows.length) return undefined;
  // A joint at both ends of its range.
  for (const joint of asked.exploded ? [] : model.joints()) {
    const range = joint.range() ?? joint.swing();
    const ends = range ? [range.from, range.to].filter((bend) => bend !== 0) : [];
    for (const bend of ends) {
      const bodies = yield* patiently(() => standingAt(joint, model, bend));
      const row = bodies && (yield* rowOf(bodies, asked, `${joint.name} at ${show(bend, 'deg', asked.system)}, `));
      if (row) rows.push(row);
    }
  }
  let top = MARGIN + HEAD;
  const drawn = rows.map((row) => {
    const made = `<g transform="translate(${MARGIN} ${round(top)})">${row.marks}</g>`;
    top += row.height;
    return made;
  });
  const notes = notesOf(assembly, asked);
  const words = notes.map(
    (note, i) => `<text x="${MARGIN}" y="${round(top + LINE * (i + 1))}" class="note">${markup(note)}</text>`,
  );
  const width = Math.max(...rows.map((row) => row.width), ...notes.map((note) => note.length * 2.3)) + 2 * MARGIN;
  const height = top + LINE * notes.length + MARGIN;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}mm" height="${round(height)}mm" viewBox="0 0 ${round(width)} ${round(height)}">
<title>${markup(asked.title)}</title>
<style>path{fill:none;stroke-linejoin:round;stroke-linecap:round}.edge{stroke:#123;stroke-width:.7}.hidden{stroke:#678;stroke-width:.35;stroke-dasharray:2.4 1.8}.line{stroke:#9ab;stroke-width:.3}.size{stroke:#a33;stroke-width:.3}text{font-family:sans-serif;font-size:5px;fill:#123}.title{font-size:6.5px;font-weight:bold}.name{font-size:4px;fill:#357;text-anchor:middle}.dimension{fill:#a33;text-anchor:middle}.note{font-size:4.4px;fill:#445}</style>
<rect width="100%" height="100%" fill="#fff"/>
<text x="${MARGIN}" y="12" class="title">${markup(asked.title)}</text>
${[...drawn, ...words].join('\n')}
</svg>
`;
}

/** A joint's plates by themselves; of what swings with all that it swings on. */
function standingAt(joint: JointModel, model: Model, bend: number): readonly PlacedBody[] | undefined {
  if (!joint.swing()) return plateBodies(joint, bend);
  const swung = swungBodies(joint, model, bend);
  return swung && [...swung.still, ...swung.turning];
}

function notesOf({ groups, unplaced }: Assembly, { exploded }: ViewAsked): string[] {
  const assumed = groups.flatMap(({ bodies }) =>
    bodies.flatMap(({ body, assumed: taken }) => (taken ? [`${bodyName(body)}: ${taken}.`] : [])),
  );
  return [
    `Life-size, at the faces of the plates.${exploded ? ' Drawn apart, each piece away from the middle of all.' : ''} Openings, rivets, wire and straps are not drawn.`,
    ...assumed,
    ...unplaced.map(({ piece, why }) => `Not drawn: ${piece.name}: ${why}.`),
  ];
}

interface Row {
  readonly width: number;
  readonly height: number;
  readonly marks: string;
}

function* rowOf(bodies: readonly PlacedBody[], asked: ViewAsked, told = ''): Steps<Row | undefined> {
  const box = yield* patiently(() => boxOf(bodies));
  if (!box) return undefined;
  const found = yield* patiently(() =>
    bodies.flatMap((placed) => {
      const standing = standingOf(placed);
      return standing ? [{ placed, standing }] : [];
    }),
  );
  const parted = asked.exploded
    ? partedAlong(found.map(({ standing }) => standing))
    : found.map(({ standing }) => standing);
  const names = found.map(({ placed }) => bodyName(placed.body));
  const named = new Set<number>();
  const panels: Panel[] = [];
  for (const view of VIEWS) {
    const sights = yield* sightsInSteps(parted, view.side);
    panels.push(
      panelOf({ ...view, name: `${told}${view.name}` }, sights, {
        names,
        named,
        ...(asked.exploded ? {} : { box, system: asked.system }),
      }),
    );
  }
  let left = 0;
  const marks = panels.map((panel) => {
    const made = `<g transform="translate(${round(left + ROOM)} 0)">${panel.marks}</g>`;
    left += panel.width + ROOM + GAP;
    return made;
  });
  return {
    width: left - GAP,
    height: Math.max(...panels.map((panel) => panel.height)) + GAP + LINE,
    marks: marks.join('\n'),
  };
}

/** A body's mesh where it stands; a mirrored one is turned inside out, so that its triangles look outward again. */
function standingOf({ body: { piece }, motion, mirrored }: PlacedBody): Standing | undefined {
  const shape = shapeOf(piece);
  if (!shape) return undefined;
  const each = (of: Float64Array, move: (at: Vector) => Vector) => {
    const out = new Float64Array(of.length);
    for (let i = 0; i < of.length; i += 3) out.set(move([mirrored ? -of[i]! : of[i]!, of[i + 1]!, of[i + 2]!]), i);
    return out;
  };
  return {
    positions: each(shape.positions, (at) => moved(motion, at)),
    normals: each(shape.normals, (way) => turned(motion, way)),
    triangles: mirrored ? shape.triangles.map((_, i, all) => all[i - (i % 3) + ((3 - (i % 3)) % 3)]!) : shape.triangles,
    edges: shape.edges,
    lines: shape.lines,
    thickness: piece.thickness() ?? 0,
  };
}

/** Each plate moved away from the middle of all, far enough that they no longer cover each other. */
function partedAlong(all: readonly Standing[]): Standing[] {
  const middles = all.map(({ positions }) => {
    const count = positions.length / 3 || 1;
    const sum: [number, number, number] = [0, 0, 0];
    for (let i = 0; i < positions.length; i++) sum[i % 3]! += positions[i]! / count;
    return sum;
  });
  const whole = [0, 1, 2].map((k) => middles.reduce((sum, each) => sum + each[k]! / middles.length, 0));
  return all.map((plate, i) => {
    const away = middles[i]!.map((x, k) => x - whole[k]!);
    return { ...plate, positions: plate.positions.map((x, k) => x + PARTED * away[k % 3]!) };
  });
}
/** Share of its way from the middle by which a plate is moved on. */
const PARTED = 1.2;

/** What is written beside the strokes: each name once, and the measures where the pieces stand together. */
interface Marked {
  readonly names: readonly string[];
  readonly named: Set<number>;
  readonly box?: Box;
  readonly system?: System;
}

interface Panel {
  readonly width: number;
  readonly height: number;
  readonly marks: string;
}

function panelOf(
  { name, across, upward }: (typeof VIEWS)[number],
  sights: readonly Sight[],
  { names, named, box, system }: Marked,
): Panel {
  const strokes = sights.flatMap(({ edges, hidden }) => [...edges, ...hidden]).flat();
  const ends = (of: 0 | 1): readonly [number, number] =>
    strokes.reduce(([least, most], point) => [Math.min(least, point[of]), Math.max(most, point[of])] as const, [
      Infinity,
      -Infinity,
    ] as const);
  const [x, y] = [ends(0), ends(1)];
  const [wide, high] = [x[1] - x[0], y[1] - y[0]];
  const at = ([px, py]: Flat) => `${round(px - x[0])} ${round(y[1] - py)}`;
  const path = (all: readonly Stroke[], kind: string) =>
    all.length ? `<path class="${kind}" d="${all.map((each) => `M${each.map(at).join('L')}`).join('')}"/>` : '';
  const all = (of: (sight: Sight) => readonly Stroke[], kind: string) => path(sights.flatMap(of), kind);
  const words = sights.flatMap(({ middle }, i) => {
    if (!middle || named.has(i)) return [];
    named.add(i);
    const [px, py] = at(middle).split(' ');
    return [`<text x="${px}" y="${py}" class="name">${markup(names[i]!)}</text>`];
  });
  const down = high + 8;
  const size = (k: 0 | 1 | 2) => (box && system ? show(box[k][1] - box[k][0], 'mm', system, { decimals: 1 }) : '');
  const sizes = !box
    ? []
    : [
        `<path class="size" d="M0 ${round(down)}L${round(wide)} ${round(down)}M0 ${round(down - 2)}L0 ${round(down + 2)}M${round(wide)} ${round(down - 2)}L${round(wide)} ${round(down + 2)}"/>`,
        `<text x="${round(wide / 2)}" y="${round(down + 6)}" class="dimension">${markup(size(across))}</text>`,
        `<path class="size" d="M-8 0L-8 ${round(high)}M-10 0L-6 0M-10 ${round(high)}L-6 ${round(high)}"/>`,
        `<text transform="translate(-10 ${round(high / 2)}) rotate(-90)" class="dimension">${markup(size(upward))}</text>`,
      ];
  return {
    width: wide,
    height: down + LINE,
    marks: `<text x="0" y="-4">${name}</text>${all(({ lines }) => lines, 'line')}${all(({ hidden }) => hidden, 'hidden')}${all(({ edges }) => edges, 'edge')}${words.join('')}${sizes.join('')}`,
  };
}

const round = (value: number) => Math.round(value * 100) / 100;

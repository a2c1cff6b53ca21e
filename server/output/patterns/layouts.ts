import type { Problem } from '../../checks/check.ts';
import type { Model } from '../../model/model.ts';
import { type System, showSize } from '../../model/show.ts';
import { atOnce, type Steps, share } from '../../model/steps.ts';
import type { LaidSheet, Placement } from '../../nest/lay.ts';
import { layOnHides } from '../../nest/on-hide.ts';
import type { Point } from '../../nest/shape.ts';
import { flattened } from '../../trade/outline/flatten.ts';
import { isOutline, type OutlineIn } from '../../trade/outline/import/outline-in.ts';
import { boxOfPath } from '../../trade/outline/measure.ts';
import type { Path, Vertex } from '../../trade/outline/path.ts';
import type { Material } from '../cut-list.ts';
import { cutListInSteps } from '../cut-list-of.ts';
import { dxfOfLaid } from './dxf.ts';
import { rectangle, turned, turnedPoint } from './paths.ts';
import type { Pattern, PatternLabel } from './pattern.ts';
import { patternsInSteps } from './patterns-of.ts';
import { type Plan, planInSteps } from './plan.ts';
import type { Laid } from './sheet.ts';
import { svgOfLaid } from './svg.ts';

/** What sheet layouts can be written as. */
export const LAYOUT_FORMATS = ['svg', 'dxf'] as const;
export type LayoutFormat = (typeof LAYOUT_FORMATS)[number];

/** One sheet or offcut with the patterns of its blanks where they are laid: what a cutter's table takes at once. */
export interface SheetLayout {
  /** `skull-plate-1`: the material and the number of its sheet. */
  readonly name: string;
  /** `skull-plate, sheet 1 of 2, 2500 × 1250 mm` */
  readonly title: string;
  readonly wide: number;
  readonly high: number;
  readonly laid: readonly Laid[];
}

export interface SheetLayouts {
  readonly title: string;
  readonly version: string;
  readonly file: string;
  readonly date: string;
  readonly sheets: readonly SheetLayout[];
  /** Blanks that lie on no sheet, and why. */
  readonly missing: readonly { readonly piece: string; readonly reason: string }[];
}

export interface LayoutOptions {
  readonly date: string;
  readonly problems: readonly Problem[];
  readonly kerf?: boolean;
}

/** The sheets of the cut list, with everything on them that is cut, drilled, bent or marked in the flat. */
export const layoutsOf = (model: Model, options: LayoutOptions): SheetLayouts => atOnce(layoutsInSteps(model, options));

/** The same, blank by blank. */
export function* layoutsInSteps(model: Model, options: LayoutOptions): Steps<SheetLayouts> {
  const patterns = yield* share(0, 0.4, patternsInSteps(model, { ...options, blanksOnly: true }));
  const byName = new Map(patterns.patterns.map((pattern) => [pattern.piece, pattern]));
  const units = model.units();
  const missing = [...patterns.missing];
  const list = yield* share(0.4, 0.8, cutListInSteps(model, options));
  const sheets: SheetLayout[] = [];
  for (const [done, material] of list.materials.entries()) {
    yield 0.8 + (0.2 * done) / list.materials.length;
    const { name, layout, rows } = material;
    if (!layout) {
      const drawn = model
        .materials()
        .find((each) => each.name === name)
        ?.hides()[0]?.drawn;
      if (drawn && isOutline(drawn)) sheets.push(...(yield* onHides(material, drawn, byName, missing, units)));
      else
        missing.push(
          ...rows.map(({ piece }) => ({ piece, reason: `the outline of a hide of “${name}” is not drawn` })),
        );
      continue;
    }
    missing.push(...layout.unplaced.map(({ blank, reason }) => ({ piece: blank, reason })));
    for (const sheet of layout.sheets) {
      const kind = sheet.from === 'offcut' ? 'offcut' : 'sheet';
      const title = `${name}, ${kind} ${sheet.number} of ${layout.sheets.length}, ${showSize(sheet.long, sheet.wide, units)}`;
      sheets.push({
        name: `${name}-${sheet.number}`,
        title,
        wide: sheet.long,
        high: sheet.wide + HEAD,
        laid: [
          edgeOf(sheet, [rectangle(0, 0, sheet.long, sheet.wide)], title),
          ...(yield* laidAll(sheet, sheet.placements, byName)),
        ],
      });
    }
  }
  const { title, version, file, date } = patterns;
  return { title, version, file, date, sheets, missing };
}

/** The same for leather whose hide is drawn. */
function* onHides(
  { name, rows, stock }: Material,
  { outer, openings }: OutlineIn,
  byName: ReadonlyMap<string, Pattern>,
  missing: { piece: string; reason: string }[],
  units: System,
): Steps<SheetLayout[]> {
  const { right: long, top: wide } = boxOfPath(outer);
  const rings = [outer, ...openings].map((path) => flattened(path, 0.5).map(({ x, y }): Point => [x, wide - y]));
  const { hides, unplaced } = layOnHides(
    rows.map((row) => ({ ...row, copies: row.total })),
    { shape: { long, wide, rings }, margin: stock.margin, kerf: stock.kerf },
  );
  for (const [piece, copies] of unplaced)
    missing.push({ piece, reason: `${copies} of them go on no hide of “${name}”` });
  const sheets: SheetLayout[] = [];
  for (const [i, placements] of hides.entries()) {
    const title = `${name}, hide ${i + 1} of ${hides.length}, ${showSize(long, wide, units)}`;
    sheets.push({
      name: `${name}-${i + 1}`,
      title,
      wide: long,
      high: wide + HEAD,
      laid: [
        edgeOf({ long, wide, number: i + 1 }, [outer, ...openings], title),
        ...(yield* laidAll({ wide }, placements, byName)),
      ],
    });
  }
  return sheets;
}

function* laidAll(
  sheet: Pick<LaidSheet, 'wide'>,
  placements: readonly Placement[],
  byName: ReadonlyMap<string, Pattern>,
): Steps<Laid[]> {
  const laid: Laid[] = [];
  for (const placement of placements) {
    yield undefined;
    const pattern = byName.get(placement.blank);
    if (pattern) laid.push(yield* laidOn(sheet, placement, pattern));
  }
  return laid;
}

export const writeLayout = (layouts: SheetLayouts, sheet: SheetLayout, to: LayoutFormat): Steps<string> =>
  to === 'dxf'
    ? dxfOfLaid(sheet.laid)
    : svgOfLaid({ ...sheet, ...head(layouts), title: `${layouts.title}: ${sheet.title}` });

const head = ({ file, version, date }: SheetLayouts) => ({ file, version, date });

/** Room above a sheet for its title, mm, and the height of its type. */
const HEAD = 20;
const TITLE = 10;

function edgeOf(
  { long, wide, number }: Pick<LaidSheet, 'long' | 'wide' | 'number'>,
  edges: readonly [Path, ...Path[]],
  title: string,
): Laid {
  const pattern: Pattern = {
    piece: `sheet ${number}`,
    count: 1,
    turned: 0,
    material: '',
    size: '',
    notes: [],
    lines: edges.map((path) => ({ kind: 'sheet', path })),
    labels: [],
  };
  const plan: Plan = {
    pattern,
    wide: long,
    high: wide,
    outline: edges[0],
    strokes: edges.map((path) => ({ kind: 'sheet', layer: 'note', path })),
    texts: [{ text: title, x: 0, y: wide + TITLE / 2, anchor: 'start', size: TITLE, turn: 0, bold: true }],
  };
  return { plan, x: 0, y: 0 };
}

/** y counts up from the sheet's lower edge; a placement's down from its upper one. */
function* laidOn(sheet: Pick<LaidSheet, 'wide'>, placement: Placement, pattern: Pattern): Steps<Laid> {
  const seen = placement.flipped ? mirrored(pattern) : pattern;
  const inside = `${pattern.piece} ${placement.copy}${placement.flipped ? ', face down' : ''}`;
  const plan = yield* planInSteps(placement.turned ? quarterTurned(seen) : seen, { inside });
  const { left, right, bottom, top } = boxOfPath(plan.outline);
  // In its middle: an outline that is moved aside of the kerf is larger than its blank.
  const [aside, above] = [(placement.long - (right - left)) / 2, (placement.wide - (top - bottom)) / 2];
  return { plan, x: placement.x + aside - left, y: sheet.wide - placement.y - placement.wide + above - bottom };
}

function quarterTurned(pattern: Pattern): Pattern {
  return moved(
    pattern,
    (path) => turned(path, 90),
    (label) =>
      'along' in label ? { ...label, along: turned(label.along, 90) } : { ...label, ...turnedPoint(label, 90) },
  );
}

/** As it lies face down: what turned right turns left. */
function mirrored(pattern: Pattern): Pattern {
  return moved(pattern, mirror, (label) =>
    'along' in label
      ? { ...label, along: mirror(label.along), side: label.side === 'left' ? 'right' : 'left' }
      : { ...label, x: -label.x },
  );
}

const mirror = ({ vertices, closed }: Path): Path => ({
  vertices: vertices.map(({ x, y, bulge }): Vertex => (bulge ? { x: -x, y, bulge: -bulge } : { x: -x, y })),
  closed,
});

const moved = (
  { grain: _, ...pattern }: Pattern,
  path: (path: Path) => Path,
  label: (label: PatternLabel) => PatternLabel,
): Pattern => ({
  ...pattern,
  lines: pattern.lines.map((each) => ({ ...each, path: path(each.path) })),
  labels: pattern.labels.map(label),
});

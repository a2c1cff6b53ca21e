import type { Problem } from '../../../checks/check.ts';
import { isOutline, type OutlineIn } from '../../../geometry/drawings/outline-in.ts';
import { flattened } from '../../../geometry/outline/chords.ts';
import { boxOfPath } from '../../../geometry/outline/measure.ts';
import type { Path, Vertex } from '../../../geometry/outline/path.ts';
import { atOnce, manyByMany, type Steps, share } from '../../../incremental/steps.ts';
import type { Model } from '../../../model/spec.ts';
import { type System, showSize } from '../../../model/values/show.ts';
import type { LaidSheet, Placement } from '../../../nest/lay.ts';
import { layOnHides } from '../../../nest/on-hide.ts';
import type { Point } from '../../../nest/shape.ts';
import { dxfOfLaid } from '../../writers/dxf.ts';
import { svgOfLaid } from '../../writers/svg.ts';
import type { Material } from '../cut-list.ts';
import { cutListInSteps } from '../cut-list-of.ts';
import { kerfNote, lostNote } from './kerf.ts';
import { rectangle, turned, turnedPoint } from './paths.ts';
import type { Pattern, PatternLabel } from './pattern.ts';
import { patternsInSteps } from './patterns-of.ts';
import { type Plan, planInSteps, type Text, wrapped } from './plan.ts';
import type { Laid } from './sheet.ts';

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
  readonly units: System;
  readonly sheets: readonly SheetLayout[];
  /** Blanks that lie on no sheet, and why. */
  readonly missing: readonly { readonly piece: string; readonly reason: string }[];
}

export interface LayoutOptions {
  readonly date: string;
  readonly problems: readonly Problem[];
  readonly kerf?: boolean;
}

/**
 * The sheets of the cut list, with everything on them that is cut, drilled, bent or marked in the flat.
 *
 * @tests in one go: who may not wait asks for the steps
 */
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
      if (drawn && isOutline(drawn))
        sheets.push(...(yield* onHides(material, drawn, byName, missing, units, options.kerf)));
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
      const notes = options.kerf ? kerfNotes(material, sheet.placements, byName, units) : [];
      const edges = [rectangle(0, 0, sheet.long, sheet.wide)] as const;
      sheets.push(yield* sheetOf({ ...sheet, name, title, notes }, edges, sheet.placements, byName));
    }
  }
  const { title, version, file, date } = patterns;
  return { title, version, file, date, units, sheets, missing };
}

/** The same for leather whose hide is drawn. */
function* onHides(
  material: Material,
  { outer, openings }: OutlineIn,
  byName: ReadonlyMap<string, Pattern>,
  missing: { piece: string; reason: string }[],
  units: System,
  kerf = false,
): Steps<SheetLayout[]> {
  const { name, rows, stock } = material;
  const { right: long, top: wide } = boxOfPath(outer);
  const rings = [outer, ...openings].map((path) => flattened(path, 0.5).map(({ x, y }): Point => [x, wide - y]));
  const { hides, unplaced, cannot } = yield* layOnHides(
    rows.map((row) => ({ ...row, copies: row.total })),
    { shape: { long, wide, rings }, margin: stock.margin, kerf: stock.kerf },
  );
  for (const [piece, copies] of unplaced)
    missing.push({
      piece,
      reason: cannot
        ? `the edge of the hide of “${name}” is too finely drawn to be kept clear of: draw it with fewer points`
        : `${copies} of them go on no hide of “${name}”`,
    });
  const sheets: SheetLayout[] = [];
  for (const [i, placements] of hides.entries()) {
    const title = `${name}, hide ${i + 1} of ${hides.length}, ${showSize(long, wide, units)}`;
    const notes = kerf ? kerfNotes(material, placements, byName, units) : [];
    const hide = { long, wide, number: i + 1, name, title, notes };
    sheets.push(yield* sheetOf(hide, [outer, ...openings], placements, byName));
  }
  return sheets;
}

/** Where the lines on a sheet lie, and what they leave out. */
function kerfNotes(
  { stock }: Material,
  placements: readonly Placement[],
  byName: ReadonlyMap<string, Pattern>,
  units: System,
): string[] {
  const lost = [...new Set(placements.map(({ blank }) => blank))].flatMap((blank) => {
    const count = byName.get(blank)?.lostToKerf;
    return count ? [`${blank}: ${lostNote(count)}`] : [];
  });
  return [kerfNote(stock.kerf, units), ...lost];
}

/** Of the title above a sheet and of the notes beneath it, the height of the type and that of a line, mm. */
const TITLE = { size: 10, line: 20 };
const NOTE = { size: 5, line: 8 };

interface Sheet extends Pick<LaidSheet, 'long' | 'wide' | 'number'> {
  /** Of its material. */
  readonly name: string;
  readonly title: string;
  readonly notes: readonly string[];
}

/** A sheet with its edges, what lies on it, and what is said above it. */
function* sheetOf(
  { name, title, notes, long, wide, number }: Sheet,
  edges: readonly [Path, ...Path[]],
  placements: readonly Placement[],
  byName: ReadonlyMap<string, Pattern>,
): Steps<SheetLayout> {
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
  const lines = wrapped(notes, NOTE.size, long);
  const above = wide + lines.length * NOTE.line;
  const plan: Plan = {
    pattern,
    wide: long,
    high: wide,
    outline: edges[0],
    strokes: edges.map((path) => ({ kind: 'sheet', layer: 'note', path })),
    texts: [
      { text: title, x: 0, y: above + TITLE.size / 2, anchor: 'start', size: TITLE.size, turn: 0, bold: true },
      ...lines.map(({ text, size, bold }, i): Text => {
        return { text, x: 0, y: above - (i + 1) * NOTE.line + size / 2, anchor: 'start', size, turn: 0, bold };
      }),
    ],
  };
  const laid: Laid[] = [{ plan, x: 0, y: 0 }];
  for (const placement of placements) {
    yield undefined;
    const pattern = byName.get(placement.blank);
    if (pattern) laid.push(yield* laidOn({ wide }, placement, pattern));
  }
  return { name: `${name}-${number}`, title, wide: long, high: above + TITLE.line, laid };
}

export const writeLayout = (layouts: SheetLayouts, sheet: SheetLayout, to: LayoutFormat): Steps<string> =>
  to === 'dxf'
    ? dxfOfLaid(sheet.laid)
    : svgOfLaid({ ...sheet, ...head(layouts), title: `${layouts.title}: ${sheet.title}` });

const head = ({ file, version, date, units }: SheetLayouts) => ({ file, version, date, units });

/** y counts up from the sheet's lower edge; a placement's down from its upper one. */
function* laidOn(sheet: Pick<LaidSheet, 'wide'>, placement: Placement, pattern: Pattern): Steps<Laid> {
  const seen = placement.flipped ? yield* mirrored(pattern) : pattern;
  const inside = `${pattern.piece} ${placement.copy}${placement.flipped ? ', face down' : ''}`;
  const plan = yield* planInSteps(placement.turned ? yield* quarterTurned(seen) : seen, { inside });
  const { left, right, bottom, top } = boxOfPath(plan.outline);
  // In its middle: an outline that is moved aside of the kerf is larger than its blank.
  const [aside, above] = [(placement.long - (right - left)) / 2, (placement.wide - (top - bottom)) / 2];
  return { plan, x: placement.x + aside - left, y: sheet.wide - placement.y - placement.wide + above - bottom };
}

function quarterTurned(pattern: Pattern): Steps<Pattern> {
  return moved(
    pattern,
    (path) => turned(path, 90),
    (label) =>
      'along' in label ? { ...label, along: turned(label.along, 90) } : { ...label, ...turnedPoint(label, 90) },
  );
}

/** As it lies face down: what turned right turns left. */
function mirrored(pattern: Pattern): Steps<Pattern> {
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

function* moved(
  { grain: _, ...pattern }: Pattern,
  path: (path: Path) => Path,
  label: (label: PatternLabel) => PatternLabel,
): Steps<Pattern> {
  return {
    ...pattern,
    lines: yield* manyByMany(pattern.lines, (each) => ({ ...each, path: path(each.path) })),
    labels: yield* manyByMany(pattern.labels, label),
  };
}

import type { Steps } from '../../../incremental/steps.ts';
import { straps } from '../../../model/figures/build.ts';
import { jointLeathers, type LeatherUse } from '../../../model/figures/joint-hardware.ts';
import type { LineReading } from '../../../model/names/line-reading.ts';
import type { Model } from '../../../model/spec.ts';
import type { SeamModel } from '../../../model/things/seam.ts';
import { inUnits } from '../../../model/values/prose.ts';
import { show, showSize } from '../../../model/values/show.ts';
import { type StrapLayout, strapLayout } from '../../../trade/leather/strap.ts';
import { circle, line, rectangle, slot } from './paths.ts';
import type { Pattern, PatternLabel, PatternLine } from './pattern.ts';

/** What a strap is called on every paper. */
export function strapName(seam: SeamModel, strap: LineReading): string {
  const straps = seam.lines.filter(({ id }) => id === 'strap').map(({ line }) => line);
  return straps.length > 1 ? `${seam.name}, strap ${straps.indexOf(strap.line) + 1}` : `${seam.name}, strap`;
}

/** The patterns of a build's straps, and those that have none. */
export function* strapPatterns(
  model: Model,
): Steps<{ patterns: Pattern[]; missing: { piece: string; reason: string }[] }> {
  const patterns: Pattern[] = [];
  const missing: { piece: string; reason: string }[] = [];
  for (const { seam, line } of straps(model)) {
    yield undefined;
    const piece = strapName(seam, line);
    const made = strapPattern(piece, line, model);
    if (typeof made === 'string') missing.push({ piece, reason: made });
    else patterns.push(made);
  }
  for (const use of jointLeathers(model)) {
    yield undefined;
    const made = leatherPattern(use, model);
    if (typeof made === 'string') missing.push({ piece: use.name, reason: made });
    else patterns.push(made);
  }
  return { patterns, missing };
}

/** An inner leather of a joint, its upper end to the left, its rivets down the middle. */
function leatherPattern({ name, leather, long, stations, perBuild }: LeatherUse, model: Model): Pattern | string {
  const { material, wide, rivet } = leather;
  if (!material) return 'its leather is not known';
  if (!long || wide === undefined) return 'how long it is is not known, since how the joint moves is not';
  const shank = rivet?.size()?.shank;
  return {
    piece: name,
    count: perBuild,
    turned: 0,
    material: material.title(),
    size: showSize(long.value, wide, model.units()),
    notes: [`${inUnits(long.source, model.units())}.`],
    lines: [
      { kind: 'outline', path: rectangle(0, 0, long.value, wide) },
      ...(shank === undefined
        ? []
        : stations.map((x): PatternLine => ({ kind: 'hole', path: circle({ x, y: wide / 2 }, shank / 2) }))),
    ],
    labels: [{ what: 'end', text: 'top', x: (stations[0] ?? 0) / 2, y: wide / 2, clear: 0 }],
  };
}

function strapPattern(piece: string, strap: LineReading, model: Model): Pattern | string {
  const units = model.units();
  const named = strap.named('material');
  const material = named?.kind === 'material' ? model.materialOf(named) : undefined;
  if (!material) return 'its leather is not known';
  const [long, wide] = [strap.length('long', 'long'), strap.length('wide', 'wide')];
  if (!(long && long > 0) || !(wide && wide > 0)) return 'a strap needs `wide` and `long` to be cut';
  const buckle = strap.named('part', 'buckle');
  const layout = buckle ? strapLayout({ long, wide }) : undefined;
  const notes = layout
    ? [
        `Folded ${show(layout.turned.value, 'mm', units)} round the bar of “${buckle!.word.text}”, the slot for its tongue in the fold; ${layout.holes.value} ${layout.holes.value === 1 ? 'hole' : 'holes'} ${show(layout.pitch.value, 'mm', units)} apart.`,
        `${inUnits(layout.holes.source, units)}.`,
      ]
    : buckle
      ? [`Too short to lay out the fold at “${buckle.word.text}” and its holes: set them out on the piece.`]
      : [];
  return {
    piece,
    count: strap.has('count') ? (strap.count('count', 'count') ?? 1) : 1,
    turned: 0,
    material: material.title(),
    size: showSize(long, wide, units),
    notes,
    lines: [{ kind: 'outline', path: rectangle(0, 0, long, wide) }, ...(layout ? linesOf(layout, long, wide) : [])],
    labels: layout ? labelsOf(layout, long, wide, buckle!.word.text) : [],
  };
}

/** The buckle to the left. */
function linesOf(layout: StrapLayout, long: number, wide: number): PatternLine[] {
  const fold = layout.turned.value;
  const middle = wide / 2;
  return [
    { kind: 'fold', path: line({ x: fold, y: 0 }, { x: fold, y: wide }) },
    { kind: 'opening', path: slot({ x: fold, y: middle }, layout.slot.value, layout.slotWide.value) },
    ...Array.from({ length: layout.holes.value }, (_, i): PatternLine => {
      const x = long - layout.first.value - i * layout.pitch.value;
      return { kind: 'hole', path: circle({ x, y: middle }, layout.hole.value / 2) };
    }),
  ];
}

function labelsOf(layout: StrapLayout, long: number, wide: number, buckle: string): PatternLabel[] {
  return [
    { what: 'end', text: buckle, x: layout.turned.value / 2, y: wide / 2, clear: 0 },
    { what: 'end', text: 'tip', x: long - layout.first.value / 2, y: wide / 2, clear: 0 },
  ];
}

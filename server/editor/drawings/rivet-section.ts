import { say } from '../../../l10n/say.ts';
import type { SeamModel, Stack } from '../../model/things/seam.ts';
import { shown } from '../../model/values/figure.ts';
import { type System, show } from '../../model/values/show.ts';
import { formedHead, holeFor, rivetHead } from '../../trade/rivet/rivet.ts';
import { FASTENER, label, line, METAL, polygon, type Sketch, SOFT, shape } from './svg.ts';

const HIGH = 96;
const WIDE = 330;
const MIDDLE = 62;
const HALF = 52;
const ROW = 14;

interface Part {
  readonly name: string;
  readonly thickness: number;
  readonly fill: string;
  readonly opacity: number;
}

/** A cut through the middle of one rivet: the layers at their thickness, the bought and the formed head, outside up. */
export function rivetSection(seam: SeamModel, stack: Stack, system: System): Sketch | undefined {
  const rivet = seam.rivet();
  const size = rivet?.size();
  if (!rivet || !size || !(size.shank > 0) || !stack.total) return undefined;
  const parts = partsOf(stack);
  const total = parts.reduce((sum, part) => sum + part.thickness, 0);
  if (!(total > 0) || !Number.isFinite(total)) return undefined;
  const bought = rivetHead(rivet.head(), size.shank);
  const formed = formedHead(seam.head(), size.shank);
  const sunk = { bought: rivet.head() === 'countersunk', formed: seam.head() === 'flush' };
  const [top, bottom] = seam.headInside() ? [formed, bought] : [bought, formed];
  const [topSunk, bottomSunk] = seam.headInside() ? [sunk.formed, sunk.bought] : [sunk.bought, sunk.formed];
  const above = topSunk ? 0 : top.height.value;
  const below = bottomSunk ? 0 : bottom.height.value;
  const widest = Math.max(top.diameter.value, bottom.diameter.value, size.shank);
  const scale = Math.min(HIGH / (above + total + below), (2 * HALF - 16) / widest);
  const y0 = 16 + above * scale;
  const marks: string[] = [];
  let y = y0;
  const hole = (Math.max(holeFor(size.shank).value, size.shank) / 2) * scale;
  const centres: number[] = [];
  for (const part of parts) {
    const high = part.thickness * scale;
    for (const side of [-1, 1])
      marks.push(
        polygon(
          [
            [MIDDLE + side * hole, y],
            [MIDDLE + side * HALF, y],
            [MIDDLE + side * HALF, y + high],
            [MIDDLE + side * hole, y + high],
          ],
          part.fill,
          part.opacity,
        ),
      );
    centres.push(y + high / 2);
    y += high;
  }
  const shank = (size.shank / 2) * scale;
  marks.push(
    polygon(
      [
        [MIDDLE - shank, y0],
        [MIDDLE + shank, y0],
        [MIDDLE + shank, y],
        [MIDDLE - shank, y],
      ],
      FASTENER,
      0.6,
    ),
    head(y0, -1, (top.diameter.value / 2) * scale, top.height.value * scale, shank, topSunk, isRound(seam, true)),
    head(
      y,
      1,
      (bottom.diameter.value / 2) * scale,
      bottom.height.value * scale,
      shank,
      bottomSunk,
      isRound(seam, false),
    ),
  );
  const x = MIDDLE + HALF + 26;
  const texts = parts.map((part) => `${part.name} ${show(part.thickness, 'mm', system)}`);
  // Thin layers lie closer than their labels can: those spread out, and thin lines lead to them.
  let at = Math.max(24, (centres[0] ?? 0) - ((texts.length - 1) * ROW) / 4);
  texts.forEach((text, i) => {
    at = Math.max(at, centres[i]!);
    marks.push(line(MIDDLE + HALF + 2, centres[i]!, x - 4, at), label(x, at + 4, text));
    at += ROW;
  });
  const needed = stack.needed;
  const foot = Math.max(y + below * scale + 14, at + 4);
  marks.push(label(MIDDLE, 11, 'outside', 'middle'));
  marks.push(
    label(
      x,
      Math.max(at + 6, foot - 2),
      needed
        ? say`rivet needs ${shown({ ...needed, shape: {} }, system, false)}, has ${show(size.length, 'mm', system)}`
        : rivet.name,
    ),
  );
  return {
    width: WIDE,
    height: Math.max(foot, at + 12),
    description: say`Section through a rivet, from outside: ${texts.join(', ')}`,
    marks,
  };
}

function partsOf(stack: Stack): Part[] {
  let metals = 0;
  const parts = stack.layers.flatMap((layer): Part[] => {
    const opacity = layer.soft || metals++ % 2 === 0 ? 0.5 : 0.25;
    const part = { thickness: layer.thickness?.value ?? 0, fill: layer.soft ? SOFT : METAL, opacity };
    return Array.from({ length: layer.times }, (_, i) => ({ ...part, name: i ? `hem of ${layer.name}` : layer.name }));
  });
  if (stack.washer) {
    const washer = { name: 'washer', thickness: stack.washer.thickness, fill: FASTENER, opacity: 0.3 };
    if (stack.washer.side === 'outside') parts.unshift(washer);
    else parts.push(washer);
  }
  return parts;
}

const isRound = (seam: SeamModel, atTop: boolean): boolean =>
  atTop === seam.headInside() ? seam.head() === 'domed' : ['domed', 'pan'].includes(seam.rivet()?.head() ?? '');

/** One head: `way` −1 upward, 1 downward. A sunk head lies within the layers and narrows to the shank. */
function head(
  y: number,
  way: -1 | 1,
  half: number,
  high: number,
  shank: number,
  sunk: boolean,
  round: boolean,
): string {
  if (sunk)
    return shape(
      `M ${MIDDLE - half} ${y} L ${MIDDLE + half} ${y} L ${MIDDLE + shank} ${y - way * high} L ${MIDDLE - shank} ${y - way * high} Z`,
      FASTENER,
      0.6,
    );
  const end = y + way * high;
  if (!round) return shape(`M ${MIDDLE - half} ${y} H ${MIDDLE + half} V ${end} H ${MIDDLE - half} Z`, FASTENER, 0.6);
  const radius = (half * half + high * high) / (2 * high);
  return shape(
    `M ${MIDDLE - half} ${y} A ${radius} ${radius} 0 0 ${way < 0 ? 1 : 0} ${MIDDLE + half} ${y} Z`,
    FASTENER,
    0.6,
  );
}

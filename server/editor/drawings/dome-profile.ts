import { say } from '../../../l10n/say.ts';
import type { PieceModel } from '../../model/things/piece.ts';
import { type System, show } from '../../model/values/show.ts';
import { label, line, METAL, polygon, type Sketch } from './svg.ts';

const WIDE = 240;
const HIGH = 120;
const STEPS = 24;

/** A cut through the crown of a dome, along its long axis: its curve, and the thickness that forming leaves at crown and rim. */
export function domeProfile(piece: PieceModel, system: System): Sketch | undefined {
  const domed = piece.domed();
  if (!domed) return undefined;
  const wide = Math.max(domed.long, domed.wide);
  const { deep } = domed;
  if (!(wide > 0 && deep > 0) || !Number.isFinite(wide + deep)) return undefined;
  const scale = Math.min(WIDE / wide, HIGH / deep);
  const crown = piece.figure('thickness.crown');
  const edge = piece.figure('thickness.edge');
  // Real sheet is a hair at this scale: the thickness is drawn larger, crown and rim alike, so that the difference shows.
  const start = piece.thickness() ?? 0;
  const larger = start > 0 ? 4 / start : 0;
  const atCrown = (crown?.value ?? start) * larger;
  const atEdge = (edge?.value ?? start) * larger;
  const left = 14;
  const top = 22;
  const at = (x: number, y: number): readonly [number, number] => [
    left + (wide / 2 + x) * scale,
    top + (deep - y) * scale,
  ];
  const outer: (readonly [number, number])[] = [];
  const inner: (readonly [number, number])[] = [];
  for (let i = -STEPS; i <= STEPS; i++) {
    const { x, y, nx, ny } = pointOn(wide / 2, deep, i / STEPS);
    const [px, py] = at(x, y);
    const half = (atCrown + (atEdge - atCrown) * Math.abs(i / STEPS)) / 2;
    outer.push([px + nx * half, py - ny * half]);
    inner.push([px - nx * half, py + ny * half]);
  }
  const right = left + wide * scale;
  const rim = top + deep * scale;
  const says = {
    crown: crown ? `crown ${show(crown.value, 'mm', system, crown.shape)}` : '',
    edge: edge ? say`rim ${show(edge.value, 'mm', system, edge.shape)}` : '',
    deep: say`deep ${show(deep, 'mm', system)}`,
    wide: show(wide, 'mm', system),
  };
  const marks = [
    line(left, rim, right, rim, true),
    polygon([...outer, ...inner.reverse()], METAL),
    label((left + right) / 2, 11, says.crown, 'middle'),
    label(right + 10, rim, says.edge),
    label((left + right) / 2, rim - 6, says.deep, 'middle'),
    label((left + right) / 2, rim + 14, says.wide, 'middle'),
  ];
  return {
    width: right + 92,
    height: rim + 20,
    description: say`Section of the dome: ${[says.wide, says.deep, says.crown, says.edge].filter(Boolean).join(', ')}; thickness drawn larger`,
    marks,
  };
}

/** A point and its outward normal at `t` of the way from crown (0) to rim (±1): a spherical cap, or half an ellipse where deeper. */
function pointOn(a: number, h: number, t: number): { x: number; y: number; nx: number; ny: number } {
  if (h <= a) {
    const radius = (a * a + h * h) / (2 * h);
    const angle = t * Math.asin(Math.min(1, a / radius));
    return {
      x: radius * Math.sin(angle),
      y: h - radius + radius * Math.cos(angle),
      nx: Math.sin(angle),
      ny: Math.cos(angle),
    };
  }
  const angle = (t * Math.PI) / 2;
  const [nx, ny] = [h * Math.sin(angle), a * Math.cos(angle)];
  const long = Math.hypot(nx, ny);
  return { x: a * Math.sin(angle), y: h * Math.cos(angle), nx: nx / long, ny: ny / long };
}

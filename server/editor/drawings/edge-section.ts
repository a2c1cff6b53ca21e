import { say } from '../../../l10n/say.ts';
import type { EdgeWork } from '../../model/things/edge-work.ts';
import { type System, show } from '../../model/values/show.ts';
import { allowanceBeyondFinished, hemAllowance, standsBeyond, USUAL_TURN } from '../../trade/edge/edge.ts';
import { circle, FASTENER, label, line, METAL, type Sketch, shape } from './svg.ts';

/** The sheet comes from the left; on its right it is turned: round a wire or a hollow, or flat upon itself. */
export function edgeSection(work: EdgeWork, thickness: number | undefined, system: System): Sketch | undefined {
  if (!thickness || !(thickness > 0) || !Number.isFinite(thickness)) return undefined;
  if (work.kind === 'rolled' && work.hollow) return rolled(work, work.hollow, thickness, system);
  if (work.kind === 'hemmed' && work.hem) return hemmed(work.hem, thickness, system);
  return undefined;
}

const SIZE = 84;
const LEFT = 8;
const TOP = 12;

function rolled(work: EdgeWork, hollow: number, thickness: number, system: System): Sketch {
  const outer = hollow / 2 + thickness;
  const scale = SIZE / (2 * outer);
  const [ro, ri] = [outer * scale, (hollow / 2) * scale];
  const [cx, cy] = [LEFT + 78, TOP + ro];
  const bottom = cy + ro;
  const end = ((90 - USUAL_TURN) * Math.PI) / 180;
  // From straight below, where the roll begins, round on the right and over the top.
  const at = (r: number, angle: number) => `${cx + r * Math.cos(angle)} ${cy + r * Math.sin(angle)}`;
  const marks = [
    shape(
      `M ${LEFT} ${bottom} L ${cx} ${bottom} A ${ro} ${ro} 0 1 0 ${at(ro, end)} L ${at(ri, end)} A ${ri} ${ri} 0 1 1 ${cx} ${cy + ri} L ${LEFT} ${cy + ri} Z`,
      METAL,
    ),
    ...(work.wire ? [circle(cx, cy, Math.max(0, ri - 1), FASTENER, 0.5)] : []),
    line(cx, TOP - 8, cx, bottom + 8, true),
    line(cx + ro, TOP - 8, cx + ro, bottom + 8, true),
  ];
  const x = cx + ro + 14;
  const stands = standsBeyond({ hollow, thickness }).value;
  const beyond = allowanceBeyondFinished({ hollow, thickness }).value;
  const texts = [
    `${work.wire ? 'wire' : 'hollow'} ${show(hollow, 'mm', system)}`,
    say`sheet ${show(thickness, 'mm', system)}`,
    say`stands ${show(stands, 'mm', system)} beyond the line`,
    say`leave ${show(beyond, 'mm', system)} beyond the edge`,
  ];
  marks.push(...texts.map((text, i) => label(x, TOP + 12 + i * 18, text)));
  return {
    width: x + 186,
    height: bottom + 12,
    description: say`Section of the rolled edge: ${texts.join(', ')}`,
    marks,
  };
}

function hemmed(hem: { width: number; double: boolean }, thickness: number, system: System): Sketch {
  const layers = hem.double ? 3 : 2;
  const scale = Math.min(90 / hem.width, 46 / (layers * thickness));
  const [wide, high] = [hem.width * scale, thickness * scale];
  const right = LEFT + 60 + wide;
  const bottom = TOP + layers * high;
  const sheet = (from: number, to: number, level: number) =>
    shape(`M ${from} ${bottom - level * high} H ${to} v ${-high} H ${from} Z`, METAL, level % 2 ? 0.25 : 0.5);
  const marks = [
    sheet(LEFT, right, 0),
    ...Array.from({ length: layers - 1 }, (_, i) => sheet(right - wide, right, i + 1)),
    line(right - wide, bottom + 4, right - wide, bottom + 12),
    line(right, bottom + 4, right, bottom + 12),
    line(right - wide, bottom + 8, right, bottom + 8),
  ];
  const allowance = hemAllowance({ width: hem.width, thickness, kind: hem.double ? 'double' : 'single' }).value;
  const texts = [
    `${hem.double ? 'double hem' : 'hem'} ${show(hem.width, 'mm', system)}`,
    say`leave ${show(allowance, 'mm', system)}`,
  ];
  marks.push(...texts.map((text, i) => label(right + 14, TOP + 12 + i * 18, text)));
  return {
    width: right + 130,
    height: Math.max(bottom + 16, TOP + 40),
    description: say`Section of the hem: ${texts.join(', ')}`,
    marks,
  };
}

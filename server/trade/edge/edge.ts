import { say } from '../../../l10n/say.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

/** How far a roll is closed round its wire or hollow unless it is said: three quarters, degrees. Source: common practice (no source). */
export const USUAL_TURN = 270;

/**
 * Metal (mm) to leave beyond the line where the roll begins (the tangent line), for an edge rolled round an empty hollow.
 *
 * `hollow` is the inside diameter, mm; `turned` how far it is closed, degrees. Range: 0 < turned ≤ 360.
 * Source: length at the middle of the thickness (derived).
 */
export function rolledAllowance({
  hollow,
  thickness,
  turned = USUAL_TURN,
}: {
  hollow: number;
  thickness: number;
  turned?: number;
}): Result {
  return reckon({
    value: (turned / 360) * Math.PI * (hollow + thickness),
    unit: 'mm',
    formula: 'a = {θ}/360 × π × ({d|mm} + {t|mm})',
    symbols: { θ: turned, d: hollow, t: thickness },
    basis: 'geometry',
    source: 'Middle of the thickness round the hollow, from the tangent line (derived)',
    outside: firstOf(
      rollOutside('the hollow', hollow, thickness, turned),
      when(hollow < 2 * thickness, 'a roll tighter than twice the thickness inside will not close without a wire'),
    ),
    note: say`Measured from the line where the roll begins; the finished edge stands ${plain(reach(hollow, thickness, turned))} mm beyond that line.`,
  });
}

/**
 * Metal (mm) to leave beyond the tangent line for an edge rolled over a wire of the given diameter, mm.
 *
 * Range: 0 < turned ≤ 360. Source: length at the middle of the thickness (derived). The tinplate rule of 2.5 wire
 * diameters is for thin sheet: the note says what it would give.
 */
export function wiredAllowance({
  wire,
  thickness,
  turned = USUAL_TURN,
}: {
  wire: number;
  thickness: number;
  turned?: number;
}): Result {
  const value = (turned / 360) * Math.PI * (wire + thickness);
  const rule = TINPLATE * wire;
  const short = Math.round((1 - rule / value) * 100);
  const compared =
    turned === USUAL_TURN && short > 0
      ? say` The tinplate rule of 2.5 wire diameters gives ${plain(rule)} mm, ${short} % short.`
      : '';
  return reckon({
    value,
    unit: 'mm',
    formula: 'a = {θ}/360 × π × ({d|mm} + {t|mm})',
    symbols: { θ: turned, d: wire, t: thickness },
    basis: 'geometry',
    source: 'Middle of the thickness round the wire, from the tangent line (derived)',
    outside: rollOutside('the wire', wire, thickness, turned),
    note: say`Measured from the line where the roll begins; the finished edge stands ${plain(reach(wire, thickness, turned))} mm beyond that line.${compared}`,
  });
}

/**
 * The tinsmiths' allowance for a wired edge (mm): two and a half wire diameters.
 * Range: tinplate and sheet of about 0.5 mm; short by a fifth to a third on armour plate. Source: US Navy Steelworker, vol. 2.
 *
 * @tests the old rule that allowances are held beside
 */
export function tinplateRule(wire: number): Result {
  return reckon({
    value: TINPLATE * wire,
    unit: 'mm',
    formula: 'a = 2.5 × {d|mm}',
    symbols: { d: wire },
    basis: 'published',
    source: 'US Navy Steelworker, vol. 2: wire allowance of 2.5 diameters',
    outside: notAboveNothing('the wire', wire),
    note: 'For tinplate. On 1.2 to 1.5 mm plate it is 20 to 35 % short.',
  });
}

/**
 * How far (mm) a rolled or wired edge stands beyond the line where its roll begins: what the finished piece grows by.
 * Range: as {@link rolledAllowance}. Source: geometry.
 */
export function standsBeyond({
  hollow,
  thickness,
  turned = USUAL_TURN,
}: {
  hollow: number;
  thickness: number;
  turned?: number;
}): Result {
  return reckon({
    value: reach(hollow, thickness, turned),
    unit: 'mm',
    formula: turned >= 90 ? 'g = {d|mm}/2 + {t|mm}' : 'g = ({d|mm}/2 + {t|mm}) × sin {θ}°',
    symbols: { d: hollow, t: thickness, θ: turned },
    basis: 'geometry',
    source: 'Outside of the roll beyond its tangent line (derived)',
    outside: rollOutside('the hollow', hollow, thickness, turned),
  });
}

/**
 * Metal (mm) that a rolled or wired edge needs beyond the FINISHED outer edge: the allowance less what the roll stands out.
 * Range: as {@link rolledAllowance}. Source: derived.
 */
export function allowanceBeyondFinished({
  hollow,
  thickness,
  turned = USUAL_TURN,
}: {
  hollow: number;
  thickness: number;
  turned?: number;
}): Result {
  return reckon({
    value: (turned / 360) * Math.PI * (hollow + thickness) - reach(hollow, thickness, turned),
    unit: 'mm',
    formula: 'a = {θ}/360 × π × ({d|mm} + {t|mm}) − {g|mm}',
    symbols: { θ: turned, d: hollow, t: thickness, g: reach(hollow, thickness, turned) },
    basis: 'geometry',
    source: 'Allowance from the tangent line less what the roll stands beyond it (derived)',
    outside: rollOutside('the hollow', hollow, thickness, turned),
  });
}

/**
 * Metal (mm) to leave beyond the finished edge for a hem folded flat: its width once (`single`) or twice (`double`).
 *
 * The low end is the geometry of a closed fold in thicker sheet, which takes a little less. Range: width above nothing.
 * Source: US Navy Steelworker, vol. 2; the low end derived with the neutral line at 0.4 of the thickness.
 */
export function hemAllowance({
  width,
  thickness,
  kind,
}: {
  width: number;
  thickness: number;
  kind: 'single' | 'double';
}): Result {
  const folds = kind === 'double' ? 2 : 1;
  // Folding takes two thicknesses off the length beyond the edge and puts back the neutral line of a half turn.
  const saved = (2 - Math.PI * FOLD_FACTOR) * thickness;
  const value = folds * width;
  return reckon({
    value,
    low: Math.max(0, folds * (width - saved)),
    high: value,
    unit: 'mm',
    formula: kind === 'double' ? 'a = 2 × {W|mm}' : 'a = {W|mm}',
    symbols: { W: width },
    basis: 'published',
    source: 'US Navy Steelworker, vol. 2: hem allowances',
    outside: firstOf(
      notAboveNothing('the hem’s width', width),
      notAboveNothing('the thickness', thickness),
      when(width < 2 * thickness, 'a hem narrower than twice the thickness cannot be folded'),
    ),
    note: say`In thick sheet a closed fold takes ${plain(saved)} mm less a fold: W − 0.74 t (derived).`,
  });
}

/**
 * Wire (mm) for a wired edge of the given length at the middle of the plate's thickness, mm.
 *
 * The wire lies outside the plate if the edge is rolled `outward`, inside if inward; round a `closed` edge its way is longer
 * or shorter by 2π times its distance. `turns` says how far an open edge goes round, degrees: 0 for a straight one.
 * Range: the inward wire must leave something. Source: parallel of a convex line (derived).
 */
export function wireLengthAlong({
  edgeLength,
  wire,
  thickness,
  outward,
  closed,
  turns = closed ? 360 : 0,
}: {
  edgeLength: number;
  wire: number;
  thickness: number;
  outward: boolean;
  closed: boolean;
  turns?: number;
}): Result {
  const sign = outward ? 1 : -1;
  const value = edgeLength + sign * (turns / 360) * Math.PI * (wire + thickness);
  return reckon({
    value,
    unit: 'mm',
    formula: outward ? 'L = {E|mm} + {θ}/360 × π × ({d|mm} + {t|mm})' : 'L = {E|mm} − {θ}/360 × π × ({d|mm} + {t|mm})',
    symbols: { E: edgeLength, θ: turns, d: wire, t: thickness },
    basis: 'geometry',
    source: 'Middle of the wire, half a wire and half a thickness off the edge line (derived)',
    outside: firstOf(
      notAboveNothing('the edge’s length', edgeLength),
      notAboveNothing('the wire', wire),
      notAtLeastNothing('the thickness', thickness),
      when(!Number.isFinite(turns), 'the angle the edge goes round is not a number'),
      when(value <= 0, 'the wire does not fit inside so small an edge'),
    ),
    note: closed ? 'Butt the ends, or add for a scarf.' : 'Add what the ends are dressed back by.',
  });
}

/**
 * True strain of the lip of a roll on a curved edge, where it stands farthest out (or, rolled inward, farthest in).
 *
 * `hollow` is the inside diameter of the roll, `radius` the edge's own in plan, mm. Below nothing where it shrinks.
 * Range: a roll that leaves something inside. Source: way round at the middle of the lip's thickness (derived).
 */
export function rollStrain({
  hollow,
  thickness,
  radius,
  outward,
}: {
  hollow: number;
  thickness: number;
  radius: number;
  outward: boolean;
}): Result {
  const share = ((outward ? 1 : -1) * (hollow + thickness)) / radius;
  return reckon({
    value: Math.log1p(share),
    unit: 'ratio',
    formula: outward ? 'ε = ln(1 + ({d|mm} + {t|mm})/{R|mm})' : 'ε = ln(1 − ({d|mm} + {t|mm})/{R|mm})',
    symbols: { d: hollow, t: thickness, R: radius },
    basis: 'geometry',
    source: 'Way round the lip before and after rolling (derived)',
    outside: firstOf(
      notAboveNothing('the hollow', hollow),
      notAboveNothing('the thickness', thickness),
      notAboveNothing('the edge’s radius', radius),
      when(share <= -1, 'the roll does not fit inside so small an edge'),
    ),
    note: Number.isFinite(share)
      ? say`${plain(share * 100)} % along the lip. Over 15 % it splits or folds (common practice, no source).`
      : undefined,
  });
}

const TINPLATE = 2.5;

/** Neutral line of a fold closed flat, share of the thickness (common practice, no source). */
const FOLD_FACTOR = 0.4;

function reach(hollow: number, thickness: number, turned: number): number {
  const outer = hollow / 2 + thickness;
  return turned >= 90 ? outer : outer * Math.sin((turned * Math.PI) / 180);
}

/**
 * How many times stiffer a rolled or wired edge is than the same metal left flat: bending out of the plate, second moments
 * of area beside each other. The value lets the wire slide in its roll, the high end takes both for one.
 *
 * Range: as {@link rolledAllowance}; a wire of the plate's own metal. Source: second moments of an arc, b·t³/12 and π·d⁴/64.
 */
export function rollStiffness({
  hollow,
  thickness,
  turned = USUAL_TURN,
  wired,
}: {
  hollow: number;
  thickness: number;
  turned?: number;
  wired: boolean;
}): Result {
  const r = (hollow + thickness) / 2;
  const turn = (turned * Math.PI) / 180;
  const roll = r ** 3 * thickness * (turn / 2 + Math.sin(2 * turn) / 4 - Math.sin(turn) ** 2 / turn);
  const wire = wired ? (Math.PI / 64) * hollow ** 4 : 0;
  const flat = (r * turn * thickness ** 3) / 12;
  const areas = [r * turn * thickness, wired ? (Math.PI / 4) * hollow ** 2 : 0] as const;
  // From the middle of the wire to that of the roll round it.
  const between = (r * Math.sin(turn)) / turn;
  const joined = ((areas[0] * areas[1]) / (areas[0] + areas[1])) * between ** 2;
  const value = (roll + wire) / flat;
  return reckon({
    value,
    ...(wired ? { low: value, high: (roll + wire + joined) / flat } : {}),
    unit: 'ratio',
    formula: wired
      ? 'k = ({r|mm}³ × {t|mm} × ({φ}/2 + sin(2 × {φ})/4 − sin²({φ})/{φ}) + π × {d|mm}⁴/64) ÷ ({r|mm} × {φ} × {t|mm}³/12)'
      : 'k = {r|mm}³ × {t|mm} × ({φ}/2 + sin(2 × {φ})/4 − sin²({φ})/{φ}) ÷ ({r|mm} × {φ} × {t|mm}³/12)',
    symbols: { r, t: thickness, φ: turn, d: hollow },
    basis: 'geometry',
    source: 'Second moment of area of the roll beside that of the same strip left flat (derived)',
    outside: rollOutside(wired ? 'the wire' : 'the hollow', hollow, thickness, turned),
    note: wired
      ? 'The wire slides in its roll; at the high end it is held fast. A wire of another metal counts as if it were the plate’s.'
      : undefined,
  });
}

function rollOutside(what: string, hollow: number, thickness: number, turned: number): string | undefined {
  return firstOf(
    notAboveNothing(what, hollow),
    notAboveNothing('the thickness', thickness),
    when(!(turned > 0 && turned <= 360), 'an edge is rolled through more than 0 and at most 360°'),
  );
}

import { say } from '../../../l10n/say.ts';
import { firstOf, notAboveNothing, notAtLeastNothing, reckon, when } from '../reckoning/reckon.ts';
import { plain, type Result } from '../reckoning/result.ts';

/** Heads as bought. */
export type BoughtHead = 'domed' | 'flat' | 'pan' | 'countersunk' | 'tinners';

/** Heads as formed by the smith on the other end. */
export type FormedHead = 'domed' | 'flat' | 'flush';

/**
 * Diameter and height (mm) of a bought head for a shank (mm).
 *
 * Within its table a size is read between rows; beyond it, the end row's proportions are kept and the note says so.
 * Source: domed DIN 660, countersunk DIN 661, flat and pan ASME B18.1.1; tinners from memory of ASME B18.1.1.
 */
export function rivetHead(style: BoughtHead, shank: number): { diameter: Result; height: Result } {
  const table = headTable(style, shank);
  const outside = notAboveNothing('the shank', shank);
  const row = rowAt(table, shank);
  const named = { unit: 'mm', basis: 'published', source: table.source, outside } as const;
  const note = [row.scaled ? 'Beyond the table: the proportions of its end row.' : undefined, table.note]
    .filter(Boolean)
    .join(' ');
  return {
    diameter: reckon({
      ...named,
      value: row.diameter,
      low: row.diameter - row.diameterSpread,
      high: row.diameter + row.diameterSpread,
      formula: 'A = {a} × {D|mm}',
      symbols: { a: row.diameter / shank, D: shank },
      note: note || undefined,
    }),
    height: reckon({
      ...named,
      value: row.height,
      low: row.height - row.heightSpread,
      high: row.height + row.heightSpread,
      formula: 'H = {k} × {D|mm}',
      symbols: { k: row.height / shank, D: shank },
      note: note || undefined,
    }),
  };
}

/**
 * Diameter, height (mm) and volume (mm³) of a head formed by hand on a shank (mm).
 *
 * Domed and flush take the proportions of the bought heads of DIN 660 and 661, flat those of the aircraft shop head.
 * For `flush` the volume is that of the whole sink. Range: shank above nothing.
 */
export function formedHead(style: FormedHead, shank: number): { diameter: Result; height: Result; volume: Result } {
  const shape = FORMED[style];
  const outside = notAboveNothing('the shank', shank);
  const diameter = shape.wide * shank;
  const height = shape.high * shank;
  const named = { basis: 'published', source: shape.source, outside } as const;
  return {
    diameter: reckon({
      ...named,
      value: diameter,
      unit: 'mm',
      formula: `A = ${shape.wide} × {D}`,
      symbols: { D: shank },
    }),
    height: reckon({ ...named, value: height, unit: 'mm', formula: `H = ${shape.high} × {D}`, symbols: { D: shank } }),
    volume: reckon({
      value: shape.volume(diameter, height, shank),
      unit: 'mm3',
      formula: shape.formula,
      symbols: { A: diameter, H: height, D: shank },
      basis: 'geometry',
      source: shape.solid,
      outside,
    }),
  };
}

/**
 * Hole (mm) for a rivet shank (mm).
 *
 * A shank of a whole number of 32nds of an inch, within a hundredth of a millimetre, gets the published drill; any other
 * the metric clearance. Range: 1 to 10 mm. A pivot that must turn wants 0.1 to 0.2 mm and an unswollen shank.
 * Source: FAA handbook drills and the WWII repair manual (inch, partly from memory); DIN practice (metric, from memory).
 */
export function holeFor(shank: number): Result {
  const outside = firstOf(
    notAboveNothing('the shank', shank),
    when(shank < 1 || shank > 10, 'the clearance table covers shanks of 1 to 10 mm'),
  );
  const drill = rivetDrills.find((one) => Math.abs(one.shank - shank) <= 0.01);
  if (drill !== undefined) {
    return reckon({
      value: drill.hole,
      low: Math.min(drill.least, drill.hole),
      high: Math.max(drill.most, drill.hole),
      unit: 'mm',
      formula: 'hole = {drill} in × 25.4',
      symbols: { drill: Number((drill.hole / 25.4).toFixed(4)) },
      basis: 'published',
      source: drill.source,
      outside,
      note: say`Drill ${drill.name}.`,
    });
  }
  const clear = clearanceAt(shank);
  return reckon({
    value: shank + clear.value,
    low: shank + clear.low,
    high: shank + clear.high,
    unit: 'mm',
    formula: 'hole = {D|mm} + {c|mm}',
    symbols: { D: shank, c: clear.value },
    basis: 'published',
    source:
      'DIN practice for rivet holes: 0.1 to 0.2 mm over the shank to 4 mm, 0.3 to 6 mm, 0.4 at 8 mm (from memory)',
    outside,
  });
}

/**
 * The metric drill (mm, in tenths) for a rivet hole (mm): the next up.
 * Range: above nothing. Source: drills are sold in steps of a tenth (common practice, no source).
 */
export function drillFor(hole: Result): Result {
  return reckon({
    value: Math.ceil(hole.value * 10 - 1e-6) / 10,
    unit: 'mm',
    formula: 'drill = {hole}, up to the next tenth',
    symbols: { hole: hole.value },
    basis: 'common practice',
    source: 'Metric drills are sold in steps of a tenth: common practice (no source)',
    outside: hole.outside,
    note: [
      hole.note,
      'Drill through both plates held together, or drill one and mark the other through it; deburr the back. Within three thicknesses of an edge of hard steel drill, do not punch (common practice, no source).',
    ]
      .filter(Boolean)
      .join(' '),
  });
}

/**
 * Outside diameter (mm) of the washer or burr on leather, for a shank (mm).
 * Range: 2.2 to 2.5 shanks. Source: common practice (no source).
 */
export function burrDiameter(shank: number): Result {
  return reckon({
    value: 2.35 * shank,
    low: 2.2 * shank,
    high: 2.5 * shank,
    unit: 'mm',
    formula: 'A = 2.35 × {D|mm}',
    symbols: { D: shank },
    basis: 'common practice',
    source: 'A burr is 2.2 to 2.5 shanks across: common practice (no source)',
    outside: notAboveNothing('the shank', shank),
    note: 'Its hole is the shank’s. Cut the shank to leave 0.5 to 0.75 D above the burr, then peen.',
  });
}

/**
 * Least distance (mm) from a rivet's middle to the edge of leather, for a shank (mm). The rule is handed on as “three shanks
 * or ten millimetres”, and read both ways: the value is the greater, the low end the lesser of the two.
 * Range: leather. Source: common practice (no source).
 */
export function softEdgeDistance(shank: number): Result {
  return reckon({
    value: Math.max(3 * shank, 10),
    low: Math.min(3 * shank, 10),
    high: Math.max(3 * shank, 10),
    unit: 'mm',
    formula: 'e = 3 × {D|mm}, and at least 10 mm',
    symbols: { D: shank },
    basis: 'common practice',
    source: 'Leather tears out sooner than plate: 3 D or 10 mm, whichever is read, common practice (no source)',
    outside: notAboveNothing('the shank', shank),
  });
}

/**
 * Length of shank (mm) that fills the hole and makes the head: the volumes reckoned.
 *
 * `stack` is everything the shank passes through AFTER forming, mm; for a flush head the sink lies within it. The value
 * is for a shank that swells until the hole is full; the low end for one that does not swell at all.
 * Range: hole not smaller than the shank; for flush, a stack thicker than the sink. Source: volume constancy (derived).
 */
export function rivetLengthByVolume({
  stack,
  shank,
  hole,
  head,
}: {
  stack: number;
  shank: number;
  hole: number;
  head: FormedHead;
}): Result {
  const formed = formedHead(head, shank);
  const headShank = formed.volume.value / ((Math.PI / 4) * shank * shank);
  const sink = head === 'flush' ? formed.height.value : 0;
  const swell = (hole / shank) ** 2;
  const value = (stack - sink) * swell + headShank;
  return reckon({
    value,
    low: stack - sink + headShank,
    high: value,
    unit: 'mm',
    formula:
      head === 'flush'
        ? 'L = ({G|mm} − {k|mm}) × ({dh|mm}/{D|mm})² + {V|mm³}/(π/4 × {D|mm}²)'
        : 'L = {G|mm} × ({dh|mm}/{D|mm})² + {V|mm³}/(π/4 × {D|mm}²)',
    symbols: { G: stack, k: sink, dh: hole, D: shank, V: formed.volume.value },
    basis: 'geometry',
    source: 'Volume of the hole and of the head (derived); low: the shank does not swell in the hole',
    outside: firstOf(
      notAtLeastNothing('the stack', stack),
      notAboveNothing('the shank', shank),
      notAboveNothing('the hole', hole),
      when(hole < shank, 'the hole is smaller than the shank'),
      when(stack < sink, 'the stack is thinner than the sink of the flush head'),
    ),
    note: say`The head alone takes ${plain(headShank / shank)} shank diameters. Aircraft practice for all sizes is stack + 1.5 D: ${plain(stack + LENGTH_RULE * shank)} mm.`,
  });
}

/**
 * Length of shank (mm) by the aircraft rule: the stack and one and a half diameters.
 * Range: aluminium aircraft rivets with flat shop heads; long for domed heads. Source: NAVEDTRA 14018.
 */
export function rivetLengthByRule({ stack, shank }: { stack: number; shank: number }): Result {
  return reckon({
    value: stack + LENGTH_RULE * shank,
    unit: 'mm',
    formula: 'L = {G|mm} + 1.5 × {D|mm}',
    symbols: { G: stack, D: shank },
    basis: 'published',
    source: 'NAVEDTRA 14018 (US Navy): grip + 1.5 diameters',
    outside: firstOf(notAtLeastNothing('the stack', stack), notAboveNothing('the shank', shank)),
    note: 'Two Army manuals print half a diameter: a lost “1”, not another rule.',
  });
}

/**
 * Distances (mm) between rivets of a row, centre to centre, for a shank (mm).
 * Range: aircraft layout; armour is often set wider. Source: NAVEDTRA 14018; a trade journal for 10 D.
 */
export function pitchLimits(shank: number): { least: Result; usual: Result; most: Result } {
  const named = {
    unit: 'mm',
    symbols: { D: shank },
    basis: 'published',
    source: 'NAVEDTRA 14018 (US Navy): at least 3 D, usually 4 to 8 D',
    outside: notAboveNothing('the shank', shank),
  } as const;
  return {
    least: reckon({ ...named, value: 3 * shank, formula: 'p = 3 × {D|mm}' }),
    usual: reckon({ ...named, value: 6 * shank, low: 4 * shank, high: 8 * shank, formula: 'p = 6 × {D|mm}' }),
    most: reckon({
      ...named,
      value: 8 * shank,
      low: 8 * shank,
      high: 10 * shank,
      formula: 'p = 8 × {D|mm}',
      note: 'An aircraft trade journal allows 10 D.',
    }),
  };
}

/**
 * Distances (mm) from a rivet's centre to the plate's edge, for a shank (mm).
 * Range: a single row. Source: FAA AC 43.13-1B; 2.5 D preferred, from memory.
 */
export function edgeDistance(shank: number): { least: Result; most: Result } {
  const named = {
    unit: 'mm',
    symbols: { D: shank },
    basis: 'published',
    source: 'FAA AC 43.13-1B: at least 2 D, at most 4 D',
    outside: notAboveNothing('the shank', shank),
  } as const;
  return {
    least: reckon({
      ...named,
      value: 2 * shank,
      low: 2 * shank,
      high: 2.5 * shank,
      formula: 'e = 2 × {D|mm}',
      note: '2.5 D is preferred (from memory).',
    }),
    most: reckon({ ...named, value: 4 * shank, formula: 'e = 4 × {D|mm}' }),
  };
}

/**
 * Depth (mm) of the sink for a countersunk or flush head of a shank (mm).
 * Range: cut the sink to the rivet: 75° for DIN 661, 90° for ASME, 100° for aircraft. Source: DIN 661, of inch sizes ASME B18.1.1.
 */
export function countersinkDepth(shank: number): Result {
  const { height } = rivetHead('countersunk', shank);
  return reckon({
    value: height.value,
    unit: 'mm',
    formula: 'k = {k} × {D|mm}',
    symbols: { k: height.value / shank, D: shank },
    basis: 'published',
    source: headTable('countersunk', shank).source,
    outside: height.outside,
    note: 'The sink’s angle is the rivet’s: about 75° for DIN 661, 90° for ASME, 100° for aircraft, 60° for old British.',
  });
}

/**
 * Thinnest plate (mm) into which a flush head of a shank (mm) may be sunk.
 *
 * The head may just reach through (low); good is half way through (high). Range and source: FAA AC 65-15A; depth by DIN 661, of inch sizes by ASME B18.1.1.
 */
export function flushLeastThickness(shank: number): Result {
  const depth = countersinkDepth(shank);
  return reckon({
    value: depth.value,
    low: depth.value,
    high: 2 * depth.value,
    unit: 'mm',
    formula: 't = {k|mm}',
    symbols: { k: depth.value },
    basis: 'published',
    source: say`FAA AC 65-15A: sink only plate thicker than the head, half way through by preference; head by ${headTable('countersunk', shank).source}`,
    outside: depth.outside,
    note: 'A head that reaches the far side costs about a fifth of the strength (MIL-HDBK-5F). Dimple thinner plate.',
  });
}

/**
 * Shank (mm) for a sheet of the given thickness, mm: from once to three times as thick.
 * Range: thickest sheet of the joint; aircraft practice. Source: FAA AC 43.13-1B (three times); NAVEDTRA 14018 (once to three times).
 *
 * @tests the rule of thumb that checks of too thick and too thin rivets lie round
 */
export function diameterForSheet(thickness: number): Result {
  return reckon({
    value: 3 * thickness,
    low: thickness,
    high: 3 * thickness,
    unit: 'mm',
    formula: 'D = 3 × {t|mm}',
    symbols: { t: thickness },
    basis: 'published',
    source: 'FAA AC 43.13-1B: about three times the sheet; NAVEDTRA 14018: once to three times',
    outside: notAboveNothing('the thickness', thickness),
  });
}

export interface JointStrength {
  /** Rivet shorn through. */
  readonly shear: Result;
  /** Plate crushed behind the rivet. */
  readonly bearing: Result;
  /** Plate torn across, from hole to hole. */
  readonly tearing: Result;
  /** Rivet torn out through the edge. */
  readonly shearOut: Result;
  /** The least of the four. */
  readonly governing: Result;
}

/**
 * What one rivet of a lap joint carries, N, in single shear, and which way it fails first.
 *
 * `thickness` of each plate, mm; `tensile` of the plates, MPa, one for all or one each; `shear` of the rivet, MPa; `pitch`,
 * `edge` (hole centre to edge) and `hole` in mm. `bearing` and `plateShear` default to 2 and 0.6 of the plate's tensile.
 * Range: sound holes, no bending of thin plates. A figure to compare by, never a promise of protection.
 * Source: textbook joint formulas; bearing 1.6 to 2 of the tensile after FAA AC 43.13-1B; 0.6 from memory.
 */
export function jointStrength({
  shank,
  thickness,
  tensile,
  shear,
  pitch,
  edge,
  hole,
  bearing,
  plateShear,
}: {
  shank: number;
  thickness: readonly number[];
  tensile: number | readonly number[];
  shear: number;
  pitch: number;
  edge: number;
  hole: number;
  bearing?: number;
  plateShear?: number;
}): JointStrength {
  const strengthOf = (index: number) => (typeof tensile === 'number' ? tensile : (tensile[index] ?? Number.NaN));
  // The plate that is weakest by thickness times strength governs all three of the plate's failures.
  let thin = thickness[0] ?? Number.NaN;
  let strength = strengthOf(0);
  thickness.forEach((t, index) => {
    if (t * strengthOf(index) < thin * strength) [thin, strength] = [t, strengthOf(index)];
  });
  const crush = bearing ?? 2 * strength;
  const slide = plateShear ?? 0.6 * strength;
  const outside = firstOf(
    notAboveNothing('the shank', shank),
    when(thickness.length === 0, 'a joint needs plates'),
    ...thickness.map((t) => notAboveNothing('a plate’s thickness', t)),
    notAboveNothing('the plates’ tensile strength', strength),
    notAboveNothing('the rivet’s shear strength', shear),
    notAboveNothing('the hole', hole),
    when(!(pitch > hole), 'the holes run into each other'),
    when(!(edge > hole / 2), 'the hole breaks out of the edge'),
    when(!(Number.isFinite(pitch) && Number.isFinite(edge)), 'the pitch or the edge distance is not a number'),
  );
  const named = {
    unit: 'N',
    basis: 'published',
    source: 'Textbook formulas of riveted joints, single shear',
    outside,
  } as const;
  const failures = {
    shear: reckon({
      ...named,
      value: (Math.PI / 4) * shank * shank * shear,
      formula: 'P = π/4 × {D}² × {τ}',
      symbols: { D: shank, τ: shear },
    }),
    bearing: reckon({
      ...named,
      value: shank * thin * crush,
      low: bearing === undefined ? shank * thin * 1.6 * strength : undefined,
      high: bearing === undefined ? shank * thin * crush : undefined,
      formula: 'P = {D} × {t} × {σ}',
      symbols: { D: shank, t: thin, σ: crush },
      note: 'Bearing strength 1.6 to 2 times the plate’s tensile (FAA AC 43.13-1B).',
    }),
    tearing: reckon({
      ...named,
      value: (pitch - hole) * thin * strength,
      formula: 'P = ({p} − {dh}) × {t} × {Su}',
      symbols: { p: pitch, dh: hole, t: thin, Su: strength },
    }),
    shearOut: reckon({
      ...named,
      value: 2 * (edge - hole / 2) * thin * slide,
      formula: 'P = 2 × ({e} − {dh}/2) × {t} × {τ}',
      symbols: { e: edge, dh: hole, t: thin, τ: slide },
      note: 'Shear strength of the plate 0.6 of its tensile (from memory).',
    }),
  };
  const words: Readonly<Record<keyof typeof failures, string>> = {
    shear: 'the rivet shears',
    bearing: 'the plate crushes behind the rivet',
    tearing: 'the plate tears from hole to hole',
    shearOut: 'the rivet tears out through the edge',
  };
  const ways = Object.keys(failures) as (keyof typeof failures)[];
  const first = ways.reduce((least, way) => (failures[way].value < failures[least].value ? way : least));
  return {
    ...failures,
    governing: reckon({
      ...named,
      value: failures[first].value,
      low: Math.min(...ways.map((way) => failures[way].low ?? failures[way].value)),
      high: failures[first].value,
      formula: 'P = least of {shear}, {bearing}, {tearing}, {edge}',
      symbols: {
        shear: failures.shear.value,
        bearing: failures.bearing.value,
        tearing: failures.tearing.value,
        edge: failures.shearOut.value,
      },
      note: say`First, ${words[first]}. It carries ${plain((100 * failures[first].value) / (pitch * thin * strength))} % of the whole plate.`,
    }),
  };
}

/**
 * Mass (g) of a rivet as bought: shank and head. `shank` and `length` in mm, density in g/cm³.
 *
 * Length as catalogues measure it: under a raised head, over all with a countersunk one. Range: above nothing; pan and
 * tinners' heads are reckoned as plain discs, up to a sixth too much for the head. Source: geometry of the head tables.
 */
export function rivetMass({
  shank,
  length,
  head,
  density,
}: {
  shank: number;
  length: number;
  head: BoughtHead;
  density: number;
}): Result {
  const { diameter, height } = rivetHead(head, shank);
  const shaft = head === 'countersunk' ? Math.max(0, length - height.value) : length;
  const volume = headVolume(head, diameter.value, height.value, shank);
  return reckon({
    value: (((Math.PI / 4) * shank * shank * shaft + volume) * density) / 1000,
    unit: 'g',
    formula: 'm = (π/4 × {D}² × {L} + {V}) × {ρ} ÷ 1000',
    symbols: { D: shank, L: shaft, V: volume, ρ: density },
    basis: 'geometry',
    source: say`Shank and head; head by ${headTable(head, shank).source}`,
    outside: firstOf(
      notAboveNothing('the shank', shank),
      notAtLeastNothing('the length', length),
      notAtLeastNothing('the density', density),
    ),
  });
}

/** Lengths (mm) in which rivets are stocked. Source: see {@link lengthLadders}. */
export function standardLengths(system: 'in' | 'mm'): readonly number[] {
  return lengthLadders[system].lengths;
}

/** The shortest stocked length (mm) that is not shorter than needed (mm), or undefined if none is, or it is not a number. */
export function nearestLengthUp(needed: number, system: 'in' | 'mm'): number | undefined {
  // A thousandth of a millimetre of slack, so that 5/16 in needed does not ask for 3/8 over a rounding.
  return standardLengths(system).find((length) => length >= needed - 0.001);
}

/** The ladders of stocked lengths, mm. */
export const lengthLadders: Readonly<Record<'in' | 'mm', { source: string; lengths: readonly number[] }>> = {
  in: {
    source: 'Sixteenths of an inch from 1/8 to 2 in, as small solid rivets are catalogued: common practice (no source)',
    lengths: Array.from({ length: 31 }, (_, index) => ((index + 2) * 25.4) / 16),
  },
  mm: {
    source: 'Length steps of DIN 660 (from memory)',
    lengths: [2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 45, 50],
  },
};

/** Drills for inch rivets; shank and hole in mm. */
const rivetDrills: readonly {
  readonly shank: number;
  readonly name: string;
  readonly hole: number;
  readonly least: number;
  readonly most: number;
  readonly source: string;
}[] = [
  inchDrill(1 / 16, '#52', 0.0635, 0.0635, 0.067, 'a WWII aircraft repair manual; the range from memory'),
  inchDrill(
    3 / 32,
    '#40',
    0.098,
    0.093,
    0.103,
    'FAA handbook (from memory); range MIL-R-47196A; a WWII repair manual drills #41',
  ),
  inchDrill(1 / 8, '#30', 0.1285, 0.1285, 0.1285, 'a WWII aircraft repair manual; FAA handbook (from memory) agrees'),
  inchDrill(5 / 32, '#21', 0.159, 0.159, 0.161, 'FAA handbook (from memory)'),
  inchDrill(3 / 16, '#11', 0.191, 0.189, 0.191, 'FAA handbook (from memory); a WWII repair manual drills #12'),
  inchDrill(1 / 4, 'F', 0.257, 0.25, 0.257, 'FAA handbook (from memory); a WWII repair manual drills 1/4'),
];

interface HeadRow {
  readonly shank: number;
  readonly diameter: number;
  readonly diameterSpread: number;
  readonly height: number;
  readonly heightSpread: number;
}

interface HeadTable {
  readonly source: string;
  readonly note?: string;
  readonly rows: readonly [HeadRow, ...HeadRow[]];
}

/** The shanks and head diameters that DIN 660 and DIN 661 share, mm. */
const METRIC_HEADS: readonly (readonly [number, number])[] = [
  [1.6, 2.8],
  [2, 3.5],
  [2.5, 4.4],
  [3, 5.2],
  [3.5, 6.2],
  [4, 7],
  [5, 8.8],
  [6, 10.5],
  [7, 12.2],
  [8, 14],
];

/** The tables of bought heads, mm. The spread is half of what the standard allows between least and most. */
const heads: Readonly<Record<BoughtHead, HeadTable>> = {
  domed: {
    source: 'DIN 660, round head',
    note: 'ASME B18.1.1 button heads are as wide and 0.75 D high.',
    rows: metricRows([1.0, 1.2, 1.5, 1.8, 2.1, 2.4, 3.0, 3.6, 4.2, 4.8]),
  },
  countersunk: {
    source: 'DIN 661, countersunk head',
    note: 'About 75° between the flanks. ASME B18.1.1 heads are 90° and about 0.43 D deep.',
    rows: metricRows([0.8, 1.0, 1.2, 1.4, 1.8, 2.0, 2.5, 3.0, 3.5, 4.0]),
  },
  flat: {
    source: 'ASME B18.1.1, flat head',
    rows: [
      inchRow(3 / 32, [0.2, 0.18], [0.038, 0.026]),
      inchRow(1 / 8, [0.26, 0.24], [0.048, 0.036]),
      inchRow(5 / 32, [0.323, 0.301], [0.059, 0.045]),
      inchRow(3 / 16, [0.387, 0.361], [0.069, 0.055]),
      inchRow(1 / 4, [0.515, 0.485], [0.091, 0.075]),
    ],
  },
  pan: {
    source: 'ASME B18.1.1, pan head',
    rows: [
      inchRow(3 / 32, [0.173, 0.153], [0.06, 0.048]),
      inchRow(1 / 8, [0.225, 0.205], [0.078, 0.066]),
      inchRow(5 / 32, [0.279, 0.257], [0.096, 0.082]),
      inchRow(3 / 16, [0.334, 0.308], [0.114, 0.1]),
      inchRow(1 / 4, [0.444, 0.414], [0.151, 0.135]),
    ],
  },
  tinners: {
    source: 'ASME B18.1.1, tinners’ head, 2.25 D wide and 0.3 D high (from memory)',
    note: 'Tinners’ rivets are named by the weight of a thousand: 1 lb is about 2.8 mm, 2 lb 3.7 mm (from memory).',
    rows: [{ shank: 2.8, diameter: 2.8 * 2.25, diameterSpread: 0.25, height: 2.8 * 0.3, heightSpread: 0.15 }],
  },
};

/** Heads of ASME B18.1.1 in the sizes in which rivets are sold by the inch: most and least, converted to mm. */
export const asmeHeads = {
  button: [
    inchRow(3 / 32, [0.182, 0.162], [0.077, 0.065]),
    inchRow(1 / 8, [0.235, 0.215], [0.1, 0.088]),
    inchRow(5 / 32, [0.29, 0.268], [0.124, 0.11]),
    inchRow(3 / 16, [0.348, 0.322], [0.147, 0.133]),
    inchRow(1 / 4, [0.46, 0.43], [0.196, 0.18]),
  ],
  countersunk: [
    inchRow(3 / 32, [0.176, 0.163], [0.04, 0.04]),
    inchRow(1 / 8, [0.235, 0.217], [0.053, 0.053]),
    inchRow(5 / 32, [0.293, 0.272], [0.066, 0.066]),
    inchRow(3 / 16, [0.351, 0.326], [0.079, 0.079]),
    inchRow(1 / 4, [0.469, 0.437], [0.106, 0.106]),
  ],
  /** Truss head: 2.300 D wide, 0.330 D high. */
  truss: { wide: 2.3, high: 0.33 },
} satisfies { button: HeadTable['rows']; countersunk: HeadTable['rows']; truss: { wide: number; high: number } };

/** A rivet whose shank is one of the inch sizes, to half a thousandth, is one by ASME and no metric one between two rows. */
const INCH_SIZE_WITHIN = 0.0127;
const INCH_HEADS: Readonly<Partial<Record<BoughtHead, HeadTable>>> = {
  domed: { source: 'ASME B18.1.1, button head', rows: asmeHeads.button },
  countersunk: {
    source: 'ASME B18.1.1, countersunk head',
    note: '90° between the flanks. DIN 661 heads are about 75° and half a shank deep.',
    rows: asmeHeads.countersunk,
  },
};

/** The table by which a head of this style is made, for a shank (mm): of inch sizes that of ASME. */
function headTable(style: BoughtHead, shank: number): HeadTable {
  const inch = INCH_HEADS[style];
  return inch?.rows.some((row) => Math.abs(row.shank - shank) < INCH_SIZE_WITHIN) ? inch : heads[style];
}

/** Stack + 1.5 D: NAVEDTRA 14018. */
const LENGTH_RULE = 1.5;

const FORMED: Readonly<
  Record<
    FormedHead,
    {
      wide: number;
      high: number;
      source: string;
      formula: string;
      solid: string;
      volume(wide: number, high: number, shank: number): number;
    }
  >
> = {
  domed: {
    wide: 1.75,
    high: 0.6,
    source: 'Proportions of the round head of DIN 660',
    formula: 'V = π/6 × {H} × (3 × ({A}/2)² + {H}²)',
    solid: 'Volume of the spherical cap',
    volume: domeVolume,
  },
  flat: {
    wide: 1.5,
    high: 0.5,
    source: 'Shop head of aircraft practice, 1.5 D × 0.5 D: FAA AC 43.13 and a WWII aircraft repair manual',
    formula: 'V = π/4 × {A}² × {H}',
    solid: 'Volume of the disc',
    volume: discVolume,
  },
  flush: {
    wide: 1.75,
    high: 0.5,
    source: 'Proportions of the countersunk head of DIN 661',
    formula: 'V = π/12 × {H} × ({A}² + {A} × {D} + {D}²)',
    solid: 'Volume of the cone’s frustum',
    volume: sinkVolume,
  },
};

function domeVolume(wide: number, high: number): number {
  return ((Math.PI * high) / 6) * (3 * (wide / 2) ** 2 + high * high);
}

function discVolume(wide: number, high: number): number {
  return (Math.PI / 4) * wide * wide * high;
}

function sinkVolume(wide: number, high: number, shank: number): number {
  return ((Math.PI * high) / 12) * (wide * wide + wide * shank + shank * shank);
}

function headVolume(head: BoughtHead, wide: number, high: number, shank: number): number {
  if (head === 'domed') return domeVolume(wide, high);
  return head === 'countersunk' ? sinkVolume(wide, high, shank) : discVolume(wide, high);
}

function metricRows(heights: readonly number[]): [HeadRow, ...HeadRow[]] {
  const rows = METRIC_HEADS.map(([shank, diameter], index) => ({
    shank,
    diameter,
    diameterSpread: 0,
    height: heights[index] as number,
    heightSpread: 0,
  }));
  return rows as [HeadRow, ...HeadRow[]];
}

/** A row given in inches as most and least: the middle, with half the difference as spread, in mm. */
function inchRow(
  shank: number,
  [diameterMost, diameterLeast]: readonly [number, number],
  [heightMost, heightLeast]: readonly [number, number],
): HeadRow {
  return {
    shank: shank * 25.4,
    diameter: ((diameterMost + diameterLeast) / 2) * 25.4,
    diameterSpread: ((diameterMost - diameterLeast) / 2) * 25.4,
    height: ((heightMost + heightLeast) / 2) * 25.4,
    heightSpread: ((heightMost - heightLeast) / 2) * 25.4,
  };
}

function inchDrill(shank: number, name: string, hole: number, least: number, most: number, source: string) {
  return { shank: shank * 25.4, name, hole: hole * 25.4, least: least * 25.4, most: most * 25.4, source };
}

/** A head between the rows of its table, or scaled from the end row beyond it. */
function rowAt(table: HeadTable, shank: number): HeadRow & { readonly scaled: boolean } {
  const { rows } = table;
  const last = rows[rows.length - 1] as HeadRow;
  // A hair of slack, so that an eighth of an inch reached by another sum still finds its row.
  const end = shank < rows[0].shank - 1e-6 ? rows[0] : shank > last.shank + 1e-6 ? last : undefined;
  if (end !== undefined || !Number.isFinite(shank)) {
    const times = shank / (end ?? rows[0]).shank;
    const row = end ?? rows[0];
    return {
      shank,
      diameter: row.diameter * times,
      diameterSpread: row.diameterSpread * times,
      height: row.height * times,
      heightSpread: row.heightSpread * times,
      scaled: rows.length > 1,
    };
  }
  const above = Math.max(
    rows.findIndex((row) => row.shank >= shank - 1e-6),
    0,
  );
  const upper = rows[above] as HeadRow;
  const lower = rows[Math.max(0, above - 1)] as HeadRow;
  const share = upper.shank === lower.shank ? 1 : Math.min(1, (shank - lower.shank) / (upper.shank - lower.shank));
  const between = (of: (row: HeadRow) => number) => of(lower) + (of(upper) - of(lower)) * share;
  return {
    shank,
    diameter: between((row) => row.diameter),
    diameterSpread: between((row) => row.diameterSpread),
    height: between((row) => row.height),
    heightSpread: between((row) => row.heightSpread),
    scaled: false,
  };
}

/** Clearance of a hole over the shank, mm: joined rows, so that no size jumps. Source: DIN practice, from memory. */
const CLEARANCES: readonly { shank: number; low: number; value: number; high: number }[] = [
  { shank: 0, low: 0.1, value: 0.15, high: 0.2 },
  { shank: 4, low: 0.1, value: 0.15, high: 0.2 },
  { shank: 5, low: 0.15, value: 0.3, high: 0.3 },
  { shank: 6, low: 0.15, value: 0.3, high: 0.3 },
  { shank: 8, low: 0.2, value: 0.4, high: 0.4 },
];

function clearanceAt(shank: number): { low: number; value: number; high: number } {
  const above = CLEARANCES.findIndex((row) => row.shank >= shank);
  const upper = CLEARANCES[above < 0 ? CLEARANCES.length - 1 : above] as (typeof CLEARANCES)[number];
  const lower = CLEARANCES[above < 0 ? CLEARANCES.length - 1 : Math.max(0, above - 1)] as (typeof CLEARANCES)[number];
  const share = upper.shank === lower.shank ? 1 : (shank - lower.shank) / (upper.shank - lower.shank);
  return {
    low: lower.low + (upper.low - lower.low) * share,
    value: lower.value + (upper.value - lower.value) * share,
    high: lower.high + (upper.high - lower.high) * share,
  };
}

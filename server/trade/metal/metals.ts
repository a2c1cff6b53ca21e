import { say } from '../../../l10n/say.ts';
import { notAboveNothing, reckon } from '../reckoning/reckon.ts';
import type { Basis, Result } from '../reckoning/result.ts';

/** The metals a spec may name. */
export type MetalId =
  | 'mild steel'
  | 'galvanised steel'
  | 'stainless steel'
  | 'spring steel'
  | 'alloy steel'
  | 'tinplate'
  | 'wrought iron'
  | 'brass'
  | 'bronze'
  | 'copper'
  | 'nickel silver'
  | 'aluminium'
  | 'titanium';

/** The state the metal is bought or left in. */
export type Temper =
  | 'soft'
  | 'quarter hard'
  | 'half hard'
  | 'three-quarter hard'
  | 'hard'
  | 'spring hard'
  | 'normalised'
  | 'tempered';

/** A property with where it comes from. Typical figures: the range is what books and mills spread over, not a promise. */
export interface Sourced {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly basis: Basis;
  readonly source: string;
}

export type MetalFamily = 'carbon steel' | 'stainless steel' | 'copper alloy' | 'aluminium' | 'titanium';

export interface Metal {
  readonly id: MetalId;
  readonly title: string;
  readonly family: MetalFamily;
  /** g/cm³ */
  readonly density: Sourced;
  /** Stress at which it takes a set, MPa. */
  readonly yield: Sourced;
  /** Ultimate tensile strength, MPa. */
  readonly tensile: Sourced;
  /** Stretch at the break over 50 or 80 mm, percent. */
  readonly elongation: Sourced;
  /** Shear strength, MPa. */
  readonly shear: Sourced;
  /** Strain-hardening exponent n, without unit. Books disagree by ±0.03 and more. */
  readonly hardening: Sourced;
  /** Least inside radius of a 90° bend across the grain, in thicknesses. */
  readonly bendRadius: Sourced;
  /** Accumulated true strain after which an anneal is due. */
  readonly strainBeforeAnneal: Sourced;
  /** Stiffness (Young's modulus), MPa. */
  readonly modulus: Sourced;
  /** Volts against gold in the galvanic table: the higher one of a pair corrodes. */
  readonly anodicIndex?: Sourced;
  /** Whether quenching hardens it. */
  readonly hardens: boolean;
  /** What it gives off or leaves behind that the safety checks must know. */
  readonly contains: readonly Substance[];
  /** Whether the Keeler forming limit may be used for it. */
  readonly keelerHolds: boolean;
  /** The grade the numbers are of. */
  readonly grade?: string;
  /** The temper the numbers are of: the one asked for where the table has it, else the grade's usual one. */
  readonly temper: Temper;
}

export type Substance = 'zinc' | 'chromium' | 'copper' | 'tin' | 'nickel' | 'aluminium' | 'lead';

/**
 * The properties of a metal, refined by grade and temper where the table knows them.
 *
 * An unknown grade gives the metal's usual one ({@link knownGrades} tells them apart), an unknown temper the grade's
 * usual one (see {@link knownTempers}). Case, spaces and hyphens in a grade do not count. Never throws.
 */
export function metal(id: MetalId, options: { grade?: string; temper?: Temper } = {}): Metal {
  const kind = KINDS[id];
  const wanted = options.grade === undefined ? undefined : spelling(options.grade);
  const grade = kind.grades.find((one) => spelling(one.grade) === wanted) ?? kind.grades[0];
  const asked = options.temper === undefined ? undefined : grade.tempers[options.temper];
  const temper = asked === undefined ? grade.usual : (options.temper as Temper);
  const state = asked ?? (grade.tempers[grade.usual] as State);
  return {
    id,
    title: kind.title,
    family: kind.family,
    density: grade.density,
    yield: state.yield,
    tensile: state.tensile,
    elongation: state.elongation,
    shear: state.shear ?? shearFromTensile(state.tensile),
    hardening: state.hardening,
    bendRadius: state.bendRadius,
    strainBeforeAnneal: state.strainBeforeAnneal ?? grade.strainBeforeAnneal,
    modulus: kind.modulus,
    ...(grade.anodicIndex === undefined ? {} : { anodicIndex: grade.anodicIndex }),
    hardens: grade.hardens ?? false,
    contains: grade.contains ?? kind.contains,
    keelerHolds: (grade.keelerHolds ?? false) && temper === 'soft',
    grade: grade.grade,
    temper,
  };
}

/**
 * Shear strength (MPa) of a metal whose own tensile strength (MPa) is known: it keeps the share that its table has.
 * Range: above nothing. Source: the metal's shear and tensile strength.
 */
export function shearByTensile({ tensile, metal: of }: { tensile: number; metal: Metal }): Result {
  return reckon({
    value: (tensile * of.shear.value) / of.tensile.value,
    low: of.shear.low === undefined ? undefined : (tensile * of.shear.low) / (of.tensile.low ?? of.tensile.value),
    high: of.shear.high === undefined ? undefined : (tensile * of.shear.high) / (of.tensile.high ?? of.tensile.value),
    unit: 'MPa',
    formula: 'τ = {Su} × {shear}/{tensile}',
    symbols: { Su: tensile, shear: of.shear.value, tensile: of.tensile.value },
    basis: of.shear.basis,
    source: say`The metal’s usual share of its tensile strength: ${of.shear.source}`,
    outside: notAboveNothing('the tensile strength', tensile),
  });
}

/**
 * The grades the table knows for a metal, the usual one first.
 *
 * @tests every row of the table is gone through
 */
export function knownGrades(id: MetalId): readonly string[] {
  return KINDS[id].grades.map((one) => one.grade);
}

/**
 * The tempers the table knows for a metal's grade (for its usual grade, if none or an unknown one is named).
 *
 * @tests every row of the table is gone through
 */
export function knownTempers(id: MetalId, grade?: string): readonly Temper[] {
  const { grades } = KINDS[id];
  const wanted = grade === undefined ? undefined : spelling(grade);
  const one = grades.find((candidate) => spelling(candidate.grade) === wanted) ?? grades[0];
  return Object.keys(one.tempers) as Temper[];
}

interface State {
  readonly yield: Sourced;
  readonly tensile: Sourced;
  readonly elongation: Sourced;
  readonly shear?: Sourced;
  readonly hardening: Sourced;
  readonly bendRadius: Sourced;
  readonly strainBeforeAnneal?: Sourced;
}

interface Grade {
  readonly grade: string;
  readonly density: Sourced;
  readonly usual: Temper;
  readonly tempers: Partial<Record<Temper, State>>;
  readonly strainBeforeAnneal: Sourced;
  readonly anodicIndex?: Sourced;
  readonly hardens?: boolean;
  readonly contains?: readonly Substance[];
  readonly keelerHolds?: boolean;
}

interface Kind {
  readonly title: string;
  readonly family: MetalFamily;
  readonly modulus: Sourced;
  readonly contains: readonly Substance[];
  readonly grades: readonly [Grade, ...Grade[]];
}

function spelling(grade: string): string {
  return grade.toLowerCase().replace(/[\s-]/g, '');
}

/** A published figure: value, or value with low and high. */
function published(source: string, value: number, low?: number, high?: number): Sourced {
  return sourced('published', source, value, low, high);
}

/** A published figure quoted from memory, to be checked against the book before it is relied on. */
function remembered(source: string, value: number, low?: number, high?: number): Sourced {
  return sourced('published', say`${source} (from memory)`, value, low, high);
}

function practice(value: number, low?: number, high?: number): Sourced {
  return sourced('common practice', 'common practice (no source)', value, low, high);
}

function sourced(basis: Basis, source: string, value: number, low?: number, high?: number): Sourced {
  return low === undefined || high === undefined ? { value, basis, source } : { value, low, high, basis, source };
}

/**
 * Shear strength of a metal whose books give only the tensile: 0.75 to 0.80 of it.
 * The higher end is the value, since it is what a punch or a shear has to overcome.
 */
function shearFromTensile(tensile: Sourced): Sourced {
  return {
    value: 0.8 * tensile.value,
    low: 0.75 * (tensile.low ?? tensile.value),
    high: 0.8 * (tensile.high ?? tensile.value),
    basis: 'published',
    source:
      '0.75 of the tensile strength of steel (an answer of the AISC, quoted on a trade page) to 0.80 (from memory)',
  };
}

const BOOKS = 'typical handbook figures';
const ASM = 'ASM handbook figures';
const MIL5 = 'MIL-HDBK-5';
const EN10130 = 'EN 10130:1999';
const MINIMA = 'published minima of the stainless sheet standards';
const C260 = 'published data sheet of C26000 strip';
const CDA = 'copper trade association data';
const HARDENING = 'strain-hardening table of the mechanics textbooks';
const GALVANIC = 'galvanic table of anodic indices, MIL-STD-889 practice';

/** Volts against gold. Source: published galvanic table; steel, plain aluminium and zinc from memory. */
const ANODIC = {
  steel: remembered(GALVANIC, 0.85),
  zinc: remembered(GALVANIC, 1.2),
  tin: published(GALVANIC, 0.6),
  chromium18: published(GALVANIC, 0.5),
  chromium12: published(GALVANIC, 0.6),
  copper: published(GALVANIC, 0.35),
  bronze: published(GALVANIC, 0.4),
  brass: published(GALVANIC, 0.45),
  nickel: published(GALVANIC, 0.3),
  nickelSilver: published(`${GALVANIC}: the row of high-nickel copper alloys`, 0.15),
  aluminium: remembered(GALVANIC, 0.9),
  aluminium2000: published(GALVANIC, 0.75),
  titanium: published(GALVANIC, 0.3),
} as const;

/** Anodic index of a plating, V; nothing for one that is not in the table. */
export const platingIndex = (plating: string): Sourced | undefined => PLATINGS[plating];

const PLATINGS: Readonly<Record<string, Sourced>> = {
  'zinc plated': ANODIC.zinc,
  'nickel plated': ANODIC.nickel,
  'brass plated': ANODIC.brass,
  'tin plated': ANODIC.tin,
  'chrome plated': remembered(GALVANIC, 0.6),
  'cadmium plated': remembered(GALVANIC, 0.7),
};

const MODULUS = {
  steel: remembered(BOOKS, 200_000, 195_000, 210_000),
  stainless: remembered(BOOKS, 195_000, 190_000, 200_000),
  copper: remembered(BOOKS, 117_000, 110_000, 130_000),
  brass: remembered(BOOKS, 110_000, 100_000, 115_000),
  aluminium: remembered(BOOKS, 70_000, 68_000, 73_000),
  titanium: remembered(BOOKS, 105_000, 100_000, 115_000),
} as const;

const STEEL_DENSITY = remembered(BOOKS, 7.85, 7.83, 7.87);

const STRAIN = {
  mild: practice(0.3, 0.25, 0.35),
  carbon: practice(0.2, 0.15, 0.25),
  stainless: practice(0.25, 0.2, 0.35),
  brass: practice(0.4, 0.35, 0.46),
  copper: practice(0.6, 0.5, 0.7),
  aluminium: practice(0.2, 0.15, 0.25),
  titanium: practice(0.12, 0.1, 0.15),
  already: practice(0.1, 0.05, 0.15),
  none: practice(0.02, 0, 0.05),
} as const;

/** Spring temper: hard, and not to be bent cold. */
const SPRING_TEMPER: State = {
  yield: remembered(ASM, 1050, 900, 1200),
  tensile: remembered(ASM, 1250, 1100, 1400),
  elongation: remembered(ASM, 9, 6, 12),
  hardening: practice(0.05, 0.03, 0.08),
  bendRadius: practice(8, 6, 12),
  strainBeforeAnneal: STRAIN.none,
};

const HIGH_CARBON: State = {
  yield: remembered(ASM, 450, 380, 520),
  tensile: remembered(ASM, 670, 620, 720),
  elongation: remembered(ASM, 21, 18, 25),
  shear: remembered(ASM, 500, 480, 520),
  hardening: remembered(ASM, 0.16, 0.14, 0.18),
  bendRadius: remembered(ASM, 2.5, 2, 3),
};

function highCarbon(grade: string): Grade {
  return {
    grade,
    density: STEEL_DENSITY,
    usual: 'soft',
    strainBeforeAnneal: STRAIN.carbon,
    anodicIndex: ANODIC.steel,
    hardens: true,
    tempers: { soft: HIGH_CARBON, tempered: SPRING_TEMPER, 'spring hard': SPRING_TEMPER },
  };
}

function drawingSteel(
  grade: string,
  limits: { yieldMost: number; tensile: readonly [number, number]; stretch: number },
  hardening: Sourced,
  bendRadius: Sourced,
): Grade {
  const [low, high] = limits.tensile;
  return {
    grade,
    density: STEEL_DENSITY,
    usual: 'soft',
    strainBeforeAnneal: STRAIN.mild,
    anodicIndex: ANODIC.steel,
    keelerHolds: true,
    tempers: {
      soft: {
        yield: published(
          say`${EN10130}: most ${limits.yieldMost} MPa; the lower end from memory`,
          0.75 * limits.yieldMost,
          Math.min(140, 0.75 * limits.yieldMost),
          limits.yieldMost,
        ),
        tensile: published(EN10130, (low + high) / 2, low, high),
        elongation: published(
          say`${EN10130}: at least ${limits.stretch} % over 80 mm`,
          limits.stretch,
          limits.stretch,
          limits.stretch + 12,
        ),
        hardening,
        bendRadius,
      },
    },
  };
}

const DC01 = drawingSteel(
  'DC01',
  { yieldMost: 280, tensile: [270, 410], stretch: 28 },
  remembered(BOOKS, 0.18, 0.16, 0.2),
  remembered(BOOKS, 0.5, 0, 0.5),
);

const MILD_GRADES: readonly [Grade, ...Grade[]] = [
  DC01,
  drawingSteel(
    'DC03',
    { yieldMost: 240, tensile: [270, 370], stretch: 34 },
    remembered(BOOKS, 0.18, 0.16, 0.2),
    remembered(BOOKS, 0, 0, 0.5),
  ),
  drawingSteel(
    'DC04',
    { yieldMost: 210, tensile: [270, 350], stretch: 38 },
    remembered(BOOKS, 0.19, 0.18, 0.22),
    remembered(BOOKS, 0, 0, 0.5),
  ),
  drawingSteel(
    'DC05',
    { yieldMost: 180, tensile: [270, 330], stretch: 40 },
    remembered(BOOKS, 0.21, 0.21, 0.24),
    remembered(BOOKS, 0, 0, 0.5),
  ),
  drawingSteel(
    'DC06',
    { yieldMost: 180, tensile: [270, 350], stretch: 38 },
    remembered(BOOKS, 0.22, 0.22, 0.25),
    remembered(BOOKS, 0, 0, 0.5),
  ),
  {
    grade: '1008',
    density: remembered(ASM, 7.87),
    usual: 'soft',
    strainBeforeAnneal: STRAIN.mild,
    anodicIndex: ANODIC.steel,
    keelerHolds: true,
    tempers: {
      soft: {
        yield: remembered(ASM, 210, 180, 240),
        tensile: remembered(ASM, 325, 300, 350),
        elongation: remembered(ASM, 42, 40, 45),
        shear: remembered(ASM, 255, 240, 270),
        hardening: published(`${HARDENING}; another prints 0.26`, 0.21, 0.2, 0.26),
        bendRadius: remembered(ASM, 0, 0, 0.5),
      },
    },
  },
  {
    grade: '1018',
    density: remembered(ASM, 7.87),
    usual: 'half hard',
    strainBeforeAnneal: STRAIN.already,
    anodicIndex: ANODIC.steel,
    tempers: {
      'half hard': {
        yield: remembered(ASM, 370),
        tensile: remembered(ASM, 440),
        elongation: remembered(ASM, 15),
        shear: remembered(ASM, 330),
        hardening: remembered(ASM, 0.1, 0.07, 0.13),
        bendRadius: remembered(ASM, 1, 1, 1.5),
      },
    },
  },
];

const C26000: Grade = {
  grade: 'C26000',
  density: published(C260, 8.53),
  usual: 'soft',
  strainBeforeAnneal: STRAIN.brass,
  anodicIndex: ANODIC.brass,
  tempers: {
    soft: {
      yield: published(C260, 145, 75, 170),
      tensile: published(C260, 365, 310, 420),
      elongation: published(C260, 53),
      shear: remembered(CDA, 230),
      hardening: published(`${HARDENING}; books spread from 0.21 to 0.49 over the brasses`, 0.49, 0.46, 0.52),
      bendRadius: published(`${C260}: no limit listed`, 0),
    },
    'quarter hard': {
      yield: remembered(CDA, 270, 200, 320),
      tensile: published('copper trade association cold-rolling table: 54 ksi after 11 %', 372, 340, 405),
      elongation: published('copper trade association cold-rolling table', 43),
      shear: remembered(CDA, 250),
      hardening: practice(0.3, 0.25, 0.35),
      bendRadius: published(`${C260}: no limit listed across the grain, 0.3 along it`, 0, 0, 0.3),
      strainBeforeAnneal: practice(0.28, 0.23, 0.34),
    },
    'half hard': {
      yield: published(C260, 350),
      tensile: published(C260, 427, 395, 460),
      elongation: published(C260, 30),
      shear: remembered(CDA, 275),
      hardening: practice(0.2, 0.15, 0.25),
      bendRadius: published(C260, 0.5),
      strainBeforeAnneal: practice(0.17, 0.12, 0.23),
    },
    'three-quarter hard': {
      yield: practice(430, 400, 460),
      tensile: practice(480, 450, 510),
      elongation: practice(18, 12, 22),
      shear: practice(290, 280, 300),
      hardening: practice(0.12, 0.08, 0.16),
      bendRadius: published(`${C260}: 1.3 along the grain`, 1.0, 1.0, 1.3),
      strainBeforeAnneal: STRAIN.already,
    },
    hard: {
      yield: published(C260, 495),
      tensile: published(C260, 525, 490, 560),
      elongation: published(C260, 10),
      shear: remembered(CDA, 305),
      hardening: practice(0.08, 0.05, 0.12),
      bendRadius: published(`${C260}: 1.8 along the grain`, 1.3, 1.3, 1.8),
      strainBeforeAnneal: STRAIN.none,
    },
    'spring hard': {
      yield: practice(590, 560, 620),
      tensile: published('copper trade association cold-rolling table: 94 ksi after 60 %', 648),
      elongation: published('copper trade association cold-rolling table', 3),
      shear: practice(330, 320, 340),
      hardening: practice(0.05, 0.03, 0.08),
      bendRadius: published(`${C260}: the extra hard row, 3.0 along the grain`, 1.8, 1.8, 3.0),
      strainBeforeAnneal: STRAIN.none,
    },
  },
};

const KINDS: Readonly<Record<MetalId, Kind>> = {
  'mild steel': {
    title: 'mild steel',
    family: 'carbon steel',
    modulus: MODULUS.steel,
    contains: [],
    grades: MILD_GRADES,
  },
  'galvanised steel': {
    title: 'galvanised steel',
    family: 'carbon steel',
    modulus: MODULUS.steel,
    contains: ['zinc'],
    grades: MILD_GRADES.map((grade) => ({ ...grade, anodicIndex: ANODIC.zinc })) as [Grade, ...Grade[]],
  },
  'stainless steel': {
    title: 'stainless steel',
    family: 'stainless steel',
    modulus: MODULUS.stainless,
    contains: ['chromium', 'nickel'],
    grades: [
      {
        grade: '304',
        density: remembered(BOOKS, 8.0, 7.93, 8.03),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.stainless,
        anodicIndex: ANODIC.chromium18,
        tempers: {
          soft: {
            yield: published(`${MINIMA}: at least 205 MPa; the typical figure from memory`, 290, 205, 320),
            tensile: published(`${MINIMA}: at least 515 MPa; the typical figure from memory`, 620, 515, 720),
            elongation: published(`${MINIMA}: at least 40 %; the typical figure from memory`, 55, 40, 60),
            shear: remembered(BOOKS, 455, 430, 480),
            hardening: published(HARDENING, 0.44, 0.41, 0.47),
            bendRadius: remembered(BOOKS, 0.5, 0, 1),
          },
        },
      },
      {
        grade: '410',
        density: remembered(BOOKS, 7.75),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.carbon,
        anodicIndex: ANODIC.chromium12,
        hardens: true,
        contains: ['chromium'],
        tempers: {
          soft: {
            yield: published(`${MINIMA}: at least 205 MPa`, 275, 205, 310),
            tensile: published(`${MINIMA}: at least 450 MPa`, 500, 450, 550),
            elongation: published(`${MINIMA}: at least 20 %`, 20, 20, 30),
            shear: remembered(BOOKS, 340),
            hardening: remembered(BOOKS, 0.18, 0.15, 0.2),
            bendRadius: remembered(BOOKS, 1, 1, 1.5),
          },
        },
      },
      {
        grade: '430',
        density: remembered(BOOKS, 7.75),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.mild,
        anodicIndex: ANODIC.chromium18,
        contains: ['chromium'],
        tempers: {
          soft: {
            yield: published(`${MINIMA}: at least 205 MPa; a merchant’s table gives 310`, 300, 205, 345),
            tensile: published(`${MINIMA}: at least 450 MPa; a merchant’s table gives 483`, 483, 450, 520),
            elongation: published(`${MINIMA}: at least 22 %`, 22, 22, 30),
            shear: remembered(BOOKS, 350),
            hardening: remembered(BOOKS, 0.19, 0.19, 0.2),
            bendRadius: remembered(BOOKS, 0.75, 0.5, 1),
          },
        },
      },
    ],
  },
  'spring steel': {
    title: 'spring steel',
    family: 'carbon steel',
    modulus: MODULUS.steel,
    contains: [],
    grades: [
      highCarbon('1075'),
      highCarbon('1095'),
      highCarbon('5160'),
      {
        grade: '1050',
        density: STEEL_DENSITY,
        usual: 'soft',
        strainBeforeAnneal: STRAIN.carbon,
        anodicIndex: ANODIC.steel,
        hardens: true,
        tempers: {
          soft: {
            yield: remembered(ASM, 365),
            tensile: remembered(ASM, 635),
            elongation: remembered(ASM, 23),
            shear: remembered(ASM, 480),
            hardening: remembered(ASM, 0.16, 0.13, 0.19),
            bendRadius: remembered(ASM, 1.75, 1.5, 2),
          },
          tempered: SPRING_TEMPER,
          'spring hard': SPRING_TEMPER,
        },
      },
    ],
  },
  'alloy steel': {
    title: 'alloy steel',
    family: 'carbon steel',
    modulus: MODULUS.steel,
    contains: [],
    grades: [
      {
        grade: '4130',
        density: STEEL_DENSITY,
        usual: 'normalised',
        strainBeforeAnneal: STRAIN.carbon,
        anodicIndex: ANODIC.steel,
        hardens: true,
        tempers: {
          normalised: {
            yield: remembered(MIL5, 480, 435, 520),
            tensile: remembered(MIL5, 660, 655, 670),
            elongation: remembered(MIL5, 22, 20, 25),
            shear: remembered(MIL5, 395),
            hardening: remembered(BOOKS, 0.13, 0.12, 0.15),
            bendRadius: remembered(BOOKS, 2, 1.5, 3),
          },
        },
      },
    ],
  },
  tinplate: {
    title: 'tinplate',
    family: 'carbon steel',
    modulus: MODULUS.steel,
    contains: ['tin'],
    grades: [{ ...DC01, grade: 'as DC01', anodicIndex: ANODIC.tin }],
  },
  'wrought iron': {
    title: 'wrought iron',
    family: 'carbon steel',
    modulus: MODULUS.steel,
    contains: [],
    grades: [
      {
        grade: 'best',
        density: remembered(BOOKS, 7.7, 7.6, 7.8),
        usual: 'soft',
        strainBeforeAnneal: practice(0.2, 0.15, 0.3),
        anodicIndex: ANODIC.steel,
        tempers: {
          soft: {
            yield: remembered(BOOKS, 190, 160, 220),
            tensile: remembered(BOOKS, 340, 300, 370),
            elongation: remembered(BOOKS, 22, 10, 35),
            hardening: practice(0.18, 0.14, 0.22),
            bendRadius: practice(1, 0.5, 2),
          },
        },
      },
    ],
  },
  brass: {
    title: 'brass',
    family: 'copper alloy',
    modulus: MODULUS.brass,
    contains: ['copper', 'zinc'],
    grades: [C26000],
  },
  bronze: {
    title: 'bronze',
    family: 'copper alloy',
    modulus: MODULUS.brass,
    contains: ['copper', 'tin'],
    grades: [
      {
        grade: 'C220',
        density: remembered(CDA, 8.8),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.brass,
        anodicIndex: ANODIC.bronze,
        contains: ['copper', 'zinc'],
        tempers: {
          soft: {
            yield: remembered(CDA, 85, 70, 100),
            tensile: remembered(CDA, 262, 255, 270),
            elongation: remembered(CDA, 47, 45, 50),
            shear: remembered(CDA, 195),
            hardening: remembered(CDA, 0.45, 0.4, 0.48),
            bendRadius: remembered(CDA, 0),
          },
        },
      },
      {
        grade: 'C510',
        density: remembered(CDA, 8.86),
        usual: 'half hard',
        strainBeforeAnneal: practice(0.2, 0.15, 0.25),
        anodicIndex: ANODIC.bronze,
        tempers: {
          'half hard': {
            yield: remembered(CDA, 380),
            tensile: remembered(CDA, 470),
            elongation: remembered(CDA, 28),
            hardening: practice(0.2, 0.15, 0.25),
            bendRadius: remembered(CDA, 1, 1, 1.5),
          },
        },
      },
    ],
  },
  copper: {
    title: 'copper',
    family: 'copper alloy',
    modulus: MODULUS.copper,
    contains: ['copper'],
    grades: [
      {
        grade: 'C11000',
        density: remembered(CDA, 8.94, 8.89, 8.96),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.copper,
        anodicIndex: ANODIC.copper,
        tempers: {
          soft: {
            yield: remembered(CDA, 70),
            tensile: remembered(CDA, 220),
            elongation: remembered(CDA, 45),
            shear: remembered(CDA, 150),
            hardening: published(`${HARDENING}; another prints 0.54`, 0.44, 0.41, 0.54),
            bendRadius: remembered(CDA, 0),
          },
          'half hard': {
            yield: remembered(CDA, 250),
            tensile: remembered(CDA, 290),
            elongation: remembered(CDA, 14),
            shear: remembered(CDA, 180),
            hardening: practice(0.12, 0.08, 0.16),
            bendRadius: remembered(CDA, 0.5),
            strainBeforeAnneal: practice(0.3, 0.2, 0.4),
          },
        },
      },
    ],
  },
  'nickel silver': {
    title: 'nickel silver',
    family: 'copper alloy',
    modulus: remembered(BOOKS, 125_000, 120_000, 130_000),
    contains: ['copper', 'zinc', 'nickel'],
    grades: [
      {
        grade: 'C75200',
        density: remembered(CDA, 8.73),
        usual: 'soft',
        strainBeforeAnneal: practice(0.35, 0.3, 0.4),
        anodicIndex: ANODIC.nickelSilver,
        tempers: {
          soft: {
            yield: remembered(CDA, 170, 150, 205),
            tensile: remembered(CDA, 400, 380, 415),
            elongation: remembered(CDA, 40, 32, 45),
            hardening: remembered(CDA, 0.4, 0.35, 0.45),
            bendRadius: practice(0, 0, 0.5),
          },
          'half hard': {
            yield: remembered(CDA, 425, 390, 440),
            tensile: remembered(CDA, 510, 455, 525),
            elongation: remembered(CDA, 8, 5, 12),
            hardening: practice(0.12, 0.08, 0.16),
            bendRadius: practice(1, 0.5, 1.5),
            strainBeforeAnneal: STRAIN.already,
          },
        },
      },
    ],
  },
  aluminium: {
    title: 'aluminium',
    family: 'aluminium',
    modulus: MODULUS.aluminium,
    contains: ['aluminium'],
    grades: [
      {
        grade: '5052',
        density: remembered(BOOKS, 2.68),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.aluminium,
        anodicIndex: ANODIC.aluminium,
        tempers: {
          soft: {
            yield: remembered(BOOKS, 90),
            tensile: remembered(BOOKS, 195),
            elongation: remembered(BOOKS, 25),
            shear: remembered(BOOKS, 125),
            hardening: published(HARDENING, 0.13, 0.1, 0.16),
            bendRadius: published('published aircraft bend radius table: 0.06 in for 0.050 in', 1.2, 0, 1.2),
          },
          'quarter hard': {
            yield: remembered(BOOKS, 195),
            tensile: remembered(BOOKS, 230),
            elongation: remembered(BOOKS, 12),
            shear: remembered(BOOKS, 140),
            hardening: practice(0.1, 0.07, 0.13),
            bendRadius: remembered(BOOKS, 1, 1, 1.5),
            strainBeforeAnneal: STRAIN.already,
          },
        },
      },
      {
        grade: '6061',
        density: remembered(BOOKS, 2.7),
        usual: 'tempered',
        strainBeforeAnneal: STRAIN.aluminium,
        anodicIndex: ANODIC.aluminium,
        tempers: {
          soft: {
            yield: remembered(BOOKS, 55),
            tensile: remembered(BOOKS, 125),
            elongation: remembered(BOOKS, 25),
            shear: remembered(BOOKS, 85),
            hardening: published(HARDENING, 0.2, 0.17, 0.23),
            bendRadius: remembered(BOOKS, 0.5, 0, 1),
          },
          tempered: {
            yield: remembered(BOOKS, 275),
            tensile: remembered(BOOKS, 310),
            elongation: remembered(BOOKS, 12),
            shear: remembered(BOOKS, 205),
            hardening: published(HARDENING, 0.05, 0.03, 0.08),
            bendRadius: published(
              'published aircraft bend radius table: 0.09 in for 0.050 in; other books to 6',
              1.8,
              1.5,
              6,
            ),
            strainBeforeAnneal: STRAIN.none,
          },
        },
      },
      {
        grade: '2024',
        density: remembered(BOOKS, 2.78),
        usual: 'tempered',
        strainBeforeAnneal: STRAIN.aluminium,
        anodicIndex: ANODIC.aluminium2000,
        contains: ['aluminium', 'copper'],
        tempers: {
          soft: {
            yield: remembered(BOOKS, 75),
            tensile: remembered(BOOKS, 185),
            elongation: remembered(BOOKS, 20),
            shear: remembered(BOOKS, 125),
            hardening: practice(0.2, 0.15, 0.25),
            bendRadius: remembered(BOOKS, 0.5, 0, 1),
          },
          tempered: {
            yield: remembered(BOOKS, 345),
            tensile: remembered(BOOKS, 485),
            elongation: remembered(BOOKS, 18),
            shear: remembered(BOOKS, 285),
            hardening: published(HARDENING, 0.16, 0.13, 0.19),
            bendRadius: published('published aircraft bend radius tables: 0.16 in for 0.040 in', 4, 3.2, 4),
            strainBeforeAnneal: STRAIN.already,
          },
        },
      },
    ],
  },
  titanium: {
    title: 'titanium',
    family: 'titanium',
    modulus: MODULUS.titanium,
    contains: [],
    grades: [
      {
        grade: 'grade 2',
        density: remembered(BOOKS, 4.51),
        usual: 'soft',
        strainBeforeAnneal: STRAIN.titanium,
        anodicIndex: ANODIC.titanium,
        tempers: {
          soft: {
            yield: remembered(BOOKS, 310, 275, 345),
            tensile: remembered(BOOKS, 400, 345, 450),
            elongation: remembered(BOOKS, 24, 20, 28),
            shear: remembered(BOOKS, 325, 270, 380),
            hardening: remembered(BOOKS, 0.12, 0.1, 0.15),
            bendRadius: remembered(BOOKS, 2.25, 2, 2.5),
          },
        },
      },
      {
        grade: 'grade 5',
        density: remembered(BOOKS, 4.43),
        usual: 'soft',
        strainBeforeAnneal: practice(0.06, 0.04, 0.08),
        anodicIndex: ANODIC.titanium,
        contains: ['aluminium'],
        tempers: {
          soft: {
            yield: remembered(BOOKS, 855, 830, 880),
            tensile: remembered(BOOKS, 925, 900, 950),
            elongation: remembered(BOOKS, 12, 10, 14),
            shear: remembered(BOOKS, 550),
            hardening: remembered(BOOKS, 0.06, 0.04, 0.08),
            bendRadius: remembered(BOOKS, 5, 4.5, 6),
          },
        },
      },
    ],
  },
};

/**
 * Every metal a spec may name.
 *
 * @tests every row of the table is gone through
 */
export const metalIds: readonly MetalId[] = Object.keys(KINDS) as MetalId[];

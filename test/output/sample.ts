import type { BlankInput, CutListInput, Reasoned } from '../../server/output/documents/cut-list.ts';

/** A hand-made build in an invented scenario, with every kind of row a cut list can have. */
const geometry = (formula: string, worked: string): Reasoned => ({
  formula,
  worked,
  basis: 'geometry',
  source: 'Surface kept: flat disc against cap.',
});

const blank = (
  id: string,
  long: number,
  wide: number,
  perBuild: number,
  more: Partial<BlankInput> = {},
): BlankInput => ({
  id,
  piece: id,
  label: id.replaceAll('-', ' '),
  long,
  wide,
  perBuild,
  shape: { kind: 'rectangle' },
  area: long * wide,
  notes: [],
  allowances: [],
  mass: (long * wide * 1.5 * 7.85) / 1000,
  ...more,
});

const skullOutline = Array.from({ length: 48 }, (_, i): [number, number] => {
  const a = (2 * Math.PI * i) / 48;
  return [150 + 150 * Math.cos(a) * (1 + 0.04 * Math.cos(3 * a)), 140 + 138 * Math.sin(a)];
});

export const sallet: CutListInput = {
  title: 'Harbour-watch sallet',
  file: 'sallet.planish',
  client: 'The Salt Gate, a stage production',
  duty: 'stage',
  make: 6,
  spare: 1,
  units: 'mm',
  date: '2027-01-18',
  due: '2027-03-01',
  currency: 'GBP',
  cautions: [
    {
      code: 'duty-not-certified',
      title: 'Not certified',
      text: 'A stage build is not certified protection. Agree what it may meet with the production’s safety lead before it is worn in a fight.',
    },
    {
      code: 'zinc-fume',
      title: 'Zinc fume',
      text: 'The edge wire is zinc plated: strip the zinc before any hot work near it, or use plain wire.',
    },
    {
      code: 'hot-work',
      title: 'Hot work',
      text: 'The skull halves are raised hot. Clear the floor, an extinguisher in reach, and someone else in the shop.',
    },
  ],
  problems: [
    {
      severity: 'warning',
      code: 'strain-needs-anneal',
      message: 'The skull’s tail end is stretched 0.38: anneal at least twice before it is planished.',
      line: 31,
    },
    { severity: 'information', code: 'galvanic-pair', message: 'Bronze on steel: keep it dry and waxed.', line: 52 },
  ],
  materials: [
    {
      name: 'skull-plate',
      title: 'mild steel 1.5 mm',
      kind: 'sheet',
      thickness: 1.52,
      gauge: '16 ga, uncoated steel sheet',
      stock: {
        sheets: [{ long: 2440, wide: 1220, have: 1, price: 58 }],
        offcuts: [{ long: 640, wide: 310 }],
        margin: 10,
        kerf: 2,
        grain: true,
      },
      blanks: [
        blank('skull', 310, 278, 2, {
          label: 'skull half',
          mirrored: true,
          shape: { kind: 'outline', points: skullOutline },
          area: 65_900,
          mass: 787,
          notes: ['Raised hot; the tail end needs the most heats.'],
          size: {
            ...geometry('A = A₀, arc length kept within 4 %', '65 240 mm² × 1.01'),
            low: 268,
            high: 284,
            basis: 'published',
          },
          allowances: [
            {
              edge: 'rim, 25 to 330 mm',
              what: 'rolled over 1/8 in wire',
              amount: 10.4,
              formula: 'a = π(d + t)·¾ + t',
              worked: 'π × (3.18 + 1.52) × ¾ − 0.67',
              basis: 'geometry',
              source: 'Neutral line of the sheet round the wire.',
            },
            {
              edge: 'middle',
              what: 'trim after fitting',
              amount: 3,
              formula: 'as the spec says',
              worked: '3',
              basis: 'from the spec',
              source: 'edge middle long 3 mm, line 36',
            },
          ],
        }),
        blank('ridge', 402, 34, 1, { notes: ['left long 5 mm'], grain: 'across', overridden: true }),
        blank('brow', 330, 120, 2, {
          label: 'brow plate',
          shape: { kind: 'sector', outer: 262, inner: 150, angle: 78 },
          long: 329.77,
          wide: 145.43,
          area: 31_400,
          mass: 374,
          grain: 'up',
          mirrored: true,
        }),
        blank('ear-boss', 96, 96, 2, { label: 'ear boss', shape: { kind: 'round' }, area: 7238, mass: 86 }),
        blank('cheek', 168, 112, 2, {
          label: 'cheek plate',
          shape: { kind: 'oval' },
          area: 14_778,
          mass: 176,
          mirrored: true,
        }),
        blank('rim-clip', 46, 12, 6, { label: 'rim clip' }),
      ],
    },
    {
      name: 'bronze-strip',
      title: 'phosphor bronze 0.8 mm, half hard',
      kind: 'sheet',
      thickness: 0.812,
      gauge: '20 ga, copper alloys',
      stock: { sheets: [{ long: 600, wide: 300, have: 0 }], offcuts: [], margin: 5, kerf: 1 },
      blanks: [
        blank('binding', 410, 18, 2, { label: 'rim binding', mass: 53 }),
        blank('crest', 180, 90, 1, {
          label: 'crest badge',
          shape: {
            kind: 'outline',
            points: [
              [0, 30],
              [40, 0],
              [140, 0],
              [180, 30],
              [150, 90],
              [90, 60],
              [30, 90],
            ],
            openings: [
              [
                [80, 20],
                [100, 20],
                [100, 40],
                [80, 40],
              ],
            ],
          },
          area: 9800,
          mass: 70,
        }),
      ],
    },
    {
      name: 'liner-leather',
      title: 'veg-tan leather 2.8 mm',
      kind: 'hide',
      thickness: 2.78,
      gauge: '7 oz leather',
      stock: { sheets: [], offcuts: [], margin: 0, kerf: 0 },
      hide: { area: 2_200_000, have: 0, price: 96 },
      blanks: [
        blank('liner-tongue', 210, 95, 6, { label: 'liner tongue', mass: 44, area: 15_200 }),
        blank('chin-strap', 620, 24, 1, { label: 'chin strap', mass: 35 }),
      ],
    },
  ],
  wires: [
    {
      name: 'edge-wire',
      title: 'mild steel wire 1/8 in, zinc plated',
      diameter: 3.175,
      massPerMetre: 62.1,
      price: 1.2,
      uses: [
        {
          piece: 'skull half',
          edge: 'rim, 25 to 330 mm',
          length: 305,
          perBuild: 2,
          reason: geometry('L = to − from', '330 − 25'),
        },
        { piece: 'brow plate', edge: 'bottom', length: 224.6, perBuild: 2 },
      ],
    },
  ],
  rivets: [
    {
      name: 'small-bronze',
      title: 'bronze 1/8 × 3/8 in, domed',
      diameter: 3.175,
      bought: 9.525,
      pack: 100,
      price: 14.5,
      have: 40,
      mass: 0.9,
      uses: [
        {
          seam: 'ridge-line',
          positions: '1 to 15',
          perBuild: 30,
          needed: {
            value: 7.9,
            low: 7.4,
            high: 8.4,
            unit: 'mm',
            formula: 'L = stack + V_head / A_shank',
            worked: '4.56 + 26.4 / 7.92',
            basis: 'geometry',
            source: 'Volume of the peened head.',
          } as never,
          verdict: 'long',
          hole: 3.3,
        },
        { seam: 'liner', positions: '', perBuild: 6, washers: 1, hole: 3.3 },
      ],
    },
  ],
  parts: [
    {
      name: 'chin-buckle',
      title: 'buckle, 25 mm, blackened',
      uses: ['chin-strap'],
      perBuild: 1,
      have: 3,
      price: 2.1,
      mass: 18,
    },
  ],
  mass: { formed: 2140, worn: 2610 },
};

/** Everything that can go wrong in a name, in every place a name can stand. */
export const HOSTILE = [
  "=cmd|' /C calc'!A0",
  '+1+1',
  '-2',
  '@sum(A1)',
  '\t=1',
  '<script>alert(1)</script>',
  ']]>',
  '"><img src=x onerror=alert(1)>',
  '| pipe | `code` [link](javascript:alert(1)) **bold** http://example.org',
  'שלום עולם',
  'مرحبا',
  '鋼の兜 — 銅',
  '🛡️⚔️ 👩‍🏭',
  'Ж-образный ключ',
  'a\u202Eb\u0000c\u0007',
  '\ud800 lone',
  'line\nbreak\r\nand more',
  'W'.repeat(300),
  'long words '.repeat(30),
  '',
];

export function hostile(text: string): CutListInput {
  const reason: Reasoned = { formula: text, worked: text, basis: 'common practice', source: text };
  return {
    ...sallet,
    title: text,
    file: text,
    client: text,
    rules: text,
    duty: 'contact',
    due: text,
    currency: text,
    cautions: [{ code: text, title: text, text }],
    problems: [{ severity: 'error', code: text, message: text, line: 1, file: text }],
    materials: sallet.materials.map((m) => ({
      ...m,
      name: text,
      title: text,
      gauge: text,
      blanks: m.blanks.map((b) => ({
        ...b,
        piece: text,
        label: text,
        notes: [text],
        size: reason,
        allowances: [{ ...reason, edge: text, what: text, amount: 1 }],
      })),
    })),
    wires: sallet.wires.map((w) => ({
      ...w,
      name: text,
      title: text,
      uses: w.uses.map((u) => ({ ...u, piece: text, edge: text, reason })),
    })),
    rivets: sallet.rivets.map((r) => ({
      ...r,
      name: text,
      title: text,
      uses: r.uses.map((u) => ({ ...u, seam: text, positions: text })),
    })),
    parts: sallet.parts.map((p) => ({ ...p, name: text, title: text, uses: [text] })),
    unreckoned: [{ what: text, perBuild: 2, material: text, reason: text }],
    mass: { formed: 2140, note: text },
  };
}

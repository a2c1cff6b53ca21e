import { strict as assert } from 'node:assert';
import {
  asmeHeads,
  countersinkDepth,
  diameterForSheet,
  edgeDistance,
  formedHead,
  holeFor,
  jointStrength,
  nearestLengthUp,
  pitchLimits,
  rivetHead,
  rivetLengthByRule,
  rivetLengthByVolume,
} from '../../server/trade/rivet/rivet.ts';
import { holdsAgainst, inches, type Row } from './rows.ts';

const din = (
  source: string,
  style: 'domed' | 'countersunk',
  rows: readonly (readonly [number, number, number])[],
): Row[] =>
  rows.flatMap(([shank, wide, high]) => [
    {
      what: `${style} ${shank}, diameter`,
      source,
      status: 'seen',
      ours: rivetHead(style, shank).diameter,
      theirs: wide,
      within: 1e-9,
    },
    {
      what: `${style} ${shank}, height`,
      source,
      status: 'seen',
      ours: rivetHead(style, shank).height,
      theirs: high,
      within: 1e-9,
    },
  ]);

const asme = 'ASME B18.1.1 in Machinery’s Handbook, 31st ed.';

holdsAgainst('Metric heads', [
  ...din('DIN 660', 'domed', [
    [1.6, 2.8, 1],
    [2, 3.5, 1.2],
    [2.5, 4.4, 1.5],
    [3, 5.2, 1.8],
    [3.5, 6.2, 2.1],
    [4, 7, 2.4],
    [5, 8.8, 3],
    [6, 10.5, 3.6],
    [7, 12.2, 4.2],
    [8, 14, 4.8],
  ]),
  ...din('DIN 661', 'countersunk', [
    [1.6, 2.8, 0.8],
    [2, 3.5, 1],
    [2.5, 4.4, 1.2],
    [3, 5.2, 1.4],
    [3.5, 6.2, 1.8],
    [4, 7, 2],
    [5, 8.8, 2.5],
    [6, 10.5, 3],
    [7, 12.2, 3.5],
    [8, 14, 4],
  ]),
  ...[3 / 32, 1 / 8, 5 / 32, 3 / 16, 1 / 4].map((inches) => {
    const { diameter, height } = rivetHead('countersunk', inches * 25.4);
    return {
      what: `angle of the ASME sink at ${inches} in, degrees`,
      source: asme,
      status: 'seen' as const,
      ours: (2 * Math.atan((diameter.value - inches * 25.4) / 2 / height.value) * 180) / Math.PI,
      theirs: 90,
      within: 4,
    };
  }),
  {
    what: 'angle of the DIN 661 sink at 4 mm, degrees',
    source: 'worked apart from the table: 74 to 76°',
    status: 'worked',
    ours: (2 * Math.atan((7 - 4) / 2 / countersinkDepth(4).value) * 180) / Math.PI,
    theirs: 75,
    within: 2,
  },
  {
    what: 'British small round head 4 mm',
    source: 'engineers’ pocket book (BS 4620): 7.0 × 2.4',
    status: 'seen',
    ours: rivetHead('domed', 4).height,
    theirs: 2.4,
    within: 1e-9,
  },
]);

const eighth = 25.4 / 8;

/** Most and least as the standard prints them, inches: shank, head diameter, head height. */
const ASME_ROWS = {
  flat: [
    [3 / 32, 0.2, 0.18, 0.038, 0.026],
    [1 / 8, 0.26, 0.24, 0.048, 0.036],
    [5 / 32, 0.323, 0.301, 0.059, 0.045],
    [3 / 16, 0.387, 0.361, 0.069, 0.055],
    [1 / 4, 0.515, 0.485, 0.091, 0.075],
  ],
  pan: [
    [3 / 32, 0.173, 0.153, 0.06, 0.048],
    [1 / 8, 0.225, 0.205, 0.078, 0.066],
    [5 / 32, 0.279, 0.257, 0.096, 0.082],
    [3 / 16, 0.334, 0.308, 0.114, 0.1],
    [1 / 4, 0.444, 0.414, 0.151, 0.135],
  ],
} as const;

holdsAgainst('Inch heads, most and least', [
  ...(['flat', 'pan'] as const).flatMap((style) =>
    ASME_ROWS[style].flatMap(([shank, widest, narrowest, highest, lowest]) => {
      const { diameter, height } = rivetHead(style, shank * 25.4);
      const row = (what: string, ours: number | undefined, theirs: number): Row => ({
        what: `${style} ${shank} in, ${what}`,
        source: asme,
        status: 'seen',
        ours: (ours ?? Number.NaN) / 25.4,
        theirs,
        within: 1e-9,
      });
      return [
        row('widest', diameter.high, widest),
        row('narrowest', diameter.low, narrowest),
        row('highest', height.high, highest),
        row('lowest', height.low, lowest),
      ];
    }),
  ),
  ...asmeHeads.button.map(
    (button, index): Row => ({
      what: `button ${button.shank / 25.4} in, width between most and least`,
      source: asme,
      status: 'worked',
      ours: button.diameter / 25.4,
      theirs: [0.172, 0.225, 0.279, 0.335, 0.445][index] as number,
      within: 1e-9,
    }),
  ),
  ...asmeHeads.button.map(
    (button, index): Row => ({
      what: `button ${button.shank / 25.4} in, height between most and least`,
      source: asme,
      status: 'worked',
      ours: button.height / 25.4,
      theirs: [0.071, 0.094, 0.117, 0.14, 0.188][index] as number,
      within: 1e-9,
    }),
  ),
  { what: 'truss, width in D', source: asme, status: 'seen', ours: asmeHeads.truss.wide, theirs: 2.3, within: 0 },
]);

const strength = jointStrength({
  shank: 4,
  thickness: [1.2, 1.2],
  tensile: 300,
  shear: 250,
  pitch: 16,
  edge: 8,
  hole: 4.2,
  bearing: 600,
  plateShear: 180,
});

holdsAgainst('Rivet layout, holes and lengths', [
  {
    kind: 'worked example',
    what: 'sheet 0.032 in, three times as thick, in',
    work: 'faa',
    source: 'p. 4-27: 0.096, use 1/8',
    status: 'seen',
    ours: inches(diameterForSheet(0.032 * 25.4)),
    theirs: 0.096,
    within: 1e-9,
  },
  {
    what: 'two sheets 0.0478 in, 1/8 in rivet, length by the rule, in',
    source: 'NAVEDTRA 14018 rule, worked apart',
    status: 'worked',
    ours: inches(rivetLengthByRule({ stack: 2 * 0.0478 * 25.4, shank: eighth })),
    theirs: 0.283,
    within: 0.0005,
  },
  {
    what: 'the length to buy for it, in',
    source: 'worked apart: 5/16 and trim',
    status: 'worked',
    ours: (nearestLengthUp(0.283 * 25.4, 'in') ?? 0) / 25.4,
    theirs: 5 / 16,
    within: 1e-9,
  },
  {
    what: 'least pitch of 1/8 in, in',
    source: 'NAVEDTRA 14018',
    status: 'rule seen',
    ours: inches(pitchLimits(eighth).least),
    theirs: 3 / 8,
    within: 1e-9,
  },
  {
    what: 'widest usual pitch, D',
    source: 'NAVEDTRA 14018',
    status: 'seen',
    ours: pitchLimits(1).usual.high,
    theirs: 8,
    within: 0,
  },
  {
    what: 'widest pitch anybody allows, D',
    source: 'aircraft trade journal',
    status: 'seen',
    ours: pitchLimits(1).most.high,
    theirs: 10,
    within: 0,
  },
  {
    what: 'least edge distance of 1/8 in, in',
    work: 'faa',
    source: 'chapter 4',
    status: 'rule seen',
    ours: inches(edgeDistance(eighth).least),
    theirs: 1 / 4,
    within: 1e-9,
  },
  {
    what: 'greatest edge distance, D',
    work: 'faa',
    source: 'chapter 4',
    status: 'seen',
    ours: edgeDistance(1).most,
    theirs: 4,
    within: 0,
  },
  {
    what: 'hole for 1/8 in, in',
    source: 'WWII aircraft repair manual: #30',
    status: 'seen',
    ours: inches(holeFor(eighth)),
    theirs: 0.1285,
    within: 1e-9,
  },
  {
    what: 'hole for 1/16 in, in',
    source: 'WWII aircraft repair manual: #52',
    status: 'seen',
    ours: inches(holeFor(25.4 / 16)),
    theirs: 0.0635,
    within: 1e-9,
  },
  {
    what: 'hole for 3/32 in, least, in',
    source: 'MIL-R-47196A',
    status: 'seen',
    ours: (holeFor((25.4 * 3) / 32).low ?? 0) / 25.4,
    theirs: 0.093,
    within: 1e-9,
  },
  {
    what: 'hole for 3/32 in, most, in',
    source: 'MIL-R-47196A',
    status: 'seen',
    ours: (holeFor((25.4 * 3) / 32).high ?? 0) / 25.4,
    theirs: 0.103,
    within: 1e-9,
  },
  {
    what: 'hole for 5/32 in, in',
    source: 'FAA handbook: #21',
    status: 'from memory',
    ours: inches(holeFor((25.4 * 5) / 32)),
    theirs: 0.159,
    within: 1e-9,
  },
  {
    what: 'hole for 3/32 in, in',
    source: 'FAA handbook: #40',
    status: 'from memory',
    ours: inches(holeFor((25.4 * 3) / 32)),
    theirs: 0.098,
    within: 1e-9,
  },
  {
    what: 'hole for 3/16 in, in',
    source: 'FAA handbook: #11',
    status: 'from memory',
    ours: inches(holeFor((25.4 * 3) / 16)),
    theirs: 0.191,
    within: 1e-9,
  },
  {
    what: 'hole for 3/16 in by the older manual, in',
    source: 'WWII aircraft repair manual: #12',
    status: 'seen',
    ours: (holeFor((25.4 * 3) / 16).low ?? 0) / 25.4,
    theirs: 0.189,
    within: 1e-9,
  },
  {
    what: 'hole for 1/4 in, in',
    source: 'FAA handbook: F',
    status: 'from memory',
    ours: inches(holeFor(6.35)),
    theirs: 0.257,
    within: 1e-9,
  },
  {
    what: 'hole for 4 mm, widest',
    source: 'DIN practice',
    status: 'from memory',
    ours: holeFor(4).high,
    theirs: 4.2,
    within: 1e-9,
  },
  { what: 'hole for 8 mm', source: 'DIN practice', status: 'from memory', ours: holeFor(8), theirs: 8.4, within: 1e-9 },
  {
    what: 'length by volume, 4 mm domed, hole 4.2, stack 2.4',
    source: 'volumes worked apart from the DIN 660 head',
    status: 'worked',
    ours: rivetLengthByVolume({ stack: 2.4, shank: 4, hole: 4.2, head: 'domed' }),
    theirs: 6.9,
    within: 0.005,
  },
  {
    what: 'shank for the domed head alone, D',
    source: 'worked apart',
    status: 'worked',
    ours: formedHead('domed', 4).volume.value / (Math.PI * 4) / 4,
    theirs: 1.06,
    within: 0.005,
  },
  {
    what: 'shank for the flat shop head alone, D',
    source: 'worked apart: 1.5² × 0.5',
    status: 'worked',
    ours: formedHead('flat', 4).volume.value / (Math.PI * 4) / 4,
    theirs: 1.125,
    within: 1e-9,
  },
  {
    what: 'flat shop head, width in D',
    source: 'FAA AC 43.13 and a WWII repair manual',
    status: 'seen',
    ours: formedHead('flat', 1).diameter,
    theirs: 1.5,
    within: 0,
  },
  {
    what: 'flat shop head, height in D',
    source: 'FAA AC 43.13 and a WWII repair manual',
    status: 'seen',
    ours: formedHead('flat', 1).height,
    theirs: 0.5,
    within: 0,
  },
  {
    what: 'shank to stand out for a flush head in a tight hole, D',
    source: 'worked apart from the DIN 661 head',
    status: 'worked',
    ours: (rivetLengthByVolume({ stack: 4, shank: 4, hole: 4, head: 'flush' }).value - 4) / 4,
    theirs: 0.47,
    within: 0.005,
  },
  {
    what: 'joint: rivet shears, N',
    source: 'textbook formulas, worked apart',
    status: 'worked',
    ours: strength.shear,
    theirs: 3142,
    within: 0.5,
  },
  {
    what: 'joint: plate crushes, N',
    source: 'textbook formulas, worked apart',
    status: 'worked',
    ours: strength.bearing,
    theirs: 2880,
    within: 0.5,
  },
  {
    what: 'joint: plate tears, N',
    source: 'textbook formulas, worked apart',
    status: 'worked',
    ours: strength.tearing,
    theirs: 4248,
    within: 0.5,
  },
  {
    what: 'joint: out through the edge, N',
    source: 'textbook formulas, worked apart',
    status: 'worked',
    ours: strength.shearOut,
    theirs: 2549,
    within: 0.5,
  },
  {
    what: 'joint: governing, N',
    source: 'textbook formulas, worked apart',
    status: 'worked',
    ours: strength.governing,
    theirs: 2549,
    within: 0.5,
  },
]);

describe('Traps of the rivets', () => {
  it('head diameters are not twice the shank, as some web tables print for DIN 660 and 661', () => {
    for (const shank of [2, 3, 4, 5, 6, 8]) assert.ok(rivetHead('domed', shank).diameter.value < 1.8 * shank);
  });

  it('the joint names its weakest way: 2 D from the edge tears out before the rivet shears', () => {
    assert.match(strength.governing.note ?? '', /through the edge/);
  });

  it('the volume needs less than the 1.5 D rule for a domed head', () => {
    const volume = rivetLengthByVolume({ stack: 2.4, shank: 4, hole: 4.2, head: 'domed' }).value;
    assert.ok(rivetLengthByRule({ stack: 2.4, shank: 4 }).value - volume > 1.4);
  });
});

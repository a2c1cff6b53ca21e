import { radiusToRollTo } from '../../server/trade/bend/bend.ts';
import { domeTightestRadius } from '../../server/trade/dome/curvature.ts';
import { stretchLimit } from '../../server/trade/dome/dome.ts';
import { metal, shearByTensile } from '../../server/trade/metal/metals.ts';
import {
  finishedThickness,
  millTolerance,
  startThickness,
  sureMetricSheetOver,
  zincOn,
} from '../../server/trade/metal/stock.ts';
import { holdsAgainst, type Row } from './rows.ts';

holdsAgainst('Stock', [
  ...(
    [
      [0.7, 0.04],
      [0.9, 0.05],
      [1.1, 0.06],
      [1.5, 0.08],
      [1.75, 0.1],
      [2.25, 0.12],
      [2.75, 0.15],
    ] as const
  ).map(
    ([nominal, either]): Row => ({
      what: `tolerance of ${nominal} mm cold-rolled sheet, mm`,
      source: 'EN 10131, normal tolerance to 1200 mm wide',
      status: 'from memory',
      ours: millTolerance(nominal),
      theirs: either,
      within: 0,
    }),
  ),
  {
    what: '1.6 mm asked for, a fifth lost in dishing, mm',
    source: 'worked apart: 1.6 ÷ 0.8',
    status: 'worked',
    ours: startThickness({ asked: 1.6, thickness: 1, least: { value: 0.8 } }),
    theirs: 2,
    within: 1e-9,
  },
  {
    what: '16 ga galvanised less its zinc is 16 ga of the standard gauge of uncoated sheet, by weight 2.5 lb/ft², mm',
    source: '40 oz/ft² ÷ (16 × 41.82) in, worked apart; galvanised charts give 0.0635 in with 2.5 oz/ft² of zinc',
    status: 'worked',
    ours: 0.0635 * 25.4 - zincOn('gauge').value,
    theirs: 1.5184,
    within: 0.0013, // the chart rounds to a ten-thousandth of an inch
  },
  {
    what: 'Z275, both faces together, mm',
    source: 'EN 10346: 275 g/m², about 20 µm a face',
    status: 'from memory',
    ours: zincOn('millimetres'),
    theirs: 0.04,
    within: 0.0025,
  },
  {
    what: '2 mm that forming leaves 1.8 mm of, planished, the mill 0.1 mm off, at the thinnest, mm',
    source: 'worked apart: 1.8 × (1 − 0.1/2) × 0.95',
    status: 'worked',
    ours: finishedThickness({ least: { value: 1.8 }, thickness: 2, planished: true, mill: 0.1 }).low,
    theirs: 1.6245,
    within: 1e-9,
  },
  {
    what: 'sheet to order for 1.6 mm at the least',
    source: 'EN 10131: 1.6 may come as 1.52, 1.75 as 1.65',
    status: 'from memory',
    ours: sureMetricSheetOver(1.6),
    theirs: 1.75,
    within: 0,
  },
]);

holdsAgainst('Rolling and stakes', [
  {
    what: 'radius to roll to for 70.5 mm, Sy 200, 1.2 mm steel',
    source: 'manufacturing textbooks’ springback formula, 60 → 70.5 (worked from memory of it)',
    status: 'worked',
    ours: radiusToRollTo({ radius: 70.55, yield: 200, modulus: 200_000, thickness: 1.2 }),
    theirs: 60,
    within: 0.05,
  },
  {
    what: 'sphere of a cap 200 mm across and 60 deep',
    source: 'worked apart: 113.33',
    status: 'worked',
    ours: domeTightestRadius(200, 200, 60),
    theirs: 113.33,
    within: 0.005,
  },
  {
    what: 'tightest place of half an ellipsoid 210 × 170 × 110 deep',
    source: 'curvature of an ellipsoid at the end of its longest axis, 85²/110',
    status: 'worked',
    ours: domeTightestRadius(210, 170, 110),
    theirs: 65.68,
    within: 0.005,
  },
]);

holdsAgainst('How far it goes', [
  {
    what: 'C26000 soft, stretch at the break as true strain',
    source: 'data sheet of C26000 strip: 53 %',
    status: 'rule seen',
    ours: stretchLimit(metal('brass').elongation),
    theirs: 0.4253,
    within: 5e-5,
  },
  {
    what: 'shear of DC01 of 340 MPa tensile, at the least, MPa',
    source: 'answer of a steel construction institute, quoted on a trade page: 75 % of the tensile',
    status: 'rule seen',
    ours: shearByTensile({ tensile: 340, metal: metal('mild steel') }).low,
    theirs: 255,
    within: 0.5,
  },
  {
    what: 'the same, as a punch must overcome it, MPa',
    source: 'handbooks: 80 % of the tensile',
    status: 'from memory',
    ours: shearByTensile({ tensile: 340, metal: metal('mild steel') }),
    theirs: 272,
    within: 0.5,
  },
]);

import { strict as assert } from 'node:assert';
import {
  knownGrades,
  knownTempers,
  type Metal,
  type MetalId,
  metal,
  metalIds,
  shearByTensile,
  type Temper,
} from '../../../server/trade/metal/metals.ts';
import { near } from '../numbers.ts';

/** What may be asked for, and what each alloy is made of by its standard. */
const ASKED: Readonly<Record<MetalId, { readonly holds: string; readonly grades: Readonly<Record<string, string>> }>> =
  {
    'mild steel': {
      holds: '',
      grades: { DC01: 'soft', DC03: 'soft', DC04: 'soft', DC05: 'soft', DC06: 'soft', 1008: 'soft', 1018: 'half hard' },
    },
    'galvanised steel': {
      holds: 'zinc',
      grades: { DC01: 'soft', DC03: 'soft', DC04: 'soft', DC05: 'soft', DC06: 'soft', 1008: 'soft', 1018: 'half hard' },
    },
    'stainless steel': {
      holds: 'chromium, nickel',
      grades: { 304: 'soft', 410: 'soft: chromium', 430: 'soft: chromium' },
    },
    'spring steel': {
      holds: '',
      grades: {
        1075: 'soft, tempered, spring hard',
        1095: 'soft, tempered, spring hard',
        5160: 'soft, tempered, spring hard',
        1050: 'soft, tempered, spring hard',
      },
    },
    'alloy steel': { holds: '', grades: { 4130: 'normalised' } },
    tinplate: { holds: 'tin', grades: { 'as DC01': 'soft' } },
    'wrought iron': { holds: '', grades: { best: 'soft' } },
    brass: {
      holds: 'copper, zinc',
      grades: { C26000: 'soft, quarter hard, half hard, three-quarter hard, hard, spring hard' },
    },
    // What is sold as commercial bronze, C220, is a brass.
    bronze: { holds: 'copper, tin', grades: { C220: 'soft: copper, zinc', C510: 'half hard' } },
    copper: { holds: 'copper', grades: { C11000: 'soft, half hard' } },
    'nickel silver': { holds: 'copper, zinc, nickel', grades: { C75200: 'soft, half hard' } },
    aluminium: {
      holds: 'aluminium',
      grades: { 5052: 'soft, quarter hard', 6061: 'soft, tempered', 2024: 'soft, tempered: aluminium, copper' },
    },
    titanium: { holds: '', grades: { 'grade 2': 'soft', 'grade 5': 'soft: aluminium' } },
  };

const FIGURES = [
  'density',
  'yield',
  'tensile',
  'elongation',
  'shear',
  'hardening',
  'bendRadius',
  'strainBeforeAnneal',
  'modulus',
  'anodicIndex',
] as const;

/** Every state of every metal. */
const every: readonly Metal[] = metalIds.flatMap((id) =>
  knownGrades(id).flatMap((grade) => knownTempers(id, grade).map((temper) => metal(id, { grade, temper }))),
);
const named = ({ id, grade, temper }: Metal) => `${id} ${grade}, ${temper}`;

describe('The metals', () => {
  for (const id of metalIds) {
    it(`${id}: its grades, their tempers, and what the dust and fume of each hold`, () => {
      const { holds, grades } = ASKED[id];
      assert.deepEqual([...knownGrades(id)].sort(), Object.keys(grades).sort());
      for (const [grade, line] of Object.entries(grades)) {
        const [tempers, own] = line.split(': ') as [string, string?];
        assert.deepEqual([...knownTempers(id, grade)].sort(), tempers.split(', ').sort(), grade);
        assert.deepEqual(metal(id, { grade }).contains.join(', '), own ?? holds, grade);
      }
    });
  }

  it('take a grade however it is written, and the usual one for none', () => {
    for (const spelt of ['c-26000', 'C 26000', 'c26000'])
      assert.equal(metal('brass', { grade: spelt }).grade, 'C26000');
    assert.equal(metal('titanium', { grade: 'GRADE-5' }).yield.value, 855);
    assert.equal(metal('titanium', { grade: 'Grade 2' }).yield.value, 310);
    assert.deepEqual(knownTempers('mild steel', '10-18'), ['half hard']);
    assert.deepEqual(knownTempers('mild steel', 'no such'), ['soft']);
    assert.deepEqual(knownTempers('mild steel'), ['soft']);
    assert.equal(metal('aluminium', { grade: '6061' }).temper, 'tempered');
    assert.equal(metal('aluminium', { grade: '6061', temper: 'soft' }).temper, 'soft');
  });

  it('have every figure in every state, a range with two ends or none, and a source', () => {
    for (const one of every) {
      for (const name of FIGURES) {
        const figure = one[name];
        const where = `${named(one)}: ${name}`;
        assert.ok(figure, where);
        assert.ok(Number.isFinite(figure.value) && figure.source.length > 0, where);
        assert.equal('low' in figure, 'high' in figure, where);
        if ('low' in figure) {
          assert.ok(figure.low! <= figure.value && figure.value <= figure.high!, where);
          assert.ok(figure.low! < figure.high!, `${where}: a range of nothing is none`);
        }
      }
    }
  });

  it('take a set before they break, shear before they tear, and are lighter than lead', () => {
    for (const one of every) {
      assert.ok(one.yield.value > 0 && one.yield.value < one.tensile.value, named(one));
      const shear = one.shear.value / one.tensile.value;
      assert.ok(shear > 0.5 && shear < 0.85, `${named(one)}: shear ${shear} of tensile`);
      assert.ok(one.density.value > 2.6 && one.density.value < 9, named(one));
      assert.ok(one.hardening.value > 0 && one.hardening.value < 0.6, named(one));
    }
  });

  it('grow stronger, stretch less, bend less tightly and are annealed sooner the harder they are', () => {
    const order: readonly Temper[] = [
      'soft',
      'quarter hard',
      'half hard',
      'three-quarter hard',
      'hard',
      'spring hard',
      'tempered',
    ];
    for (const id of metalIds) {
      for (const grade of knownGrades(id)) {
        const states = order
          .filter((temper) => knownTempers(id, grade).includes(temper))
          .map((temper) => metal(id, { grade, temper }));
        states.forEach((harder, index) => {
          const softer = states[index - 1];
          if (!softer) return;
          assert.ok(harder.yield.value >= softer.yield.value, named(harder));
          assert.ok(harder.tensile.value >= softer.tensile.value, named(harder));
          assert.ok(harder.elongation.value <= softer.elongation.value, named(harder));
          assert.ok(harder.hardening.value <= softer.hardening.value, named(harder));
          assert.ok(harder.strainBeforeAnneal.value <= softer.strainBeforeAnneal.value, named(harder));
          if (id !== 'aluminium') assert.ok(harder.bendRadius.value >= softer.bendRadius.value, named(harder));
        });
      }
    }
  });

  it('are hardened by quenching where they have the carbon for it', () => {
    const hardening = metalIds.flatMap((id) =>
      knownGrades(id)
        .filter((grade) => metal(id, { grade }).hardens)
        .map((grade) => `${id} ${grade}`),
    );
    assert.deepEqual(hardening.sort(), [
      'alloy steel 4130',
      'spring steel 1050',
      'spring steel 1075',
      'spring steel 1095',
      'spring steel 5160',
      'stainless steel 410',
    ]);
  });

  it('are put to the Keeler limit where they are soft low-carbon steel, coated or not', () => {
    const drawn = every.filter(({ keelerHolds }) => keelerHolds).map(({ id, grade }) => `${id} ${grade}`);
    for (const id of ['mild steel', 'galvanised steel'])
      for (const grade of ['DC01', 'DC03', 'DC04', 'DC05', 'DC06', '1008'])
        assert.ok(drawn.includes(`${id} ${grade}`), `${id} ${grade}`);
    assert.equal(drawn.length, 13, 'and tinplate');
    assert.ok(drawn.includes('tinplate as DC01'));
  });

  it('shear at 0.75 to 0.8 of the tensile strength where their books give only that', () => {
    // DC01, 270 to 410 MPa: 0.75 × 270, 0.8 × 340, 0.8 × 410.
    const { shear } = metal('mild steel');
    near(shear.low!, 202.5);
    near(shear.value, 272);
    near(shear.high!, 328);
    // Phosphor bronze, 470 MPa without a range of its own.
    const bronze = metal('bronze', { grade: 'C510' }).shear;
    near(bronze.low!, 352.5);
    near(bronze.high!, 376);
  });

  it('keep their share of shear when their own tensile strength is told', () => {
    // 304: 455 of 620 MPa.
    near(shearByTensile({ tensile: 700, metal: metal('stainless steel') }).value, (700 * 455) / 620);
    assert.match(shearByTensile({ tensile: 0, metal: metal('copper') }).outside ?? '', /tensile/);
  });
});

describe('EN 10130:1999, soft sheet for cold forming', () => {
  // Most yield stress, least and most tensile strength, MPa; least stretch over 80 mm, percent.
  const STANDARD: readonly (readonly [string, number, number, number, number])[] = [
    ['DC01', 280, 270, 410, 28],
    ['DC03', 240, 270, 370, 34],
    ['DC04', 210, 270, 350, 38],
    ['DC05', 180, 270, 330, 40],
    ['DC06', 180, 270, 350, 38],
  ];
  for (const [grade, yieldMost, tensileLeast, tensileMost, stretch] of STANDARD) {
    it(`${grade} keeps to the standard’s limits, and its usual figures lie within them`, () => {
      const one = metal('mild steel', { grade });
      assert.equal(one.yield.high, yieldMost);
      assert.ok(one.yield.low! >= 100 && one.yield.low! <= 140 && one.yield.value < yieldMost);
      near(one.yield.value, 0.75 * yieldMost);
      assert.deepEqual([one.tensile.low, one.tensile.high], [tensileLeast, tensileMost]);
      near(one.tensile.value, (tensileLeast + tensileMost) / 2);
      assert.equal(one.elongation.low, stretch);
      assert.ok(one.elongation.high! > stretch && one.elongation.high! < 60);
    });
  }

  it('the deeper it is meant to be drawn, the lower it yields', () => {
    const yields = STANDARD.map(([grade]) => metal('mild steel', { grade }).yield.value);
    assert.deepEqual(
      yields,
      [...yields].sort((one, other) => other - one),
    );
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { ellipseArea } from '../../../server/trade/blank/plane-shapes.ts';
import {
  annealsNeeded,
  domeArea,
  domeBlankArc,
  domeBlankEqualArea,
  domeBlankHeld,
  domeMeridian,
  domeRadius,
  domeThickness,
  type FormingMethod,
  formingLimit,
  gore,
  goreHalfWidth,
  ovalDomeArea,
  ovalDomeBlankArc,
  ovalDomeBlankEqualArea,
  ovalDomeBlankHeld,
  raisingCourses,
} from '../../../server/trade/dome/dome.ts';
import { metal } from '../../../server/trade/metal/metals.ts';
import { length, near, share, thickness } from '../numbers.ts';

const METHODS: readonly FormingMethod[] = ['dish', 'raise', 'dish then raise', 'held'];

describe('Domes', () => {
  it('of no depth are flat discs, exactly', () => {
    fc.assert(
      fc.property(length, length, thickness, (d, w, t) => {
        assert.equal(domeArea(d, 0).value, Math.PI * (d / 2) ** 2);
        for (const blank of [domeBlankHeld, domeBlankArc]) assert.equal(blank(d, 0).value, d);
        near(domeBlankEqualArea(d, 0).value, d, 1e-15);
        near(ovalDomeArea(d, w, 0).value, ellipseArea(d, w).value, 1e-15);
        assert.equal(ovalDomeBlankArc(d, w, 0).long.value, d);
        assert.match(domeRadius(d, 0).outside ?? '', /flat/);
        for (const method of METHODS) {
          const formed = domeThickness({ diameter: d, wide: w, deep: 0, thickness: t, hardening: 0.2, method });
          for (const place of [formed.crown, formed.edge, formed.least]) near(place.value, t, 1e-14);
          near(formed.crown.low ?? 0, t, 1e-14);
          near(1 + formed.strainCrown.value, 1, 1e-14);
          near(1 + formed.strainEdge.value, 1, 1e-7);
        }
      }),
    );
  });

  it('keep their areas in step with their lengths: twice as long, four times as large', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        near(domeArea(2 * d, 2 * u * d).value, 4 * domeArea(d, u * d).value);
        near(ovalDomeArea(2 * d, 2 * w, 2 * h).value, 4 * ovalDomeArea(d, w, h).value);
        near(domeMeridian(2 * d, 2 * h).value, 2 * domeMeridian(d, h).value);
        near(ovalDomeBlankArc(2 * d, 2 * w, 2 * h).wide.value, 2 * ovalDomeBlankArc(d, w, h).wide.value);
      }),
    );
  });

  it('do not jump where a part of a sphere gives way to half an ellipsoid', () => {
    fc.assert(
      fc.property(length, length, (d, w) => {
        for (const [one, other] of [
          [domeArea(d, (d / 2) * (1 - 1e-9)), domeArea(d, (d / 2) * (1 + 1e-9))],
          [domeMeridian(d, (d / 2) * (1 - 1e-9)), domeMeridian(d, (d / 2) * (1 + 1e-9))],
          [domeRadius(d, (d / 2) * (1 - 1e-9)), domeRadius(d, (d / 2) * (1 + 1e-9))],
        ] as const) {
          near(one.value, other.value, 1e-8);
        }
        const narrow = Math.min(d, w) / 2;
        near(ovalDomeArea(d, w, narrow * (1 - 1e-9)).value, ovalDomeArea(d, w, narrow * (1 + 1e-9)).value, 1e-8);
        near(
          ovalDomeBlankArc(d, w, narrow * (1 - 1e-9)).long.value,
          ovalDomeBlankArc(d, w, narrow * (1 + 1e-9)).long.value,
          1e-8,
        );
      }),
    );
  });

  it('do not jump where the curve is too slight for a double', () => {
    fc.assert(
      fc.property(length, length, (d, w) => {
        const h = (Math.min(d, w) / 2) * 1e-7;
        near(ovalDomeArea(d, w, h * 0.99).value, ovalDomeArea(d, w, h * 1.01).value, 1e-12);
        near(ovalDomeBlankArc(d, w, h * 0.99).long.value, ovalDomeBlankArc(d, w, h * 1.01).long.value, 1e-12);
      }),
    );
  });

  it('with equal axes are the round dome, exactly, and nearly equal axes come to it', () => {
    fc.assert(
      fc.property(length, share, thickness, (d, u, t) => {
        const h = (u * d) / 2;
        assert.equal(ovalDomeArea(d, d, h).value, domeArea(d, h).value);
        near(ovalDomeArea(d, d * (1 + 1e-9), h).value, domeArea(d, h).value, 1e-8);
        near(ovalDomeBlankEqualArea(d, d, h).long.value, domeBlankEqualArea(d, h).value, 1e-14);
        near(ovalDomeBlankArc(d, d, h).wide.value, domeBlankArc(d, h).value, 1e-14);
        near(ovalDomeBlankArc(d, d * (1 + 1e-9), h).long.value, domeBlankArc(d, h).value, 1e-8);
        assert.equal(ovalDomeBlankHeld(d, d, h).wide.value, d);
        for (const method of METHODS) {
          const common = { deep: h, thickness: t, hardening: 0.2, method };
          near(
            domeThickness({ diameter: d, wide: d * (1 + 1e-9), ...common }).crown.value,
            domeThickness({ diameter: d, ...common }).crown.value,
            1e-7,
          );
        }
      }),
    );
  });

  it('do not care which axis is called the long one', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        near(ovalDomeArea(d, w, h).value, ovalDomeArea(w, d, h).value);
        near(ovalDomeBlankArc(d, w, h).long.value, ovalDomeBlankArc(w, d, h).wide.value);
      }),
    );
  });

  it('have blanks in order: held, equal-area, all shrink', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        assert.ok(d <= domeBlankEqualArea(d, h).value * (1 + 1e-12));
        assert.ok(domeBlankEqualArea(d, h).value <= domeBlankArc(d, h).value * (1 + 1e-12));
        const areas = [ovalDomeBlankHeld, ovalDomeBlankEqualArea, ovalDomeBlankArc].map(
          (blank) => blank(d, w, h).area.value,
        );
        assert.ok((areas[0] as number) <= (areas[1] as number) * (1 + 1e-12));
        assert.ok((areas[1] as number) <= (areas[2] as number) * (1 + 1e-12));
      }),
    );
  });

  it('have an equal-area oval blank with the area of the dome and the ratio of the rim', () => {
    fc.assert(
      fc.property(length, length, share, (d, w, u) => {
        const h = (u * Math.min(d, w)) / 2;
        const blank = ovalDomeBlankEqualArea(d, w, h);
        near(blank.area.value, ovalDomeArea(d, w, h).value);
        near(blank.long.value / blank.wide.value, d / w);
      }),
    );
  });

  it('agree with a crude sum over the ellipsoid, done another way', () => {
    // Areas of small facets, by cross products: an independent road to the same number.
    const facets = (a: number, b: number, c: number, to: number): number => {
      const at = (i: number, j: number) => {
        const θ = (to * i) / 400;
        const φ = (2 * Math.PI * j) / 400;
        return [a * Math.sin(θ) * Math.cos(φ), b * Math.sin(θ) * Math.sin(φ), c * Math.cos(θ)] as const;
      };
      let sum = 0;
      for (let i = 0; i < 400; i++) {
        for (let j = 0; j < 400; j++) {
          const [p, q, r, s] = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
          const x = [0, 1, 2].map((k) => (r[k] as number) - (p[k] as number)) as [number, number, number];
          const y = [0, 1, 2].map((k) => (s[k] as number) - (q[k] as number)) as [number, number, number];
          sum += Math.hypot(x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]) / 2;
        }
      }
      return sum;
    };
    near(ovalDomeArea(235, 195, 150).value, facets(117.5, 97.5, 150, Math.PI / 2), 5e-5);
    // Shallow: the sphere of the narrow axis, stretched.
    const radius = (97.5 ** 2 + 60 ** 2) / 120;
    near(
      ovalDomeArea(235, 195, 60).value,
      facets((radius * 235) / 195, radius, radius, 2 * Math.atan(60 / 97.5)),
      5e-5,
    );
  });
});

describe('Thickness of domes', () => {
  /** How many times as long as wide, or as wide as long. */
  const longer = fc.double({ min: 0.25, max: 4, noNaN: true });

  it('at the crown never grows with the depth, whatever the method', () => {
    fc.assert(
      fc.property(length, longer, share, share, thickness, fc.constantFrom(...METHODS), (d, by, u, v, t, method) => {
        const w = d * by;
        const [less, more] = [Math.min(u, v), Math.max(u, v)].map((s) => (s * Math.min(d, w)) / 2) as [number, number];
        const crown = (deep: number) =>
          domeThickness({ diameter: d, wide: w, deep, thickness: t, hardening: 0.18, method }).crown.value;
        assert.ok(crown(more) <= crown(less) * (1 + 1e-9), `${crown(more)} over ${crown(less)}`);
      }),
      { numRuns: 400 },
    );
  });

  it('of an oval more than four times as long as wide is refused', () => {
    const of = (wide: number) =>
      domeThickness({ diameter: 50, wide, deep: 20, thickness: 1.5, hardening: 0.18, method: 'dish' }).crown.outside;
    assert.equal(of(200), undefined);
    assert.match(of(201)!, /four times as long/);
    assert.match(of(12)!, /four times as long/);
  });

  it('is least at the crown, and the rim of a raised dome is the thickest', () => {
    fc.assert(
      fc.property(length, share, thickness, fc.constantFrom(...METHODS), (d, u, t, method) => {
        const formed = domeThickness({ diameter: d, deep: (u * d) / 2, thickness: t, hardening: 0.2, method });
        assert.ok(formed.least.value <= formed.edge.value * (1 + 1e-12));
        if (method !== 'held') assert.ok(formed.edge.value >= t * (1 - 1e-12));
      }),
    );
  });

  it('of dishing keeps the volume, summed over the dome', () => {
    // t at a meridian place s' is t0/(λ · r/ρ'), with ρ' = s'/λ: the model itself, summed by another road.
    const d = 200;
    const h = 60;
    const a = d / 2;
    const radius = (a * a + h * h) / (2 * h);
    const s = domeMeridian(d, h).value;
    const ρ = domeBlankEqualArea(d, h).value / 2;
    const λ = s / ρ;
    const formed = domeThickness({ diameter: d, deep: h, thickness: 1.2, hardening: 0.2, method: 'dish' });
    let volume = 0;
    const steps = 20_000;
    for (let index = 0; index < steps; index++) {
      const along = ((index + 0.5) * s) / steps;
      const r = radius * Math.sin(along / radius);
      const t = 1.2 / (λ * (r / (along / λ)));
      volume += 2 * Math.PI * r * t * (s / steps);
      if (index === 0) near(t, formed.crown.value, 1e-6);
      if (index === steps - 1) near(t, formed.edge.value, 1e-3);
    }
    near(volume, Math.PI * ρ * ρ * 1.2, 1e-8);
    near(volume / domeArea(d, h).value, 1.2, 1e-8);
  });

  it('of dishing then raising lies between the two', () => {
    const common = { diameter: 210, deep: 90, thickness: 1.5, hardening: 0.18 } as const;
    const [dish, both, raise] = (['dish', 'dish then raise', 'raise'] as const).map((method) =>
      domeThickness({ ...common, method }),
    ) as [ReturnType<typeof domeThickness>, ReturnType<typeof domeThickness>, ReturnType<typeof domeThickness>];
    assert.ok(dish.crown.value < both.crown.value && both.crown.value < raise.crown.value);
    assert.ok(dish.strainCrown.value > both.strainCrown.value && both.strainCrown.value > raise.strainCrown.value);
  });

  it('says its model in words', () => {
    const formed = domeThickness({ diameter: 210, deep: 60, thickness: 1.5, hardening: 0.18, method: 'dish' });
    assert.match(formed.crown.source, /[Ee]ven stretch/);
    assert.match(formed.crown.note ?? '', /from memory/);
    assert.equal(formed.crown.formula, 't = t0 × (ρ/s)²');
  });
});

describe('Anneals, courses and limits', () => {
  it('an anneal count never falls with the strain and starts at none', () => {
    const { strainBeforeAnneal } = metal('mild steel');
    assert.equal(annealsNeeded(0, strainBeforeAnneal).value, 0);
    fc.assert(
      fc.property(share, share, (one, other) => {
        const less = annealsNeeded(Math.min(one, other), strainBeforeAnneal).value;
        assert.ok(less <= annealsNeeded(Math.max(one, other), strainBeforeAnneal).value);
      }),
    );
  });

  it('exactly two allowances ask for one anneal', () => {
    assert.equal(annealsNeeded(0.6, { value: 0.3, basis: 'common practice', source: 'test' }).value, 1);
  });

  it('no raising is needed for a blank as large as the rim, and a smaller one is refused', () => {
    assert.equal(raisingCourses(200, 200).value, 0);
    assert.match(raisingCourses(190, 200).outside ?? '', /smaller/);
  });

  it('the forming limit rises with thickness to 3 mm and not beyond', () => {
    const limit = (t: number) => formingLimit({ thickness: t, hardening: 0.2 }).value;
    assert.ok(limit(1) < limit(2) && limit(2) < limit(3));
    assert.equal(limit(4), limit(3));
    assert.ok(formingLimit({ thickness: 4, hardening: 0.2 }).outside !== undefined);
  });
});

describe('Gores', () => {
  it('together have the area of the dome', () => {
    fc.assert(
      fc.property(length, share, fc.integer({ min: 3, max: 24 }), (d, u, n) => {
        near(gore(d, (u * d) / 2, n).area.value * n, domeArea(d, (u * d) / 2).value);
      }),
    );
  });

  it('narrow from the rim to a point, deep ones too, and the strip between has their area', () => {
    for (const deep of [40, 100, 180]) {
      const one = gore(200, deep, 6);
      near(2 * goreHalfWidth(200, deep, 6, 0), one.wide.value, 1e-9);
      assert.ok(Math.abs(goreHalfWidth(200, deep, 6, one.long.value)) < 1e-6);
      const steps = 400;
      let area = 0;
      for (let index = 0; index < steps; index++) {
        area += 2 * goreHalfWidth(200, deep, 6, ((index + 0.5) * one.long.value) / steps) * (one.long.value / steps);
      }
      near(area, one.area.value, 1e-4);
    }
  });
});

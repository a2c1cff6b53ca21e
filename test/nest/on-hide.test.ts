import assert from 'node:assert/strict';
import fc from 'fast-check';
import { atOnce } from '../../server/incremental/steps.ts';
import { type HideShape, layOnHides } from '../../server/nest/on-hide.ts';
import { layoutsOf, writeLayout } from '../../server/output/documents/patterns/layouts.ts';
import { modelIn, problemsIn } from '../checks/specs.ts';

/** Rounded at the neck, wide at the belly, with a brand in it; y down. */
const HIDE: HideShape = {
  long: 1200,
  wide: 800,
  rings: [
    [
      [0, 300],
      [250, 100],
      [600, 0],
      [1000, 60],
      [1200, 250],
      [1200, 560],
      [980, 760],
      [560, 800],
      [220, 690],
      [0, 500],
    ],
    [
      [500, 350],
      [600, 350],
      [600, 450],
      [500, 450],
    ],
  ],
};

const isInside = (x: number, y: number) =>
  HIDE.rings.reduce(
    (inside, ring) =>
      inside !==
      ring.reduce((odd, [ax, ay], i) => {
        const [bx, by] = ring[(i + 1) % ring.length]!;
        return ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay) ? !odd : odd;
      }, false),
    false,
  );

describe('blanks on a hide', () => {
  it('lie whole inside its edge, clear of its holes and of each other, whatever they are', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            long: fc.integer({ min: 20, max: 500 }),
            wide: fc.integer({ min: 20, max: 300 }),
            copies: fc.integer({ min: 1, max: 4 }),
          }),
          { minLength: 1, maxLength: 6 },
        ),
        fc.integer({ min: 0, max: 20 }),
        (sizes, kerf) => {
          const blanks = sizes.map((size, i) => ({ ...size, id: `b${i}` }));
          const { hides, unplaced } = atOnce(layOnHides(blanks, { shape: HIDE, margin: 8, kerf }));
          const laid = hides.flat();
          const left = [...unplaced.values()].reduce((a, b) => a + b, 0);
          assert.equal(
            laid.length + left,
            blanks.reduce((sum, { copies }) => sum + copies, 0),
          );
          for (const { x, y, long, wide } of laid)
            for (let i = 0; i <= 8; i++)
              for (let j = 0; j <= 8; j++) assert.ok(isInside(x + (long * i) / 8, y + (wide * j) / 8), `${x} ${y}`);
          for (const on of hides)
            for (const [i, one] of on.entries())
              for (const other of on.slice(0, i)) {
                const gap = Math.max(
                  one.x - other.x - other.long,
                  other.x - one.x - one.long,
                  one.y - other.y - other.wide,
                  other.y - one.y - one.wide,
                );
                assert.ok(gap >= kerf, `${gap}`);
              }
        },
      ),
      { numRuns: 40 },
    );
  });

  it('that are too large say so, and a second hide is begun where one is full', () => {
    const { hides, unplaced } = atOnce(
      layOnHides(
        [
          { id: 'whole', long: 1190, wide: 790, copies: 2 },
          { id: 'back', long: 700, wide: 250, copies: 3, mirrored: true },
        ],
        { shape: HIDE, margin: 0, kerf: 2 },
      ),
    );
    assert.deepEqual([...unplaced], [['whole', 2]]);
    assert.ok(hides.length >= 2);
    assert.deepEqual(
      hides
        .flat()
        .sort((a, b) => a.copy - b.copy)
        .map(({ flipped }) => flipped),
      [false, true, false],
    );
  });

  it('run with the grain where they say so', () => {
    const turned = (grain: 'up' | 'across') =>
      atOnce(layOnHides([{ id: 'a', long: 200, wide: 60, copies: 1, grain }], { shape: HIDE, margin: 0, kerf: 0 }))
        .hides[0]![0]!.turned;
    assert.deepEqual([turned('up'), turned('across')], [true, false]);
  });
});

describe('a hide that is drawn', () => {
  const files = (hide: string) => ({
    'main.planish': `planish 1
material leather
  veg-tan leather 8 oz
  ${hide}
piece strip
  from leather
  make 3
  strip 400 x 60 mm
`,
    'hide.svg':
      '<svg xmlns="http://www.w3.org/2000/svg" width="1000mm" height="600mm" viewBox="0 0 1000 600"><path id="side" d="M 0 100 L 200 0 H 1000 V 600 H 200 L 0 500 Z M 400 200 H 500 V 300 H 400 Z"/></svg>',
    'unsized.svg':
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 900 900"><circle cx="450" cy="450" r="400"/></svg>',
  });

  it('has the area of its outline less what lies inside it', () => {
    const material = modelIn(files('hide "hide.svg", price 90.00')).materials()[0]!;
    // 1000 × 600, less two corners of 200 × 100, less 100 × 100.
    assert.ok(Math.abs(material.figures().get('hide')!.value - (600_000 - 20_000 - 10_000)) < 1);
    assert.equal(material.hides()[0]!.price, 90);
  });

  it('takes the blanks on its layout', () => {
    const model = modelIn(files('hide "hide.svg"'));
    const made = layoutsOf(model, { date: '2027-03-01', problems: [] });
    assert.deepEqual(made.missing, []);
    assert.deepEqual(
      made.sheets.map(({ title, laid }) => [title, laid.length]),
      [['leather, hide 1 of 1, 1000 × 600 mm', 4]],
    );
    assert.ok(atOnce(writeLayout(made, made.sheets[0]!, 'svg')).includes('strip 3'));
    const bare = layoutsOf(modelIn(files('hide 2 m2')), { date: '2027-03-01', problems: [] });
    assert.deepEqual([bare.sheets.length, bare.missing.length], [0, 1]);
  });

  it('says at its place what is wrong with its drawing, and half typed never throws', () => {
    const codes = (hide: string) => problemsIn(files(hide)).map(({ code }) => code);
    assert.ok(codes('hide "none.svg"').includes('drawing-missing'));
    assert.ok(codes('hide "hide.svg", named "sied"').includes('drawing-unusable'));
    assert.ok(codes('hide "unsized.svg"').includes('drawing-unit-unsaid'));
    assert.ok(!codes('hide "hide.svg", named "side"').some((code) => code.startsWith('drawing')));
    const whole = 'hide "hide.svg", named "side", price 90.00, have 1';
    for (let end = 0; end <= whole.length; end++) {
      codes(whole.slice(0, end));
      layoutsOf(modelIn(files(whole.slice(0, end))), { date: '2027-03-01', problems: [] });
    }
  });
});

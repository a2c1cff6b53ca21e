import assert from 'node:assert/strict';
import { figuresOf, nearFigure } from '../support.ts';

const STOCK = `build "Helm"
  duty stage
material plate
  mild steel 1.5 mm
rivet small
  mild steel 1/8 x 1/4 in, domed
wearer guard
  head round 585 mm
`;
const BOWL = `piece bowl
  from plate
  fits guard head, liner 10 mm
  dome 220 mm, deep 110 mm
`;
const helm = (more: string) => figuresOf(`${STOCK}${BOWL}${more}`);
/** Half a tube of 100 mm radius: its middle lies 200 ÷ π before the axis. */
const half = (name: string, line = '') =>
  `piece ${name}\n  from plate\n  ${line}${line && '\n  '}cylinder round 200 * pi * 1 mm, high 80 mm, wrap 180 deg\n`;

describe('centres of mass', () => {
  it('stand above the lower edge, and before the axis of what goes part of the way round', () => {
    const found = helm(half('visor', 'fits guard face'));
    nearFigure(found.get('bowl.centre.up'), 55);
    assert.equal(found.get('bowl.centre.front'), undefined);
    nearFigure(found.get('visor.centre.up'), 40, 0.01);
    nearFigure(found.get('visor.centre.front'), 200 / Math.PI, 0.01);
  });

  it('are left out where nothing is formed', () => {
    assert.equal(figuresOf(`${STOCK}piece band\n  from plate\n  strip 300 x 40 mm\n`).get('band.centre.up'), undefined);
    assert.equal(figuresOf(`${STOCK}piece bowl\n  from plate\n  dome\n`).get('bowl.centre.up'), undefined);
  });
});

describe('the balance of a helm', () => {
  it('is that of its plates, each round the axis of the head', () => {
    const found = helm(half('visor', 'fits guard face'));
    const [bowl, visor] = [found.get('bowl.mass')!.value, found.get('visor.mass')!.value];
    const front = found.get('build.helm-front')!;
    nearFigure(front, (visor * 200) / Math.PI / (bowl + visor), 0.01);
    assert.equal(front.low, undefined, 'all of it has a place');
  });

  it('turns a plate to where its row of rivets sits', () => {
    // Half of the rim is 345.6 mm: from a quarter to three quarters is the back of the head.
    const nape = (more: string) =>
      helm(
        `${half('tail')}seam nape\n  joins bowl, tail\n  along bowl.rim, from 172.8 mm to 518.4 mm\n${more}  rivets small, every 40 mm, inset 8 mm, peened flat\n`,
      );
    const found = nape('');
    const [bowl, tail] = [found.get('bowl.mass')!.value, found.get('tail.mass')!.value];
    // With both its edges told it stands where it meets the rim, which is wider than the tail: further back.
    const placed = nape('  along tail.top\n');
    nearFigure(placed.get('build.helm-front'), placed.get('build.centre.front')!.value);
    assert.ok(placed.get('build.helm-front')!.value < (-tail * 200) / Math.PI / (bowl + tail) - 0.5);
    const front = found.get('build.helm-front')!;
    nearFigure(front, (-tail * 200) / Math.PI / (bowl + tail), 0.2);
    assert.ok(front.low! < front.value && front.value < front.high!, 'rivets may lie anywhere');
  });

  it('has a range where a plate has no place', () => {
    const found = helm(
      'piece flap\n  from plate\n  plate 60 x 60 mm\nseam side\n  joins bowl, flap\n  along bowl.rim, from 10 mm to 60 mm\n  rivets small, count 2, inset 8 mm, peened flat\n',
    );
    const front = found.get('build.helm-front')!;
    assert.match(front.note!, /The place of \d+ % of the mass is not known/);
  });

  it('is not there without a helm', () => {
    assert.equal(
      figuresOf(`${STOCK}piece bowl\n  from plate\n  dome 220 mm, deep 110 mm\n`).get('build.helm-front'),
      undefined,
    );
  });
});

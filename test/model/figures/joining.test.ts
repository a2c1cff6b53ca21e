import assert from 'node:assert/strict';
import { metal } from '../../../server/trade/metal/metals.ts';
import { figuresOf, nearFigure } from '../support.ts';

const spec = (rivets: string, more = '', duty = 'stage') =>
  figuresOf(`build "Knee"
  duty ${duty}
material plate
  mild steel 1.2 mm
material hide
  veg-tan leather 7 oz
rivet small
  brass 4 x 10 mm, domed
${more}piece outer
  from plate
  plate 200 x 60 mm
piece inner
  from plate
  plate 200 x 60 mm
piece flap
  from hide
  plate 200 x 60 mm
seam line
  joins ${rivets.startsWith('soft ') ? 'outer, flap' : 'outer, inner'}
  along outer.top
  rivets small, ${rivets.replace('soft ', '')}
`);

describe('joining', () => {
  it('carries what the weakest of four ways allows', () => {
    const found = spec('every 16 mm, inset 8 mm, peened domed');
    const strength = found.get('line.strength')!;
    const ways = ['shear', 'bearing', 'tearing', 'edge'].map((way) => found.get(`line.strength-${way}`)!.value);
    nearFigure(strength, Math.min(...ways));
    nearFigure(found.get('line.strength-shear'), Math.PI * 4 * metal('brass').shear.value);
    assert.ok(strength.low! < strength.value && strength.value <= strength.high!, 'as uncertain as the metal');
    assert.match(strength.note ?? '', /never a promise/);
  });

  it('is not reckoned for display, nor for leather', () => {
    assert.equal(spec('every 16 mm, inset 8 mm', '', 'display').get('line.strength'), undefined);
    assert.equal(spec('soft every 16 mm, inset 8 mm').get('line.strength'), undefined);
  });

  it('names the drill, and the punch if the shop has one', () => {
    const found = spec('every 16 mm, inset 8 mm');
    nearFigure(found.get('line.drill'), 4.2);
    assert.equal(found.get('line.punch'), undefined);
    const shop = spec('every 16 mm, inset 8 mm', 'shop bench\n  punch 3, 4.2, 5 mm\n');
    nearFigure(shop.get('line.punch'), 4.2);
  });

  it('sinks flush heads, and only those', () => {
    const flush = spec('every 16 mm, inset 8 mm, peened flush');
    nearFigure(flush.get('line.countersink'), 2);
    nearFigure(flush.get('line.countersink-least'), 2);
    assert.equal(spec('every 16 mm, inset 8 mm, peened domed').get('line.countersink'), undefined);
  });

  it('keeps off the edge, farther in leather, and asks for a burr there', () => {
    const plates = spec('every 16 mm, inset 8 mm');
    nearFigure(plates.get('line.edge-distance'), 8);
    nearFigure(plates.get('line.edge-distance-least'), 8);
    assert.equal(plates.get('line.washer'), undefined);
    const soft = spec('soft every 16 mm, inset 8 mm');
    nearFigure(soft.get('line.edge-distance-least'), 12);
    nearFigure(soft.get('line.washer'), 9.4);
  });
});

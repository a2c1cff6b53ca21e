import assert from 'node:assert/strict';
import { figuresOf, nearFigure } from './support.ts';

const hinge = (lines: string, leaf = '1.2 mm') =>
  figuresOf(`material plate
  mild steel 1.2 mm
material other
  mild steel ${leaf}
material pin-wire
  mild steel wire 3.2 mm
piece arm
  from plate
  plate 60 x 40 mm
piece visor
  from other
  plate 60 x 120 mm
hinge gate
  joins arm.right, visor.left
  ${lines}
`);

describe('hinges', () => {
  it('take metal for each knuckle, and a pin with its heads', () => {
    const found = hinge('knuckles 5, wide 60 mm\n  over pin-wire');
    nearFigure(found.get('gate.development'), 11.47, 0.005);
    nearFigure(found.get('gate.knuckle'), (60 - 4 * 0.15) / 5);
    nearFigure(found.get('gate.gap'), 0.15);
    nearFigure(found.get('gate.barrel'), 3.2 + 0.1 + 2.4);
    const pin = found.get('gate.pin-length')!;
    assert.ok(pin.low === 60 && pin.value > 60 && pin.value < pin.high!);
    assert.equal(found.get('gate.development-2'), undefined);
  });

  it('tell two thicknesses apart', () => {
    const found = hinge('knuckles 5, wide 60 mm\n  over pin-wire', '1.5 mm');
    assert.ok(found.get('gate.development-2')!.value > found.get('gate.development')!.value);
  });

  it('say what they can while one types', () => {
    assert.ok(hinge('knuckles 4, wide 60 mm').get('gate.knuckle')!.note?.includes('odd'));
    assert.equal(hinge('over pin-wire').get('gate.knuckle'), undefined);
    assert.equal([...hinge('swing 0 to 90 deg').keys()].filter((name) => name.startsWith('gate.')).length, 0);
  });
});

import assert from 'node:assert/strict';
import { readSpec } from '../../../grammar/reader.ts';
import { modelOf } from '../../../server/model/index.ts';
import { Project } from '../../../server/model/names/project.ts';
import { figuresOf, figureValue, nearFigure } from '../support.ts';

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

describe('a hinge in its leaves', () => {
  it('adds its knuckles to the blank, on the edge that it joins', () => {
    const found = hinge('knuckles 5, wide 60 mm\n  over pin-wire');
    nearFigure(found.get('arm.blank.long'), 60 + found.get('gate.development')!.value);
    nearFigure(found.get('arm.right.knuckles'), found.get('gate.development')!.value);
    nearFigure(found.get('arm.blank.wide'), 40);
    nearFigure(hinge('swing 0 to 90 deg').get('arm.blank.long'), 60);
  });

  it('is followed when its pin changes, though the leaf itself does not', () => {
    const text = (pin: string) => `material plate
  mild steel 1.2 mm
material pin-wire
  mild steel wire ${pin}
piece arm
  from plate
  plate 60 x 40 mm
hinge gate
  joins arm.right, arm.left
  knuckles 5, wide 40 mm
  over pin-wire
`;
    const first = readSpec(text('3 mm'));
    const long = (spec: typeof first) =>
      figureValue(
        modelOf(new Project({ read: () => spec, mayRead: () => true }), 'file:///a.planish')!,
        'arm.blank.long',
      );
    const before = long(first);
    assert.ok(long(readSpec(text('5 mm'), first)) > before + 5);
  });
});

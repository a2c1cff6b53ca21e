import assert from 'node:assert/strict';
import { throughs } from '../../../server/model/assembly/through.ts';
import { builds, sample } from '../../samples/support.ts';
import { modelFrom } from '../support.ts';

const wings = (long: number, thick = 1.5) => `material plate
  mild steel ${thick} mm
piece collar
  from plate
  cylinder round 640 mm, high 60 mm, wrap 300 deg
piece left-wing
  from plate
  plate ${long} x 60 mm
piece right-wing
  from plate
  plate ${long} x 60 mm
seam left-end
  joins collar, left-wing
  along collar.left
  along left-wing.right
  weld
seam right-end
  joins collar, right-wing
  along collar.right
  along right-wing.left
  weld
`;

describe('pieces that run through each other', () => {
  it('are found where the tangents at both ends of a ring cross, as deep as they stand out there', () => {
    const radius = 640 / (2 * Math.PI);
    // Each wing runs on straight; both are at 30° to the line of sight, and meet behind the gap.
    const before = radius * Math.tan(Math.PI / 6);
    for (const [long, thick] of [
      [90, 1.5],
      [75, 0.8],
      [110, 2],
    ] as const) {
      const [found, ...more] = throughs(modelFrom(wings(long, thick)));
      assert.ok(found && !more.length);
      assert.deepEqual(found.names, ['left-wing', 'right-wing']);
      const out = (long - before) * Math.sin(Math.PI / 3);
      const lesser = Math.min(out, before * Math.sin(Math.PI / 3));
      assert.ok(Math.abs(found.deep - thick - lesser) < 1e-6, `${found.deep} for ${thick + lesser}`);
      assert.ok(Math.abs(found.at[0]) < 1e-6 && Math.abs(found.at[1] + radius / Math.cos(Math.PI / 6)) < 1e-6);
    }
    assert.deepEqual(throughs(modelFrom(wings(58))), []);
  });

  it('are none where plates lie over each other at their row, bent or not', () => {
    for (const build of builds) assert.deepEqual(throughs(sample(build)), [], build);
  });

  it('are none where a half meets its other half', () => {
    const bowl = `material plate
  mild steel 1.5 mm
piece half
  from plate
  make 2, mirrored
  half dome 200 x 200 mm, deep 100 mm
piece band
  from plate
  cylinder round 628.32 mm, high 40 mm, wrap 90 deg
seam ridge
  joins left half, right half
  along half.middle
  weld
seam nape
  joins left half, band
  along half.rim, from 0 mm to 157.08 mm
  along band.top
  weld
`;
    assert.deepEqual(throughs(modelFrom(bowl)), []);
  });
});

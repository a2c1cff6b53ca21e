import assert from 'node:assert/strict';
import { problemsIn } from './specs.ts';

const PLATE = 'material plate\n  mild steel 1.5 mm\n';

const piece = (name: string, form: string) => `piece ${name}\n  from plate\n  ${form}\n`;
const seam = (one: string, other: string) =>
  `seam join\n  joins ${one.split('.')[0]}, ${other.split('.')[0]}\n  along ${one}\n  along ${other}\n  weld\n`;

const said = (text: string) =>
  problemsIn({ 'a.planish': PLATE + text }, {}, 'a.planish').filter(({ code }) => code === 'seam-does-not-meet');

const ROUND = 'cylinder round 640 mm, high 80 mm, wrap 180 deg';
const OVAL = `${ROUND}, long 240 mm`;

describe('edges of one length that do not meet', () => {
  it('of rolled plates are told with the way to bend them, which the other way round is the other', () => {
    const [tighter] = said(piece('upper', OVAL) + piece('lower', ROUND) + seam('upper.bottom', 'lower.top'));
    assert.equal(tighter!.severity, 'information');
    assert.match(tighter!.message, /bend “lower” tighter in the middle\.$/);
    const [flatter] = said(piece('upper', ROUND) + piece('lower', OVAL) + seam('upper.bottom', 'lower.top'));
    assert.match(flatter!.message, /open “lower” in the middle\.$/);
  });

  it('are a warning where neither plate is one that bends', () => {
    const bowl = (name: string, size: string) => `${piece(name, `oval dome ${size}, deep 60 mm`)}  dish\n`;
    // Both rims are as long as each other, but for the last digits.
    const [found] = said(
      bowl('upper', '200 x 200 mm') + bowl('lower', '230 x 168.095 mm') + seam('upper.rim', 'lower.rim'),
    );
    assert.equal(found?.severity, 'warning');
    assert.match(found!.message, /only the hammer/);
  });

  it('a flat lid keeps its rim: it is the can that is bent to it', () => {
    const [found] = said(
      piece('lid', 'disc 200 mm') +
        piece('can', 'cylinder round 628.3185 mm, high 60 mm, long 230 mm') +
        seam('lid.rim', 'can.top'),
    );
    assert.match(found!.message, /press “can” in/);
    const [turned] = said(
      piece('can', 'cylinder round 628.3185 mm, high 60 mm, long 230 mm') +
        piece('lid', 'disc 200 mm') +
        seam('can.top', 'lid.rim'),
    );
    assert.match(turned!.message, /press “can” in/);
  });

  it('say nothing where they meet, or where their lengths differ', () => {
    assert.deepEqual(said(piece('upper', ROUND) + piece('lower', ROUND) + seam('upper.bottom', 'lower.top')), []);
    assert.deepEqual(
      said(piece('upper', ROUND) + piece('lower', ROUND.replace('640', '700')) + seam('upper.bottom', 'lower.top')),
      [],
    );
  });
});

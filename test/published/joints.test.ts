import { burrDiameter, drillFor, holeFor, jointStrength } from '../../server/trade/rivet/rivet.ts';
import { dutyLimit } from '../../server/trade/usual/duty.ts';
import { holdsAgainst, inches, type Row } from './rows.ts';

/** The lap of the textbook example: 4 mm rivets, 16 mm apart, 8 mm from the edge, 1.2 mm plate. */
const joint = jointStrength({
  shank: 4,
  thickness: [1.2, 1.2],
  tensile: 300,
  shear: 250,
  pitch: 16,
  edge: 8,
  hole: 4.2,
  bearing: 600,
  plateShear: 180,
});

const TEXTBOOK = 'riveted joints, a textbook of engineering design';
const FAA = 'FAA handbook: drills for rivets';

const strength = (what: string, ours: Row['ours'], theirs: number): Row => ({
  what: `${what}, N`,
  source: TEXTBOOK,
  status: 'rule seen',
  ours,
  theirs,
  within: 0.5,
});

const drill = (shank: number, theirs: number): Row => ({
  what: `hole for a ${shank * 32}/32 in rivet, in`,
  source: FAA,
  status: 'from memory',
  ours: inches(holeFor(shank * 25.4)),
  theirs,
  within: 5e-4,
});

holdsAgainst('Joints', [
  strength('rivet of 250 MPa sheared', joint.shear, 3142),
  strength('plate crushed at 600 MPa', joint.bearing, 2880),
  strength('plate torn at 300 MPa', joint.tearing, 4248),
  strength('torn out at 180 MPa', joint.shearOut, 2549),
  strength('what governs', joint.governing, 2549),
  drill(3 / 32, 0.098),
  drill(1 / 8, 0.1285),
  drill(5 / 32, 0.159),
  drill(3 / 16, 0.191),
  drill(1 / 4, 0.257),
  {
    what: 'metric drill for a 4 mm rivet, mm',
    source: 'DIN practice for rivet holes, 0.1 to 0.2 over the shank',
    status: 'from memory',
    ours: drillFor(holeFor(4)),
    theirs: 4.2,
    within: 1e-9,
  },
  {
    what: 'burr for 3 mm, mm',
    source: 'saddlers’ burrs, 2.2 to 2.5 D',
    status: 'common practice',
    ours: burrDiameter(3),
    theirs: 7.05,
    within: 0.5,
  },
  {
    what: 'rivets of contact armour, at most apart, mm',
    source: 'a group’s published equipment standard: 1/8 in rivets at 2 in',
    status: 'seen',
    ours: dutyLimit('contact', 'rivet-pitch'),
    theirs: 50.8,
    within: 0,
  },
]);

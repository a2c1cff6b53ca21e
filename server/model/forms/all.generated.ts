// Made by npm run generate from the files of this folder. Do not edit.
import type { FormKind } from './form.ts';
import { type Comb, comb } from './comb.ts';
import { cone } from './cone.ts';
import type { Cone } from './tube.ts';
import { cover } from './cover.ts';
import type { Cover } from './lame.ts';
import { cylinder } from './cylinder.ts';
import type { Cylinder } from './tube.ts';
import { type Disc, disc } from './disc.ts';
import { type Dome, dome } from './dome.ts';
import { type Drawing, drawing } from './drawing.ts';
import { type GoreDome, goreDome } from './gore-dome.ts';
import { type HalfDome, halfDome } from './half-dome.ts';
import { type Later, later } from './later.ts';
import { loft } from './levels.ts';
import type { Loft } from './tube.ts';
import { type Outline, outline } from './outline.ts';
import { type OvalDome, ovalDome } from './oval-dome.ts';
import { type Oval, oval } from './oval.ts';
import { type Plate, plate } from './plate.ts';
import { type Strip, strip } from './plate.ts';
import { type Trim, trim } from './trim.ts';

/** The finished shape of a piece, measures at the middle of the thickness, mm and degrees. */
export type Form =
  | Comb
  | Cone
  | Cover
  | Cylinder
  | Disc
  | Dome
  | Drawing
  | GoreDome
  | HalfDome
  | Later
  | Loft
  | Outline
  | OvalDome
  | Oval
  | Plate
  | Strip
  | Trim;

/** Every kind of form. One that leaves out what must be known of it does not compile. */
export const FORMS: { readonly [Kind in Form['kind']]: FormKind<Extract<Form, { kind: Kind }>, Form> } = {
  comb,
  cone,
  cover,
  cylinder,
  disc,
  dome,
  drawing,
  'gore dome': goreDome,
  'half dome': halfDome,
  later,
  loft,
  outline,
  'oval dome': ovalDome,
  oval,
  plate,
  strip,
  trim,
};

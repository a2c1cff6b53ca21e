import { NOT_KNOWN } from './answers.ts';
import { type Comb, comb } from './comb.ts';
import { cone } from './cone.ts';
import { cover } from './cover.ts';
import { cylinder } from './cylinder.ts';
import { type Disc, disc } from './disc.ts';
import { type Dome, dome } from './dome.ts';
import { type Drawing, drawing } from './drawing.ts';
import { ANY_EDGES, type FormKind, type Notation } from './form.ts';
import { type GoreDome, goreDome } from './gore-dome.ts';
import { type HalfDome, halfDome } from './half-dome.ts';
import type { Cover } from './lame.ts';
import { type Later, later } from './later.ts';
import { loft } from './levels.ts';
import { type Outline, outline } from './outline.ts';
import { type Oval, oval } from './oval.ts';
import { type OvalDome, ovalDome } from './oval-dome.ts';
import { type Plate, plate, type Strip, strip } from './plate.ts';
import { type Trim, trim } from './trim.ts';
import type { Cone, Cylinder, Loft } from './tube.ts';

/** The finished shape of a piece, measures at the middle of the thickness, mm and degrees. */
export type Form =
  | Plate
  | Strip
  | Disc
  | Oval
  | Outline
  | Drawing
  | Dome
  | OvalDome
  | HalfDome
  | GoreDome
  | Cylinder
  | Cone
  | Loft
  | Cover
  | Trim
  | Comb
  | Later;

/** Every kind of form. One that is missing here, or that leaves out what must be known of it, does not compile. */
export const FORMS: { readonly [Kind in Form['kind']]: FormKind<Extract<Form, { kind: Kind }>, Form> } = {
  plate,
  strip,
  disc,
  oval,
  outline,
  drawing,
  dome,
  'oval dome': ovalDome,
  'half dome': halfDome,
  'gore dome': goreDome,
  cylinder,
  cone,
  loft,
  cover,
  trim,
  comb,
  later,
};

/** What is known of a form of this kind. */
export const kindOf = <F extends Form>(form: F): FormKind<F, Form> => FORMS[form.kind] as unknown as FormKind<F, Form>;

/** Whether anything is worked out of it; one that is not may have any edge. */
export const isComputed = (form: Form): boolean => kindOf(form).blank !== NOT_KNOWN;

/** How a line of a form is read, by the word that it begins with; nothing for a word that is not computed yet. */
export const notationOf = (word: string): Notation<Form> | undefined => NOTATIONS.get(word);

const NOTATIONS: ReadonlyMap<string, Notation<Form>> = new Map(
  Object.values(FORMS).flatMap(({ notations }) => Object.entries(notations) as [string, Notation<Form>][]),
);

/** Every name that an edge of some form may bear. */
export const FORM_EDGES: ReadonlySet<string> = new Set([...ANY_EDGES, 'middle']);

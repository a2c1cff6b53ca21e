import { Together } from '../../model/per-spec.ts';

/* What the checks that see the whole of a spec ask of its things. Only for checks: see {@link Together}. */

export const sections = new Together('section');
export const pieces = new Together('piece');
export const seams = new Together('seam');
export const joints = new Together('joint');
export const finishes = new Together('finish');

export const others = [pieces, seams, joints, finishes] as const;

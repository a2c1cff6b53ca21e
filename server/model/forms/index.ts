import { FORMS, type Form } from './all.generated.ts';
import { NOT_KNOWN } from './answers.ts';
import { ANY_EDGES, type FormKind, type Notation } from './form.ts';

export { FORMS, type Form };

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

import assert from 'node:assert/strict';
import type { FormKind } from '../../../server/model/forms/form.ts';
import { FORMS, type Form } from '../../../server/model/forms/index.ts';
import type { Plate } from '../../../server/model/forms/plate.ts';

/* What must not compile: the type checker reads this file, and fails where one of the lines below is no error any more. */

/** Members that a form may leave out. */
type LeftOut = {
  [Member in keyof FormKind<Plate>]-?: object extends Pick<FormKind<Plate>, Member> ? Member : never;
}[keyof FormKind<Plate>];

describe('a form that is not whole', () => {
  it('does not compile: no member may be left out', () => {
    const mayBeLeftOut: LeftOut[] = [];
    // @ts-expect-error: `area` is asked of every form
    mayBeLeftOut.push('area');
    const { seams: _, ...rest } = FORMS.plate;
    // @ts-expect-error: how its seams run is missing
    const whole: FormKind<Plate> = rest;
    assert.ok(whole && mayBeLeftOut.length === 1);
  });

  it('does not compile in the list: no form may be missing', () => {
    const { comb: _, ...rest } = FORMS;
    // @ts-expect-error: the comb is missing
    const all: typeof FORMS = rest;
    assert.ok(all);
  });

  it('does not compile with what is known taken for what is not', () => {
    const form: Form | undefined = undefined;
    // @ts-expect-error: not known is no length
    const length: number = FORMS.later.area(form as never);
    assert.equal(length, 'not known');
  });
});

import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { FORMS, type Form } from '../../../server/model/forms/index.ts';
import { explain } from '../../../server/output/documents/explain.ts';
import { modelFrom, PLATE } from '../support.ts';

const DRAWING =
  '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60"><path d="M0 0H90V60H0Z"/></svg>';

/** All that is said of a text; a fault of ours throws. */
function said(text: string): string {
  const model = modelFrom({ 'helm.planish': text, 'plate.svg': DRAWING });
  return JSON.stringify(explain(model, { file: 'helm.planish', problems: problemsOf(model) }));
}

/** What hangs on a form besides its own line. */
const WORKED = `  dish
  edge top rolled over wire 3 mm, outward
  hole 4 mm, at 20 mm from bottom
  fits guard head, ease 4 mm
  template at 10 mm
`;

describe('a form that is typed', function () {
  this.timeout(300_000);

  for (const kind of Object.keys(FORMS) as Form['kind'][])
    it(`${kind}: every state on the way is answered`, () => {
      const { example } = FORMS[kind];
      const start = example.indexOf('piece example');
      for (let at = start; at <= example.length; at++) {
        const typed = `${PLATE}${example.slice(0, at)}`;
        assert.doesNotMatch(said(typed), /NaN|Infinity|undefined/, JSON.stringify(typed));
        // Often the rest of the piece stands already, and its form is typed in between.
        if (at % 4 === 0) said(`${typed}\n${WORKED}`);
      }
    });

  it('without one of its lines, whichever it is', () => {
    for (const { example } of Object.values(FORMS)) {
      const lines = example.split('\n');
      for (const left of lines.keys()) said(`${PLATE}${lines.filter((_, i) => i !== left).join('\n')}${WORKED}`);
    }
  });
});

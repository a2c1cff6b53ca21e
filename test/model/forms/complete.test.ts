import assert from 'node:assert/strict';
import { problemsOf } from '../../../server/checks/run.ts';
import { FORMS, type Form } from '../../../server/model/forms/index.ts';
import { modelFrom, PLATE } from '../support.ts';

const DRAWING =
  '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60"><path d="M0 0H90V60H0Z"/></svg>';

/** Other ways in which a form is written than its example. */
const WAYS: readonly string[] = [
  'half dome round 700 mm, long 248 mm, deep 90 mm',
  'cylinder round 300 mm, high 120 mm, long 110 mm',
  'cone round 260 to 200 mm, high 220 mm, long 90 mm',
  'form half\n  at 0 mm, round 690 mm, long 235 mm\n  at 150 mm, round 560 mm, long 190 mm',
];

/** Everything that a form's line and those below it may leave out: a fact behind a comma, or a whole line. */
function* shortened(text: string): Iterable<string> {
  const rows = text.trimEnd().split('\n');
  const start = rows.findIndex((row) => row.startsWith('piece example')) + 2;
  for (let at = start; at < rows.length; at++) {
    const [head, ...facts] = rows[at]!.split(', ');
    for (const fact of facts)
      yield rows.with(at, [head, ...facts.filter((each) => each !== fact)].join(', ')).join('\n');
    if (at > start) yield rows.toSpliced(at, 1).join('\n');
  }
}

/** Whether the blank is known, or else what is said at the piece. */
function answers(text: string): { readonly known: boolean; readonly said: readonly string[] } {
  const model = modelFrom({ 'helm.planish': PLATE + text, 'plate.svg': DRAWING });
  const piece = model.pieces().find(({ name }) => name === 'example')!;
  const said = problemsOf(model)
    .filter(
      ({ severity, place }) =>
        (severity === 'error' || severity === 'warning') && place.section === piece.named.section,
    )
    .map(({ code, message }) => `${code}: ${message}`);
  return { known: piece.blank() !== undefined, said };
}

describe('a form that lacks a measure', function () {
  this.timeout(300_000);
  const written = [
    ...(Object.keys(FORMS) as Form['kind'][]).map((kind) => FORMS[kind].example),
    ...WAYS.map((way) => `piece example\n  from plate\n  ${way}\n`),
  ];
  for (const text of written)
    it(`has its blank, or says once why not: ${text.split('\n').slice(0, 12).join(' / ')}`, () => {
      for (const short of shortened(text)) {
        const { known, said } = answers(short);
        assert.ok(known || said.length === 1, `${short}\n${said.join('\n')}`);
      }
    });
});

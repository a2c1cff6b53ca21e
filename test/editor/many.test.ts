import assert from 'node:assert/strict';
import { codeActionsIn } from '../../server/editor/features/code-actions.ts';
import { referencesAt } from '../../server/editor/features/definition.ts';
import { diagnosticsOf } from '../../server/editor/features/diagnostics.ts';
import { onTypeFormattingAt, onTypeFormattingInSteps } from '../../server/editor/features/on-type.ts';
import { renameAt } from '../../server/editor/features/rename.ts';
import { patientlyThrough, type Steps } from '../../server/incremental/steps.ts';
import { many, STOCK } from '../hostile/specs.ts';
import { open } from './view.ts';

/* What is asked of very many things is done in as many parts, and what nobody could read through is not made. */

/** How often others may go first, and what comes of it. */
function stops<T>(steps: Steps<T>): { readonly count: number; readonly made: T } {
  for (let count = 0; ; count++) {
    const step = steps.next();
    if (step.done) return { count, made: step.value };
  }
}

const SEAMS = 200;
const joined = `${STOCK}piece a\n  from plate\n  strip 300 x 40 mm\n\npiece b\n  from plate\n  strip 300 x 40 mm\n\n${many(
  SEAMS,
  (i) => `seam s${i}\n  joins a, b\n  along a.top\n  rivets small, every 28 mm, inset 8 mm\n\n`,
)}`;

describe('very many of something', () => {
  it('is looked for with a stop at each section', () => {
    const { view } = open(joined);
    const position = view.positionAt(view.text.indexOf('piece a') + 6);
    const { count, made } = stops(referencesAt(view, position, true));
    assert.equal(made.length, 1 + 2 * SEAMS);
    assert.ok(count >= view.spec.sections.length, `${count} stops`);
  });

  it('is renamed with a stop at each use, and what it would be is read once, however often others go first', () => {
    const { view, workspace } = open(joined);
    let imagined = 0;
    const imagine = workspace.imagine.bind(workspace);
    workspace.imagine = (texts) => {
      imagined++;
      return imagine(texts);
    };
    const position = view.positionAt(view.text.indexOf('piece a') + 6);
    const { count, made } = stops(patientlyThrough(() => renameAt(view, position, 'apron')));
    assert.equal(made.changes?.[view.uri]?.length, 1 + 2 * SEAMS);
    assert.ok(count >= 2 * SEAMS, `${count} stops`);
    assert.equal(imagined, 1);
  });

  it('has a lamp for the first few hundred marks', () => {
    const { view } = open(`${STOCK}${many(1_000, (i) => `piece p${i}\n`)}`);
    const diagnostics = diagnosticsOf(view, { linksToDocs: false });
    assert.ok(diagnostics.length >= 1_000);
    const all = { start: view.positionAt(0), end: view.positionAt(view.text.length) };
    const mended = new Set(
      codeActionsIn(view, all, diagnostics, undefined).flatMap(({ diagnostics: [first] = [] }) =>
        first ? [first.range.start.line] : [],
      ),
    );
    assert.ok(mended.size >= 400 && mended.size <= 500, `${mended.size} lines`);
  });

  it('is filled in from the pieces near by, without a look at the others', () => {
    const { view } = open(`${STOCK}${many(1_000, (i) => `piece p${i}\n  from plate\n  disc 90 mm\n\n`)}seam s\n`);
    const { file } = view;
    const namesIn = file.namesIn.bind(file);
    const from = view.text.indexOf('seam s');
    const at = { start: view.positionAt(from), end: view.positionAt(view.text.length) };
    const diagnostics = diagnosticsOf(view, { linksToDocs: false });
    let looked = 0;
    file.namesIn = (section) => {
      looked++;
      return namesIn(section);
    };
    const titles = codeActionsIn(view, at, diagnostics, undefined).map(({ title }) => title);
    assert.ok(
      titles.some((title) => /p999/.test(title)),
      titles.join('\n'),
    );
    assert.ok(looked < 1_000, `${looked} looks`);
  });

  it('of rows is laid out with stops, also when one line is left', () => {
    const { view } = open(`${'\n'.repeat(20_000)}piece p\n   disc 90 mm\n`);
    const position = { line: 20_002, character: 0 };
    const { count, made } = stops(onTypeFormattingInSteps(view, position));
    assert.deepEqual(made, onTypeFormattingAt(view, position));
    assert.ok(count >= 40, `${count} stops`);
  });
});

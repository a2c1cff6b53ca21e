import assert from 'node:assert/strict';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { formatSpec } from '../../grammar/printer.ts';
import { checks } from '../../server/checks/all.generated.ts';
import { FAMILIES } from '../../server/checks/check.ts';
import { checksMarkdown, faultSample, severitySchema } from '../../server/checks/docs.ts';
import { DOCS_SCHEME, docsText, docsUri } from '../../server/editor/features/docs.ts';
import { problemsIn, shownProblems } from './specs.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const textOf = (name: string) => fs.readFileSync(path.join(root, name), 'utf8');
const faults = path.join(root, 'samples/faults');

describe('what is made from the checks', () => {
  it('the list in code holds every check of the folder, each in the folder of its family', () => {
    const files = fs
      .readdirSync(path.join(root, 'server/checks/rules'), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => name.replaceAll(path.sep, '/'));
    const folderOf = (family: string) => family.toLowerCase().replaceAll(' ', '-');
    assert.deepEqual(files.sort(), checks.map(({ family, code }) => `${folderOf(family)}/${code}.ts`).sort());
  });

  it('codes are kebab-case and unlike each other, families known, texts whole sentences', () => {
    assert.equal(new Set(checks.map((check) => check.code)).size, checks.length);
    for (const check of checks) {
      assert.match(check.code, /^[a-z]+(?:-[a-z]+)*$/);
      assert.ok(FAMILIES.includes(check.family), check.code);
      for (const text of [check.what, check.why, check.todo])
        assert.match(text, /^[A-Z0-9“|].*[.!?]$|: \S+.*$/s, check.code);
      assert.match(check.title, /[^.]$/, check.code);
      assert.ok(check.source, check.code);
    }
  });

  it('CHECKS.md, the severity setting and the fault samples are fresh', () => {
    assert.equal(textOf('grammar/CHECKS.md'), checksMarkdown(), 'npm run generate');
    const manifest = JSON.parse(textOf('package.json'));
    assert.deepEqual(
      manifest.contributes.configuration.properties['planish.checks.severity'].properties,
      severitySchema(),
      'npm run generate',
    );
    for (const check of checks)
      assert.equal(textOf(`samples/faults/${check.code}.planish`), faultSample(check), 'npm run generate');
  });

  it('every check has its page, and no other code has one', () => {
    for (const check of checks) assert.match(docsText(docsUri(check))!, /What to do/);
    assert.equal(docsText(`${DOCS_SCHEME}:/checks/no-such-check.md`), undefined);
  });
});

describe('fault samples', () => {
  const files = Object.fromEntries(
    fs
      .readdirSync(faults, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(planish|svg|dxf)$/.test(name))
      .map((name) => [name.replaceAll(path.sep, '/'), textOf(`samples/faults/${name}`)]),
  );

  for (const check of checks) {
    it(`${check.code}.planish shows its fault and no other warning or error`, () => {
      const problems = problemsIn(files, {}, `${check.code}.planish`);
      const codes = problems
        .filter((each) => each.severity === 'error' || each.severity === 'warning')
        .map((each) => each.code);
      assert.ok(
        problems.some((each) => each.code === check.code),
        shownProblems(problems),
      );
      assert.deepEqual(
        codes.filter((code) => code !== check.code),
        [],
      );
    });
  }

  it('are laid out as the formatter lays a spec out', () => {
    const other = Object.entries(files).filter(
      ([name, text]) =>
        name.endsWith('.planish') && !ODD.has(name.replace('.planish', '')) && formatSpec(text) !== text,
    );
    assert.deepEqual(
      other.map(([name]) => name),
      [],
    );
  });
});

/** Samples whose fault is in the writing itself. */
const ODD = new Set([
  'text-open',
  'comma-stray',
  'mark-unknown',
  'number-form',
  'sign-spacing',
  'name-missing',
  'nested-too-deep',
  'line-outside-section',
]);

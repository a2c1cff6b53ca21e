import assert from 'node:assert/strict';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';
import { textMateJson } from '../../grammar/textmate.ts';
import { sections } from '../../grammar/vocabulary/index.ts';
import { expectSnapshot } from '../fixture.ts';
import { specs } from './support.ts';

const require = createRequire(import.meta.url);
let grammar: textmate.IGrammar;

before(async () => {
  await oniguruma.loadWASM(fs.readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(textMateJson(), 'planish.tmLanguage.json'),
  });
  grammar = (await registry.loadGrammar('source.planish'))!;
});

/** Each stretch of a text with its innermost scope. */
function scopesOf(text: string): { text: string; scope: string }[][] {
  let state = textmate.INITIAL;
  return text.split('\n').map((line) => {
    const result = grammar.tokenizeLine(line, state);
    state = result.ruleStack;
    return result.tokens.map((token) => ({
      text: line.slice(token.startIndex, token.endIndex),
      scope: token.scopes[token.scopes.length - 1]!.replace(/\.planish$/, ''),
    }));
  });
}

/** `text|scope` for what has a scope of its own. */
const shown = (line: string): string =>
  scopesOf(line)[0]!
    .filter(({ text, scope }) => scope !== 'source' && text.trim())
    .map(({ text, scope }) => `${text.trim()}|${scope}`)
    .join('  ');

describe('The TextMate grammar', () => {
  it('colours a header, and only where it is one', () => {
    assert.equal(shown('piece skull'), 'piece|keyword.control.section  skull|entity.name.section');
    assert.equal(shown('  PIECE Ärmel-2 # why'), shown('PIECE Ärmel-2 # why'));
    assert.match(shown('build "A job"'), /^build\|keyword.control.section {2}"A job"\|string.quoted.double$/);
    assert.doesNotMatch(shown('piece skull is big'), /entity.name.section/);
  });

  it('colours comments, notes and excuses', () => {
    assert.equal(shown('## note'), '## note|comment.block.documentation');
    assert.match(shown('raise # why not'), /#\|punctuation.definition.comment {2}why not\|comment.line.number-sign$/);
    assert.match(shown('raise # allow pitch-wide: since'), /pitch-wide\|entity.other.attribute-name.check/);
    assert.match(shown('raise #30'), /#30\|invalid.illegal.comment/);
  });

  it('tells numbers, units, sizes and dates', () => {
    assert.equal(shown('disc 2 1/2 in'), 'disc|keyword.other.line  2 1/2|constant.numeric  in|keyword.other.unit');
    assert.match(shown('disc 2½"'), /2½\|constant.numeric {2}"\|keyword.other.unit$/);
    assert.match(shown('plate 120x80 mm'), /120\|constant.numeric {2}x\|keyword.operator.word {2}80\|constant.numeric/);
    assert.match(shown('due 2027-05-14'), /2027-05-14\|constant.other.date$/);
    assert.match(shown('disc 2-1/2 in'), /2-1\/2\|invalid.illegal.number/);
    assert.match(shown('disc x2'), /x2\|variable.other$/);
  });

  it('does not take part of a name for a word', () => {
    assert.match(shown('from raise-plate'), /raise-plate\|variable.other$/);
    assert.match(shown('from left-3'), /left-3\|variable.other$/);
    assert.match(shown('trim along skull.rim'), /skull.rim\|variable.other$/);
  });

  it('colours the first word of every line of the language', () => {
    for (const section of sections)
      for (const line of section.lines)
        assert.match(shown(line.example), /^[^|]+\|(keyword.other.line|support.constant)/, line.example);
  });

  it('colours no text of a whole spec as illegal', () => {
    for (const { name, text } of specs)
      assert.deepEqual(
        scopesOf(text)
          .flat()
          .filter(({ scope }) => scope.startsWith('invalid')),
        [],
        name,
      );
  });

  it('colours a spec as shown in expected/', () => {
    const text = specs[0]!.text;
    const lines = scopesOf(text).map((line, i) => {
      const scopes = line
        .filter(({ text: part }) => part.trim())
        .map(({ text: part, scope }) => `    ${scope.padEnd(34)} ${part.trim()}`);
      return [text.split('\n')[i], ...scopes].join('\n');
    });
    expectSnapshot(fileURLToPath(new URL('expected/kettle-hat.scopes.txt', import.meta.url)), `${lines.join('\n')}\n`);
  });
});

import assert from 'node:assert/strict';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { code, plainText, withoutMarkup } from '../../server/editor/text/markdown.ts';
import { open } from './view.ts';

describe('text of a spec in a hover', () => {
  const texts = [
    'see https://example.org/a_b?c=d&e=f#g or HTTP://example.org, www.example.org',
    'mail smith@example.org, mailto:smith@example.org, command:workbench.action',
    '[a](javascript:alert(1)) <https://example.org>',
    'in 3 mm: half of it; 10:30 o\u2019clock',
  ];

  it('makes no link of an address, and reads the same without its escapes', () => {
    for (const text of texts) {
      const escaped = plainText(text);
      assert.doesNotMatch(escaped, /(?<!\\):\/\/|(?<!\\)@|www\.|\w:\S|(?<!\\)[<[]/i, escaped);
      assert.equal(withoutMarkup(escaped), text);
    }
    assert.equal(plainText('in 3 mm: half of it'), 'in 3 mm: half of it');
  });

  it('shows marks that would turn the rest round, in code and messages as well', () => {
    assert.equal(withoutMarkup(plainText('a\u202eb\n\u2067c')), 'a<U+202E>b\n<U+2067>c');
    assert.equal(code('a\u202eb'), '`a<U+202E>b`');
    const view = open(
      'material plate\n  mild steel 1.5 mm\n\n## \u202efdp.exe\npiece a\n  from plate\n  plate 3 x 4 mm, gar\u202enet "\u202ex"\n',
    ).view;
    const problems = view.problems();
    assert.ok(problems.some(({ message }) => message === '“<U+202E>” has no meaning in a spec.'));
    for (const { message, fixes } of problems)
      for (const said of [message, ...fixes.map(({ title }) => title)]) assert.doesNotMatch(said, /\u202e/);
    const at = view.text.indexOf('piece a') + 'piece '.length;
    const hover = JSON.stringify(hoverAt(view, view.positionAt(at), {}));
    assert.match(hover, /U\+202E/);
    assert.doesNotMatch(hover, /\u202e/);
  });
});

import assert from 'node:assert/strict';
import { type CodeAction, DiagnosticSeverity, type MarkupContent, type Range } from 'vscode-languageserver-types';
import { checks } from '../../server/checks/all.generated.ts';
import { codeActionsIn, FIX_ALL } from '../../server/editor/features/code-actions.ts';
import { diagnosticsOf } from '../../server/editor/features/diagnostics.ts';
import { docsText, docsUri } from '../../server/editor/features/docs.ts';
import { formattingOf } from '../../server/editor/features/formatting.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { inlayHintsIn } from '../../server/editor/features/inlay-hints.ts';
import { semanticTokensOf, TOKEN_TYPES } from '../../server/editor/features/semantic-tokens.ts';
import { signatureHelpAt } from '../../server/editor/features/signature-help.ts';
import { ALL_HINTS, readSettings } from '../../server/editor/workspace/settings.ts';
import type { View } from '../../server/editor/workspace/workspace.ts';
import { open, shownRange, textsAfter } from './view.ts';

const SHORT = `
  material plate
    mild steel 2 mm
  rivet small
    brass 4 x 6 mm, domed
  piece outer
    from plate
    plate 120 x 40 mm
  piece inner
    from plate
    plate 120 x 40 mm
  seam join
    joins outer, inner
    along outer.top
    rivets sm$0all, every 28 mm, inset 9 mm, peened domed
`;

const wholeOf = (view: View): Range => view.range(0, view.text.length);

/** The text after an action. */
const textAfter = (view: View, action: CodeAction | undefined): string =>
  textsAfter(view.workspace, action).get(view.uri) ?? '';

describe('diagnostics', () => {
  it('say where, how bad, what, and where else to look', () => {
    const { view, workspace } = open(SHORT);
    const found = diagnosticsOf(view, { linksToDocs: true }).find(({ code }) => code === 'rivet-too-short');
    assert.equal(found?.source, 'planish');
    assert.equal(found?.severity, DiagnosticSeverity.Warning);
    assert.equal(shownRange(workspace, view.uri, found!.range), 'spec.planish 14:10 small');
    assert.equal(found?.codeDescription?.href, 'planish-docs:/checks/rivet-too-short.md');
    assert.deepEqual(
      found?.relatedInformation?.map(({ location }) => shownRange(workspace, location.uri, location.range)),
      ['spec.planish 4:3 brass 4 x 6 mm, domed', 'spec.planish 12:3 joins outer, inner'],
    );
  });

  it('take the severity that the workspace sets', () => {
    const { view } = open(SHORT, { severity: { 'rivet-too-short': 'hint' } });
    const found = diagnosticsOf(view, { linksToDocs: false }).find(({ code }) => code === 'rivet-too-short');
    assert.equal(found?.severity, DiagnosticSeverity.Hint);
    assert.equal(found?.codeDescription, undefined);
  });

  it('stand at the right column behind any letters and line ends', () => {
    for (const lineEnd of ['\n', '\r\n', '\r']) {
      const { workspace } = open('piece a\n');
      const text = ['# 🛡️ é', 'piece ño-𝔘', '  disc 3 mm # 🛡️', '  foo'].join(lineEnd);
      workspace.open('file:///build/odd.planish', 1, text);
      const view = workspace.view('file:///build/odd.planish')!;
      const found = diagnosticsOf(view, { linksToDocs: false }).find(({ message }) => String(message).includes('foo'));
      assert.deepEqual(found?.range, { start: { line: 3, character: 2 }, end: { line: 3, character: 5 } });
    }
  });

  it('follow an incremental change in the middle of a line', () => {
    const { workspace, view } = open('piece a\r\n  disc 30 mm\r\npiece b\r\n  disk 3 mm\r\n');
    workspace.change(view.uri, 2, [
      { range: { start: { line: 1, character: 2 }, end: { line: 1, character: 2 } }, text: 'é' },
      { range: { start: { line: 3, character: 2 }, end: { line: 3, character: 6 } }, text: 'disc' },
    ]);
    const found = diagnosticsOf(workspace.view(view.uri)!, { linksToDocs: false });
    assert.deepEqual(
      found.filter(({ code }) => code === 'unknown-word').map(({ range }) => range.start),
      [{ line: 1, character: 2 }],
    );
  });

  it('of a spec stay the same whether it was typed or opened', () => {
    const { workspace, view } = open(SHORT);
    const text = view.text;
    const typed = 'file:///build/typed.planish';
    workspace.open(typed, 1, '');
    for (let at = 0; at < text.length; at++) {
      const position = workspace.view(typed)!.positionAt(at);
      workspace.change(typed, at + 2, [{ range: { start: position, end: position }, text: text[at]! }]);
    }
    const plain = (uri: string) =>
      diagnosticsOf(workspace.view(uri)!, { linksToDocs: false }).map(({ range, message }) => ({ range, message }));
    assert.deepEqual(plain(typed), plain(view.uri));
  });

  it('have a page for every check', () => {
    for (const check of checks) {
      const page = docsText(docsUri(check));
      assert.ok(page?.includes(check.title), check.code);
    }
    assert.equal(docsText('planish-docs:/checks/none.md'), undefined);
    assert.equal(docsText('file:///etc/passwd'), undefined);
  });
});

describe('settings', () => {
  it('that make no sense count as not set', () => {
    for (const odd of [null, undefined, 3, 'x', [], { checks: 3 }, { checks: { severity: [] } }, { hints: null }])
      assert.deepEqual(readSettings(odd), { checks: { severity: {} }, hints: ALL_HINTS, lenses: true, inches: '1/32' });
    assert.deepEqual(
      readSettings({
        checks: { severity: { 'rivet-too-short': 'loud', 'name-unused': 'off' } },
        hints: { thickness: false },
        lenses: { enabled: false },
        inches: '1/16',
        units: 'in',
      }),
      {
        checks: { severity: { 'name-unused': 'off' } },
        hints: { ...ALL_HINTS, thickness: false },
        lenses: false,
        inches: '1/16',
        units: 'in',
      },
    );
    assert.equal(readSettings({ units: 'ell' }).units, undefined);
  });
});

describe('inlay hints', () => {
  const spec = `
    material plate
      mild steel 16 ga
    material sheet-1
      brass 1 mm
    rivet small
      brass 4 x 6 mm, domed
    piece cap
      from plate
      dome 210 mm, deep 60 mm
    piece band
      from plate
      strip 300 x 40 mm
    seam join
      joins band, cap
      along band.top
      rivets small, every 28 mm, inset 9 mm, peened domed
  `;
  const labels = (settings = ALL_HINTS) => {
    const { view } = open(spec);
    return inlayHintsIn(view, wholeOf(view), settings).map(({ label }) => label);
  };

  it('say what a gauge is, what to cut and what a seam needs', () => {
    const found = labels() as string[];
    assert.equal(found.length, 4, found.join(' | '));
    assert.equal(found[0], '= 1.519 mm');
    assert.match(found[1]!, /^blank disc 24\d(\.\d)? mm, \d+ g$/);
    assert.match(found[2]!, /^blank 300 × 40 mm, \d+ g$/);
    assert.match(found[3]!, /^needs [\d.]+ mm, 12 rivets$/);
  });

  it('are left out kind by kind, and all at once', () => {
    assert.equal(labels({ ...ALL_HINTS, thickness: false }).length, 3);
    assert.equal(labels({ ...ALL_HINTS, blankSize: false }).length, 2);
    assert.equal(labels({ ...ALL_HINTS, rivetLength: false }).length, 3);
    assert.deepEqual(labels({ ...ALL_HINTS, enabled: false }), []);
  });

  it('are taken into the spec only where a line may stand behind theirs', () => {
    const taken = (form: string) => {
      const { view } = open(`material plate\n  mild steel 1.5 mm\n\npiece a\n  from plate\n  ${form}\n`);
      const [hint] = inlayHintsIn(view, view.range(0, view.text.length), ALL_HINTS);
      assert.match(String(hint?.label), /^blank/);
      return hint?.textEdits?.[0]?.newText;
    };
    assert.equal(taken('dome 210 mm, deep 60 mm')?.replace(/\d\S*/, 'N'), '\n  blank disc N mm');
    assert.equal(taken('disc 90 mm # as bought'), undefined);
    const corners = ['0 mm right and 0 mm up', '60 mm right and 0 mm up', '0 mm right and 40 mm up'];
    assert.equal(taken(['outline', ...corners.map((corner) => `  to ${corner}`)].join('\n')), undefined);
  });

  it('are told in the units that are asked for, whatever the build says, and the text stays', () => {
    const { view, workspace } = open(
      `build "A job"\n  units mm\npiece a\n  disc 254 mm\n  hole 3 mm, at 25 mm from rim$0\n`,
    );
    const told = () => {
      const now = workspace.view(view.uri)!;
      const all = inlayHintsIn(now, now.range(0, now.text.length), ALL_HINTS);
      const hover = hoverAt(now, now.positionAt(now.text.indexOf('disc')));
      return [all[0]?.label, hover && (hover.contents as MarkupContent).value];
    };
    const [hint, hover] = told();
    workspace.tell({ units: 'in', inches: '1/32' });
    const [inInches, hoverInInches] = told();
    assert.notEqual(inInches, hint);
    assert.notEqual(hoverInInches, hover);
    assert.match(String(inInches), /10 in/);
    assert.equal(workspace.view(view.uri)!.text, view.text);
    assert.equal(workspace.view(view.uri)!.model.writtenUnits(), 'mm');
    workspace.tell({ inches: '1/32' });
    assert.deepEqual(told(), [hint, hover]);
  });

  it('are made only for the lines in view', () => {
    const { view } = open(spec);
    const range = { start: { line: 0, character: 0 }, end: { line: 3, character: 0 } };
    assert.deepEqual(
      inlayHintsIn(view, range, ALL_HINTS).map(({ label }) => label),
      ['= 1.519 mm'],
    );
  });
});

describe('code actions', () => {
  const actionsAt = (written: string, only?: string[]) => {
    const { view, position } = open(written);
    const range = { start: position, end: position };
    return { view, actions: codeActionsIn(view, range, diagnosticsOf(view, { linksToDocs: false }), only) };
  };

  it('mend the problem they stand at, and say which', () => {
    const { view, actions } = actionsAt(SHORT);
    const fix = actions.find(({ kind, isPreferred }) => kind === 'quickfix' && isPreferred);
    assert.equal(fix?.diagnostics?.[0]?.code, 'rivet-too-short');
    const { workspace } = open(textAfter(view, fix));
    const mended = workspace.view(view.uri)!;
    assert.ok(!mended.problems().some(({ code }) => code === 'rivet-too-short'));
  });

  describe('of stock in another file', () => {
    const RACK = `#- stock.planish
material thin
  mild steel 1.2 mm
material thick
  mild steel 2 mm
material brass-plate
  brass 2 mm
material thick-zinc
  galvanised steel 2 mm
rivet short
  brass 4 x 6 mm, domed
rivet long
  brass 4 x 10 mm, domed
rivet longest
  brass 4 x 30 mm, domed
rivet wide
  brass 5 x 10 mm, domed
#- other.planish
use "stock.planish"
piece other
  from thin
  plate 90 x 40 mm
piece another
  from thin
  plate 90 x 50 mm
`;
    const SPEC = `use "stock.planish"
build "Knee"
  duty contact, rules list-book
rules list-book
  book "Rules of the list", dated 2026-01-01
  finished at least 1.6 mm
piece cop
  from thi$0n
  plate 120 x 100 mm
piece inner
  from thick
  plate 120 x 40 mm
piece outer
  from thick
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  rivets short, every 28 mm, inset 9 mm, peened domed
`;
    const fixesAt = (spec: string, options: Parameters<typeof codeActionsIn>[4]) => {
      const { view, position } = open(spec + RACK);
      const range = { start: position, end: position };
      const told = diagnosticsOf(view, { linksToDocs: false });
      return { view, fixes: codeActionsIn(view, range, told, ['quickfix'], options) };
    };
    const PLAIN = { createsFiles: true, snippetEdits: true };

    it('take what is in the rack before they change it', () => {
      const { view, fixes } = fixesAt(SPEC, PLAIN);
      assert.deepEqual(
        fixes.map(({ title }) => title),
        ['From thick, 2 mm', 'Make thin 1.75 mm in stock.planish: 3 pieces use it'],
      );
      assert.match(textAfter(view, fixes[0]), /^piece cop\n {2}from thick$/m);
    });

    it('name the rivets that would do, the nearest first', () => {
      const { view, fixes } = fixesAt(SPEC.replace('$0', '').replace('rivets short', 'rivets sho$0rt'), PLAIN);
      assert.deepEqual(
        fixes.filter(({ title }) => !title.startsWith('Allow')).map(({ title, isPreferred }) => [title, isPreferred]),
        [
          ['With long, 10 mm long', true],
          ['Make short 10 mm long in stock.planish: one seam uses it', undefined],
        ],
      );
      const [taken] = fixes.filter(({ title }) => title.startsWith('With'));
      assert.match(textAfter(view, taken), /rivets long, every/);
    });

    it('are shown where they change another file', () => {
      const change = (options: Parameters<typeof codeActionsIn>[4]) => fixesAt(SPEC, options).fixes[1]!;
      const { command, edit } = change({ ...PLAIN, commands: true });
      assert.equal(command?.command, 'planish.showChange');
      assert.deepEqual(command?.arguments, ['file:///build/stock.planish', { line: 1, character: 13 }]);
      assert.deepEqual(Object.keys(edit?.changes ?? {}), ['file:///build/stock.planish']);
      const asked = change({ ...PLAIN, confirmsEdits: true }).edit;
      assert.deepEqual(
        Object.values(asked?.changeAnnotations ?? {}).map(({ needsConfirmation }) => needsConfirmation),
        [true],
      );
      assert.equal(asked?.documentChanges?.length, 1);
      assert.equal(change(PLAIN).command, undefined);
    });
  });

  it('excuse a line, with room for the reason', () => {
    const { view, actions } = actionsAt(SHORT);
    const excuse = actions.find(({ title }) => title === 'Allow rivet-too-short on this line');
    assert.match(textAfter(view, excuse), /peened domed # allow rivet-too-short: why$/m);
  });

  it('mend at once all that is surely meant, where that is asked for', () => {
    const { view, actions } = actionsAt('pi$0ece a\n  disc 3 mm +2 mm\n  hole 2 mm,\n', ['source.fixAll']);
    assert.deepEqual(
      actions.map(({ kind }) => kind),
      [FIX_ALL],
    );
    assert.equal(textAfter(view, actions[0]), 'piece a\n  disc 3 mm + 2 mm\n  hole 2 mm\n');
    assert.ok(!actionsAt('pi$0ece a\n  hole 2 mm,\n').actions.some(({ kind }) => kind === FIX_ALL));
  });

  const converts = (line: string, to: string | undefined) =>
    it(`write ${JSON.stringify(line)} as ${JSON.stringify(to)}`, () => {
      const { view, actions } = actionsAt(`piece a\n  ${line}\n`, ['refactor.rewrite']);
      const action = actions.find(({ kind }) => !kind?.includes('.rounded.'));
      assert.equal(action && textAfter(view, action), to && `piece a\n  ${to}\n`);
    });
  describe('round the lengths of a file', () => {
    const METRIC = `build "Cap"
  units mm # as the shop has it
material plate
  mild steel 1.5 mm
piece a
  from plate
  plate 120 x 83 mm$0
  hole 3 mm, at 13 mm from left
let wide = 2 * 36 mm + 1 in
`;
    const roundedAt = (spec: string, kind: string, confirmsEdits = false) => {
      const { view, position } = open(spec);
      const range = { start: position, end: position };
      const options = { createsFiles: true, snippetEdits: true, confirmsEdits };
      const all = codeActionsIn(view, range, [], ['refactor.rewrite'], options);
      return { view, action: all.find((each) => each.kind === `refactor.rewrite.rounded.${kind}`)! };
    };

    it('to the marks of a rule, and say by how much; what is bought stays, and what would change too much', () => {
      const { view, action } = roundedAt(METRIC, 'in.16');
      assert.equal(
        action.title,
        'Round the lengths of this file to inches, to the nearest 1/16 (4; largest change 0.65 mm, 120 mm in line 7; 2 stay)',
      );
      assert.equal(
        textAfter(view, action),
        METRIC.replace('$0', '')
          .replace('units mm #', 'units in #')
          .replace('120 x 83 mm', '4 3/4 x 3 1/4 in')
          .replace('13 mm', '1/2 in')
          .replace('36 mm', '1 7/16 in'),
      );
    });

    it('finer, where that is asked for, and back', () => {
      const { view, action } = roundedAt(METRIC, 'in.32');
      assert.match(textAfter(view, action), /plate 4 23\/32 x 3 9\/32 in/);
      const back = roundedAt(METRIC.replace('$0', '').replace('120 x 83 mm', '4 3/4 x 3 1/4 in$0'), 'mm.half');
      assert.match(textAfter(back.view, back.action), /plate 120\.5 x 82\.5 mm/);
    });

    it('and are shown before they are made, in an editor that can', () => {
      const { action } = roundedAt(METRIC, 'in.16', true);
      assert.ok(
        Object.values(action.edit?.changeAnnotations ?? {}).every(({ needsConfirmation }) => needsConfirmation),
      );
      assert.equal(action.edit?.documentChanges?.length, 1);
    });
  });

  converts('dome 21$00 mm', undefined);
  converts('dome 2$0 1/2 in', 'dome 63.5 mm');
  converts('dome 50$0.8 mm', 'dome 2 in');
  converts('dome 12.$07 mm', 'dome 1/2 in');
  converts('plate 25$0.4 x 50.8 mm', 'plate 1 x 2 in');
  converts('plate 25.4 x 50$0.8 mm', 'plate 1 x 2 in');
  converts('plate 25.4 x 80$0 mm', undefined);
  converts('hole 1/64$0 in', undefined);
  converts('holes 4 of 1/$08 in', 'holes 4 of 3.175 mm');
  converts('bend 3$0 deg', undefined);
});

describe('formatting', () => {
  it('touches only the lines that are untidy', () => {
    const { view } = open('piece a\n    from   plate # the good sheet\n  disc 3 mm\n');
    const edits = formattingOf(view);
    assert.ok(edits.length);
    for (const { range } of edits) assert.equal(range.start.line, 1);
  });

  it('of a range leaves the rest', () => {
    const { view } = open('piece a\n    from   plate\n     disc   3 mm\n');
    const range = { start: { line: 2, character: 0 }, end: { line: 2, character: 5 } };
    for (const edit of formattingOf(view, range)) assert.equal(edit.range.start.line, 2);
  });
});

describe('semantic tokens', () => {
  function tokens(written: string): string[] {
    const { view } = open(written);
    const { data } = semanticTokensOf(view);
    const found: string[] = [];
    let line = 0;
    let character = 0;
    for (let i = 0; i < data.length; i += 5) {
      character = data[i] ? data[i + 1]! : character + data[i + 1]!;
      line += data[i]!;
      const at = view.offsetAt({ line, character });
      const declared = data[i + 4] ? '!' : '';
      found.push(`${view.text.slice(at, at + data[i + 2]!)} ${TOKEN_TYPES[data[i + 3]!]}${declared}`);
    }
    return found;
  }

  it('say what each word means', () => {
    assert.deepEqual(
      tokens(`
        planish 1
        let gap = 2 * pi * skull.mass
        ## note
        piece skull
          from plate
          dome 2 1/2 in, deep 60 mm, inside
          slot eye 3 x 4 mm, at 6 mm from rim
        material m
          mild steel 16 ga, half hard
        seam s
          joins left skull, band
      `),
      [
        'planish keyword',
        'let keyword',
        'gap variable!',
        '2 number',
        '* operator',
        'pi variable',
        '* operator',
        'skull class',
        'mass variable',
        '## note comment',
        'piece keyword',
        'skull class!',
        'from property',
        'plate class',
        'dome property',
        '2 1/2 number',
        'deep property',
        '60 number',
        'inside property',
        'slot property',
        'eye variable!',
        '3 number',
        '4 number',
        'at property',
        '6 number',
        'from property',
        'rim variable',
        'material keyword',
        'm class!',
        'mild enumMember',
        'steel enumMember',
        '16 number',
        'half enumMember',
        'hard enumMember',
        'seam keyword',
        's class!',
        'joins property',
        'left enumMember',
        'skull class',
        'band class',
      ],
    );
  });

  it('never lie over each other or leave their line', () => {
    const { view } = open('piece a\n  dome 20 mm, deep\n    3 mm, # c\n    inside\n  slot "x\n let q = ((1 x # é𝔘\n');
    const { data } = semanticTokensOf(view);
    for (let i = 0; i < data.length; i += 5) {
      assert.ok(data[i + 2]! > 0);
      if (i && !data[i]) assert.ok(data[i + 1]! >= data[i - 3]!, `token ${i / 5} lies over the one before`);
    }
  });
});

describe('signature help', () => {
  const helpAt = (written: string) => {
    const { view, position } = open(written);
    const help = signatureHelpAt(view, position);
    const signature = help?.signatures[0];
    const parameter = signature?.parameters?.[help?.activeParameter ?? -1]?.label;
    return [signature?.label, Array.isArray(parameter) ? signature?.label.slice(...parameter) : undefined];
  };

  it('shows how a line goes on', () => {
    const dome = 'dome ‹diameter›, deep ‹deep›, inside, outside';
    assert.deepEqual(helpAt('piece a\n  dome 2$00 mm'), [dome, 'dome ‹diameter›']);
    assert.deepEqual(helpAt('piece a\n  dome 200 mm, deep 3$0'), [dome, 'deep ‹deep›']);
    assert.deepEqual(helpAt('piece a\n  dome $0'), [dome, 'dome ‹diameter›']);
    assert.deepEqual(helpAt('piece a\n  dome 200 mm,$0'), [dome, 'deep ‹deep›']);
    assert.deepEqual(helpAt('piece a\n  dome 200 mm, deep $0'), [dome, 'deep ‹deep›']);
    assert.deepEqual(helpAt('piece a\n  dome 200 mm, deep 3 mm, $0'), [dome, 'inside']);
    assert.deepEqual(helpAt('piece a\n  dome 200 mm, o$0'), [dome, 'outside']);
    assert.deepEqual(helpAt('piece $0a'), [undefined, undefined]);
    assert.deepEqual(helpAt('piece a\n  dome 200 mm, deep 3 mm\n$0'), [undefined, undefined]);
  });

  it('shows every line that begins so', () => {
    const { view, position } = open('piece a\n  edge rim $0');
    const labels = signatureHelpAt(view, position)?.signatures.map(({ label }) => label.split(',')[0]);
    assert.deepEqual(labels, [
      'edge ‹edge› rolled [over ‹wire›]',
      'edge ‹edge› hemmed ‹hem›',
      'edge ‹edge› rounded ‹radius›',
      'edge ‹edge› long ‹long›',
      'edge ‹edge› soft ‹material›',
    ]);
  });

  it('shows the function whose bracket is open', () => {
    assert.deepEqual(helpAt('let a = max(3 mm, $0'), ['max(a, b, …)', 'b']);
    assert.deepEqual(helpAt('piece a\n  dome round-up((2 + 1) * 20 mm, 5$0 mm)'), ['round-up(measure, step)', 'step']);
    assert.deepEqual(helpAt('let a = max(3 mm, 4 mm) + $0'), [undefined, undefined]);
  });
});

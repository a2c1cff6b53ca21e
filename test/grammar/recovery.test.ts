import assert from 'node:assert/strict';
import { readSpec } from '../../grammar/reader.ts';
import { check, problemsOf } from './support.ts';

describe('Sections recover', () => {
  it('from a section kind with a slip in it: its lines go to no other section', () => {
    const spec = check(`
      piece bowl
        from plate-16
        dish
        disc 90 mm
      peice brim
      #~~~~ unknown-word
        raise
        nonsense line here
    `);
    assert.equal(spec.sections.length, 2);
    assert.equal(spec.sections[0]!.lines.length, 3);
  });

  it('from an unknown kind after a blank line', () =>
    void check(`
      piece bowl
        from plate-16
        disc 90 mm

      crest feather
      #~~~~ unknown-word
        anything goes
    `));

  it('a dotted word opens no section', () =>
    void check(`
      piece bowl
        from plate-16
        disc 90 mm
      log.x here
      #~~~~ unknown-word
    `));

  it('a header without a name, with two, with a text', () =>
    void check(`
      piece
      #~~~~ name-missing
      build bowl
      #     ^^^^ name-missing
      build
      #~~~~ name-missing
      piece "bowl"
      #     ^^^^^^ name-missing
      seam two words
      #    ^^^ line-missing
      #        ^^^^^ name-missing
      build "a" more
      #         ^^^^ name-missing
      piece 12
      #     ^^ name-missing
      order x
      #     ^ name-missing
    `));

  it('a line before the first section', () =>
    void check(`
        raise
      # ^^^^^ line-outside-section
      # comment
        frist a, then b
      # ^^^^^^^^^^^^^^^ line-outside-section

      bui
      #~~ line-outside-section
    `));

  it('a section that lacks what it needs: one mark, at its name', () =>
    void check(`
      piece bowl
      #     ^^^^ line-missing
      seam rim
      #    ^^^ line-missing
        joins bowl, brim
      finish bright
      #      ^^^^^^ line-missing
        polish
      material plate
      #        ^^^^^ line-missing
        kerf 1 mm
    `));

  it('the version of the language', () =>
    void check(`
      planish 2
      #       ^ version-unknown
      piece bowl
        from plate-16
        disc 90 mm
        planish
    `));
});

describe('Commas recover', () => {
  it('missing between two facts', () =>
    void check(`
      build "A job"
        make 2 spare 1
      #        ^^^^^ line-unfinished
      finish bright
        on bowl
        sand 120 180 grit
      #          ^^^^^^^^ line-unfinished
      seam rim
        joins bowl brim
      #            ^^^^ line-unfinished
        rivets small every 30 mm inset 8 mm
      #              ^^^^^ line-unfinished
      #                          ^^^^^ line-unfinished
    `));

  it('too many', () =>
    void check(`
      wearer guard
        head round, 585 mm
      #           ^^ comma-stray
      build "A job"
        make 2,, spare 1
      #        ^ comma-stray
    `));

  it('at the end of a line, before what cannot go on with it', () =>
    void check(`
      piece bowl
        from plate-16,
      #              ^ comma-stray

        disc 90 mm,
      #           ^ comma-stray
        # a comment
        raise,
      #      ^ comma-stray
        planish,
      #        ^ comma-stray
      piece brim
        from plate-16
        disc 90 mm,
      #           ^ comma-stray
    `));

  it('at the end of a line that goes on', () => {
    const spec = check(`
      seam rim
        joins bowl, # the comment does not end it
          brim,
        cheek
        rivets small, every 30 mm,
          inset 8 mm, peened
      #               ^^^^^^ line-unfinished
          domed
      #   ^^^^^ unknown-word
    `);
    assert.equal(spec.sections[0]!.lines[0]!.head!.slots.get('pieces')!.length, 3);
  });
});

describe('Half-typed lines have one mark, where the cursor is', () => {
  it('in a build, a wearer, a material', () =>
    void check(`
      build "A job"
        for
      # ^^^ line-unfinished
        make
      # ^^^^ line-unfinished
        due
      # ^^^ line-unfinished
        duty
      # ^^^^ line-unfinished
        units cm
      #       ^^ unknown-word
      wearer guard
        head
      # ^^^^ line-unfinished
        head roun 585 mm
      # ^^^^^^^^^ unknown-word
        head round
      #      ^^^^^ line-unfinished
        neck round 400 mmm
      #                ^^^ unknown-word
      material plate
        mild
      # ^^^^ line-unfinished
        mild stel 16 ga
      # ^^^^^^^^^ unknown-word
        sheet 100 x
      #           ^ line-unfinished
        sheet
      # ^^^^^ line-unfinished
        hide
      # ^^^^ line-unfinished
    `));

  it('in a piece', () =>
    void check(`
      piece bowl
        frm plate-16
      # ^^^ unknown-word
        from
      # ^^^^ line-unfinished
        half
      # ^^^^ line-unfinished
        make
      # ^^^^ line-unfinished
        edge
      # ^^^^ line-unfinished
        edge rim
      #      ^^^ line-unfinished
        edge rim rold
      #          ^^^^ unknown-word
        edge rim rolled over
      #                 ^^^^ line-unfinished
        edge rim rolled, from 25 mm
      #                       ^^^^^ line-unfinished
        edge rim rolled, from 25 mm to
      #                             ^^ line-unfinished
        hole
      # ^^^^ line-unfinished
        hole 6 mm, at
      #            ^^ line-unfinished
        hole 6 mm, at 3 mm
      #               ^^^^ line-unfinished
        hole 6 mm, at 3 mm from
      #                    ^^^^ line-unfinished
        hole 6 mm, at 3 mm from rim and
      #                             ^^^ line-unfinished
        holes 4 of
      #         ^^ line-unfinished
        bend 30 mm
      #      ^^^^^ line-unfinished
        bend 30 mm from left, radus 2 mm
      #                       ^^^^^ unknown-word
    `));

  it('in a seam, a finish, an order, a log', () =>
    void check(`
      seam rim
        joins
      # ^^^^^ line-unfinished
        joins bowl,
      #           ^ comma-stray
        rivets
      # ^^^^^^ line-unfinished
        weld it
      #      ^^ unknown-word
      finish bright
        on
      # ^^ line-unfinished
        paint grey
      #       ^^^^ unknown-word
        sand
      # ^^^^ line-unfinished
      order bench
        first
      # ^^^^^ line-unfinished
        first bowl raise, then
      #                   ^^^^ line-unfinished
        frist bowl raise
      # ^^^^^ unknown-word
        hours bowl raise
      #            ^^^^^ line-unfinished
      log first
        dated 2027-13-01
      #       ^^^^^^^^^^ number-form
        dated
      # ^^^^^ line-unfinished
        found bowl
      #       ^^^^ line-unfinished
        found bowl crown
      #            ^^^^^ line-unfinished
        took bowl
      #      ^^^^ line-unfinished
    `));

  it('of single lines', () =>
    void check(`
      use
      #~~ line-unfinished
      use stock
      #~~~~~~~~ line-unfinished
      use "open
      #   ^^^^^ text-open
      use "a" "b"
      #       ^^^ unknown-word
      let
      #~~ name-missing
      let gap
      #   ^^^ line-unfinished
      let gap =
      #~~~~~~~~ line-unfinished
      let gap = 3 mm 4 mm
      #              ^^^^ unknown-word
      let a.b = 3 mm
      #   ^^^ name-reserved
      let x = 3 mm
      #   ^ name-reserved
      let mm = 3 mm
      #   ^^ name-reserved
    `));

  it('in arithmetic', () =>
    void check(`
      let a = 3 mm +
      #            ^ line-unfinished
      let b = (3 mm + 4 mm
      #                 ^^ line-unfinished
      let d = 3 mm)
      #           ^ unknown-word
      let e = sqrt(4 mm
      #              ^^ line-unfinished
      let i = max(3 mm,
      #             ^^ line-unfinished
      let j = 2 *
      #         ^ line-unfinished
      let k = * 2
      #       ^ unknown-word
    `));

  it('in a text', () =>
    void check(`
      build "A job
      #     ^^^^^^ text-open
        for "The wardens
      #     ^^^^^^^^^^^^ text-open
        duty stage
    `));
});

describe('Marks and signs', () => {
  it('that have no meaning are one mistake in a row', () =>
    void check(`
      piece bowl
        from plate-16
        disc 90 mm @@; 3
      #            ^^^ mark-unknown
        hole 😀 3 mm
      #      ^^ mark-unknown
        hole #30
      #      ^^^ mark-unknown
        grain up #334455
      #          ^^^^^^^ mark-unknown
    `));

  it('without their spaces are read as they are meant', () => {
    const spec = check(`
      let a = rim-3 mm
      #       ^^^^^ sign-spacing
      let b = 3 mm+4 mm
      #           ^ sign-spacing
      let d = 10 mm -4 mm
      #             ^ sign-spacing
      let e = 10 mm- 4 mm
      #            ^ sign-spacing
      let i = 10 mm-4 mm
      #            ^ sign-spacing
      let j = 10 mm - -4 mm
      let k = -4 mm
      let l = (-4 mm) * 2
    `);
    const [a] = spec.sections[0]!.singles;
    assert.ok(a?.kind === 'let' && a.value?.parts[0]?.kind === 'binary');
  });

  it('an excuse wants its check and its reason', () => {
    const spec = check(`
      piece bowl
        from plate-16
        disc 90 mm # allow blank-large: the sheet is there
        raise # allow
      #       ^^^^^^^ excuse-unclear
        dish # allow something
      #      ^^^^^^^^^^^^^^^^^ excuse-unclear
        planish # allowed to look rough
    `);
    assert.deepEqual(
      spec.sections[0]!.lines.map((line) => line.excuse && [line.excuse.code, line.excuse.why]),
      [undefined, ['blank-large', 'the sheet is there'], undefined, undefined, undefined],
    );
  });

  it('a line said twice is marked, one that is still being written is not', () =>
    void check(`
      piece bowl
        from plate-16
        from plate-18
      # ^^^^^^^^^^^^^ line-twice
        disc 90 mm
        dome 90 mm, deep 20 mm
      # ^^^^^^^^^^^^^^^^^^^^^^ line-twice
        make
      # ^^^^ line-unfinished
        make 2
      wearer guard
        head round 585 mm
        head round 590 mm
      # ^^^^^^^^^^^^^^^^^ line-twice
        head length 200 mm
    `));

  it('a line in the wrong section', () =>
    void check(`
      piece bowl
        from plate-16
        disc 90 mm
        joins a, b
      # ^^^^^ section-wrong
        overlap 8 mm
      # ^^^^^^^ section-wrong
        head round 585 mm
      # ^^^^ section-wrong
        kerf 1 mm
      # ^^^^ section-wrong
    `));
});

describe('Fixes', () => {
  const fixed = (text: string) => {
    const fix = problemsOf(readSpec(text)).find((problem) => problem.fixes.length)?.fixes[0];
    assert.ok(fix, 'there is a fix');
    return [...fix.edits]
      .sort((a, b) => b.from - a.from)
      .reduce((out, edit) => out.slice(0, edit.from) + edit.text + out.slice(edit.to), text);
  };

  it('make the text that the message asks for', () => {
    assert.equal(fixed('build harbour sallet\n'), 'build "harbour sallet"\n');
    assert.equal(fixed('piece skull plate\n'), 'piece skull-plate\n');
    assert.equal(fixed('build "x"\n  make 2 spare 1\n'), 'build "x"\n  make 2, spare 1\n');
    assert.equal(fixed('wearer guard\n  head roun 5 mm\n'), 'wearer guard\n  head round 5 mm\n');
    assert.equal(fixed('wearer guard\n  head round, 5 mm\n'), 'wearer guard\n  head round 5 mm\n');
    assert.equal(fixed('material m-1\n  brass 1 mm, half hrad\n'), 'material m-1\n  brass 1 mm, half hard\n');
    assert.equal(fixed('material m-1\n  brass 1 mm, zinc\n'), 'material m-1\n  brass 1 mm, zinc plated\n');
    assert.equal(fixed('shop s-1\n  shear up to mild teel 1 mm\n'), 'shop s-1\n  shear up to mild steel 1 mm\n');
    assert.equal(fixed('seam s-1\n  shares b-1 2 an 3\n'), 'seam s-1\n  shares b-1 2 and 3\n');
    assert.equal(fixed('build "x"\n  make2\n'), 'build "x"\n  make 2\n');
    assert.equal(
      fixed('piece cap\n  plate 9 x 9 mm\n  trim along a.top, wide16 mm\n').split('\n')[2],
      '  trim along a.top, wide 16 mm',
    );
    assert.equal(fixed('piece left\n'), 'piece left-piece\n');
    assert.equal(fixed('let f = 3 mm\n'), 'let f-size = 3 mm\n');
    assert.equal(fixed('planish 9\n'), 'planish 1\n');
    assert.equal(fixed('planish\n'), 'planish 1\n');
    assert.equal(fixed('piece cap\n  dome 90 mm; deep 20 mm\n'), 'piece cap\n  dome 90 mm, deep 20 mm\n');
    assert.equal(fixed('build "x"\n  make 2;\n'), 'build "x"\n  make 2\n');
    assert.equal(
      fixed('build "x"\n  make 2 # allow too-heavy it hangs on the wall\n'),
      'build "x"\n  make 2 # allow too-heavy: it hangs on the wall\n',
    );
    assert.equal(fixed('let a = rim-3 mm\n'), 'let a = rim - 3 mm\n');
    assert.equal(fixed('let a = 3 mm+4 mm\n'), 'let a = 3 mm + 4 mm\n');
    assert.equal(fixed('let a = 10 mm -4 mm\n'), 'let a = 10 mm - 4 mm\n');
    assert.equal(fixed('let a = 2-1/2 in\n'), 'let a = 2 1/2 in\n');
    assert.equal(fixed('let a = .5 in\n'), 'let a = 0.5 in\n');
    assert.equal(fixed('build "x\n'), 'build "x"\n');
    assert.equal(fixed('peice skull\n'), 'piece skull\n');
    assert.equal(fixed('wearer guard\n  body man\n  body woman\n'), 'wearer guard\n  body man\n');
  });
});

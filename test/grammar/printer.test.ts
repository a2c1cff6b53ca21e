import assert from 'node:assert/strict';
import fc from 'fast-check';
import { applyEdits, formatEdits, formatSpec } from '../../grammar/printer.ts';
import { readSpec } from '../../grammar/reader.ts';
import { anyText, editedSpec, meaningOf, problemsOf, randomSpec, runs, soup, specs } from './support.ts';

/** Two texts in one: what is written above the arrow becomes what stands below. */
function check(written: string): void {
  const rows = written.replace(/^\n/, '').replace(/\n *$/, '').split('\n');
  const indent = Math.min(...rows.filter((row) => row.trim()).map((row) => row.length - row.trimStart().length));
  const lines = rows.map((row) => row.slice(indent));
  const arrow = lines.indexOf('-->');
  const before = lines.slice(0, arrow).join('\n');
  const after = `${lines.slice(arrow + 1).join('\n')}\n`;
  assert.equal(formatSpec(before), after);
  assert.equal(formatSpec(after), after, 'printing twice is printing once');
}

describe('The formatter', () => {
  it('indents by two, continues by four, and parts sections by one blank line', () =>
    check(`
      piece skull
      from plate-16
            make 2,
      mirrored


      ## Two of them.
        seam ridge
      joins skull,
      ridge
      # the strap
      piece ridge
      from plate-16
      -->
      piece skull
        from plate-16
        make 2,
          mirrored

      ## Two of them.
      seam ridge
        joins skull,
          ridge

      # the strap
      piece ridge
        from plate-16
    `));

  it('keeps at most one blank line inside a section, and none at the ends', () =>
    check(`


      piece skull
        from plate-16



        raise


      -->
      piece skull
        from plate-16

        raise
    `));

  it('puts single lines at column 0', () =>
    check(`
        planish   1
        use "a.planish"
      piece skull
        let r=3mm
        from plate-16
      -->
      planish 1
      use "a.planish"

      piece skull
      let r = 3 mm
        from plate-16
    `));

  it('spells numbers, units, signs and quotes its way', () =>
    check(`
      material plate
        brass 18ga ,half hard
        sheet 120x80"
        sheet 120×80 inches
        hide 2.2 m²
        density 7.85 g/cm³
        margin 2½"
        kerf ½ mm
        bend radius 3 mm+/-0.5 mm
      piece a
        flare bottom,25°
        plate ( 2 mm  +  3 mm )*2 x 4 MM
        harden 830°C
        hole -  2 mm
        hole 5 mm – 2 mm
        hole 5 mm − -2 mm
        hole round-up ( 3 mm,5 mm )
      build “The job”
        for “The \\“big\\” job”
      -->
      material plate
        brass 18 ga, half hard
        sheet 120 x 80 in
        sheet 120 x 80 in
        hide 2.2 m2
        density 7.85 g/cm3
        margin 2 1/2 in
        kerf 1/2 mm
        bend radius 3 mm ± 0.5 mm

      piece a
        flare bottom, 25 deg
        plate (2 mm + 3 mm) * 2 x 4 mm
        harden 830 C
        hole - 2 mm
        hole 5 mm - 2 mm
        hole 5 mm - -2 mm
        hole round-up(3 mm, 5 mm)

      build "The job"
        for "The “big” job"
    `));

  it('mends no sign without its spaces: it stays marked', () =>
    check(`
      piece a
        plate ( 2 mm+3 mm )*2 x 4 MM
        hole  5 mm- 3 mm,inset 3MM
        hole 5 mm -(2 mm)
        hole 5 mm*- 4
        hole 10 mm   -4 mm
      let a =rim-3 mm
      -->
      piece a
        plate (2 mm+3 mm) * 2 x 4 mm
        hole 5 mm- 3 mm, inset 3 mm
        hole 5 mm -(2 mm)
        hole 5 mm *- 4
        hole 10 mm -4 mm
      let a = rim-3 mm
    `));

  it('keeps names as they are spelled', () =>
    check(`
      PIECE  Skull-Plate
        From Plate-16
        trim  along Ärmel.Rim
      -->
      PIECE Skull-Plate
        From Plate-16
        trim along Ärmel.Rim
    `));

  it('leaves what it cannot read as it stands, but for its indent', () =>
    check(`
      piece a
      hole   3mm @ 4mm
      hole 2-1/2   in
      for "open   text
      hole   #30
      -->
      piece a
        hole   3mm @ 4mm
        hole 2-1/2   in
        for "open   text
        hole   #30
    `));

  it('keeps comments, one space behind their line', () =>
    check(`
      piece a  # the first
        raise# why
        # in between
        planish      #  two  spaces inside
      # under the last line, over a header
      piece b
        raise
          # indented: about the line above
      piece c
        raise

      # ---- straps ----

      piece d
      # under a header
        raise
      # at the end
      -->
      piece a # the first
        raise # why
        # in between
        planish #  two  spaces inside

      # under the last line, over a header
      piece b
        raise
        # indented: about the line above

      piece c
        raise

      # ---- straps ----

      piece d
        # under a header
        raise
        # at the end
    `));

  it('never parts a note from what it is about', () =>
    check(`
      piece a
        raise
      ## about b
      # and more
      ## about b too
        piece b
      ## about raise
      raise
      ## about r
      let r = 3 mm
      -->
      piece a
        raise

      ## about b
      # and more
      ## about b too
      piece b
        ## about raise
        raise
      ## about r
      let r = 3 mm
    `));

  it('leaves words alone that would become a header, or stop being one', () =>
    check(`
        foo bar
      peice skull
      from plate
      -->
        foo bar

      peice skull
        from plate
    `));

  it('keeps the prevailing line end, the mark of byte order, and ends with a line end', () => {
    assert.equal(
      formatSpec('\uFEFFpiece a\r\nraise\r\nplanish\npiece b'),
      '\uFEFFpiece a\r\n  raise\r\n  planish\r\n\r\npiece b\r\n',
    );
    assert.equal(formatSpec(''), '');
    assert.equal(formatSpec('  \n\n'), '');
  });

  it('edits only what changes', () => {
    const text = 'piece a\n  raise\n planish\n  make 2,mirrored\n';
    assert.deepEqual(formatEdits(text), [
      { from: 17, to: 17, text: ' ' },
      { from: 34, to: 34, text: ' ' },
    ]);
  });

  it('formats a range of rows', () => {
    const text = 'piece a\nraise\nplanish\nraise\n';
    const edits = formatEdits(text, { from: 14, to: 16 });
    assert.equal(applyEdits(text, edits), 'piece a\nraise\n  planish\nraise\n');
  });

  for (const { name, text } of specs)
    it(`leaves ${name} as it is: it is in the formatter's layout`, () => {
      assert.equal(formatSpec(text), text);
      assert.deepEqual(problemsOf(readSpec(text)), []);
    });

  it('keeps the meaning of what random texts once found', () => {
    for (const text of [
      'ounces“cut”',
      'planish“cut”',
      '\n# c\n×build',
      'foo×\n',
      'planish 1½',
      '"a" - – build',
      '\uFEFF\r\ne\u0301units mm',
      'lace "waxed cord"# allow a-b: since\u2028',
      '#\u2028',
      '" / ',
      'part a\n  wide (4 mm+2 mm) * 2\n  wide 12 mm\n',
      '2  ½ 1/2',
      '@\n\n\nbuild.5',
      'planish 1\rC“cut”',
      ',\nfoo bar\n',
      '0" -build',
    ]) {
      const printed = formatSpec(text);
      assert.deepEqual(meaningOf(readSpec(printed)), meaningOf(readSpec(text)), JSON.stringify(text));
      assert.equal(formatSpec(printed), printed);
    }
  });

  for (const [what, texts, count] of [
    ['random specs', randomSpec, 400],
    ['specs with random edits', editedSpec, 400],
    ['near-specs', soup, 600],
    ['any text', anyText, 400],
  ] as const)
    it(`never changes meaning, keeps every comment, and is idempotent: ${runs(count)} ${what}`, () => {
      fc.assert(
        fc.property(texts, (text) => {
          const printed = formatSpec(text);
          assert.deepEqual(meaningOf(readSpec(printed)), meaningOf(readSpec(text)));
          assert.equal(formatSpec(printed), printed);
        }),
        { numRuns: runs(count) },
      );
    });
});

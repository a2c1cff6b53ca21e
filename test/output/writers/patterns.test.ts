import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { problemsOf } from '../../../server/checks/run.ts';
import { lengthOfPath, signedArea } from '../../../server/geometry/outline/measure.ts';
import { straps } from '../../../server/model/figures/build.ts';
import { jointLeathers } from '../../../server/model/figures/joint-hardware.ts';
import type { Model } from '../../../server/model/spec.ts';
import { boxOf } from '../../../server/output/documents/patterns/paths.ts';
import type { Pattern } from '../../../server/output/documents/patterns/pattern.ts';
import { patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { letterOf } from '../../../server/output/documents/patterns/seams.ts';
import { dxfText } from '../../../server/output/writers/dxf.ts';
import { exportPatterns } from '../../../server/output/writers/patterns.ts';
import { builds, sample, specOf } from '../../samples/support.ts';

const { resolve } = createRequire(import.meta.url);
const face = (file: string) => new Uint8Array(readFileSync(resolve(`@expo-google-fonts/noto-sans/${file}`)));
const fonts = { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };

const patternsIn = (model: Model) => patternsOf(model, { date: '2027-03-01', problems: problemsOf(model) });
const outlineOf = ({ lines }: Pattern) => lines.find(({ kind }) => kind === 'outline')!.path;
const openingsArea = ({ lines }: Pattern) =>
  lines.filter(({ kind }) => kind === 'opening').reduce((sum, { path }) => sum + Math.abs(signedArea(path)), 0);
const count = ({ lines }: Pattern, kind: string) => lines.filter((each) => each.kind === kind).length;

const SPEC = `planish 1
build "Brow & band"
  make 2, spare 1
material plate
  mild steel 1.5 mm
rivet small
  brass 4 x 10 mm, domed
piece brow
  from plate
  plate 300 x 60 mm
  slot eye 90 x 12 mm, at 30 mm from top
  holes lace 5 of 4 mm, along bottom, inset 8 mm
piece band
  from plate
  make 2, mirrored
  cylinder round 400 mm, high 50 mm, wrap 180 deg
  hole peg 6 mm, at 20 mm from left and 10 mm from bottom
  hole pin 3 mm, at 20 mm from right and 10 mm from bottom, before forming
  edge top hemmed 6 mm
  grain up
seam join
  joins brow, band
  along brow.bottom, from 50 mm to 250 mm
  along band.bottom
  rivets small, count 5, inset 10 mm, peened domed
`;

describe('patterns', () => {
  for (const file of builds)
    it(`are as large as the blanks of the cut list: ${file}`, () => {
      const model = sample(file);
      const { patterns, missing } = patternsIn(model);
      assert.deepEqual(missing, []);
      const templates = model.pieces().flatMap((piece) => piece.templates());
      assert.equal(
        patterns.length,
        model.pieces().length + straps(model).length + jointLeathers(model).length + templates.length,
      );
      for (const pattern of patterns.slice(0, model.pieces().length)) {
        const blank = model
          .pieces()
          .find(({ name }) => name === pattern.piece)!
          .blank()!;
        const { left, right, bottom, top } = boxOf([outlineOf(pattern)]);
        // What no formula gives is drawn of lines and arcs that keep within 0.05 mm of it.
        const within = blank.shape.kind === 'outline' ? 0.05 : 0.01;
        const near = (is: number, wanted: number, what: string) =>
          assert.ok(Math.abs(is - wanted) <= 2 * within, `${pattern.piece}: ${what} ${is}, blank ${wanted}`);
        near(right - left, blank.long, 'long');
        near(top - bottom, blank.wide, 'wide');
        const whole = signedArea(outlineOf(pattern));
        assert.ok(whole > 0, `${pattern.piece} runs clockwise`);
        const cutOut = blank.shape.kind === 'outline' ? (blank.shape.openings ?? []) : [];
        const area = cutOut.length ? whole - openingsArea(pattern) : whole;
        const off = Math.abs(area - blank.area);
        assert.ok(
          off <= within * lengthOfPath(outlineOf(pattern)),
          `${pattern.piece}: ${area} mm², blank ${blank.area}`,
        );
      }
    });

  it('tell what is made in the flat from what comes after forming', () => {
    const [brow, band] = patternsIn(specOf({ 'a.planish': SPEC })).patterns as [Pattern, Pattern];
    // Five for the lacing and the five rivets: brow stays flat and lies outside.
    assert.deepEqual([count(brow, 'opening'), count(brow, 'hole'), count(brow, 'later')], [1, 10, 0]);
    // The peg hole waits for the rolling, the pin hole does not; the rivets go through brow's holes.
    assert.deepEqual([count(band, 'hole'), count(band, 'later'), count(band, 'rivet')], [1, 1, 5]);
    assert.deepEqual([band.count, band.turned, band.grain], [1, 1, 90]);
    assert.ok(count(band, 'finished') === 1 && count(band, 'fold') === 1);
  });

  it('put places where the spec says, and the same letter on both edges of a seam', () => {
    const [brow, band] = patternsIn(specOf({ 'a.planish': SPEC })).patterns as [Pattern, Pattern];
    const middles = ({ lines }: Pattern, kind: string) =>
      lines
        .filter((each) => each.kind === kind)
        .map(({ path }) => boxOf([path]))
        .map(({ left, right, bottom, top }) =>
          [(left + right) / 2, (bottom + top) / 2].map((n) => Math.round(n * 1000) / 1000),
        );
    assert.deepEqual(middles(brow, 'opening'), [[150, 30]]);
    assert.deepEqual(middles(band, 'later'), [[20, 10]]);
    assert.deepEqual(middles(band, 'hole'), [[180, 10]]);
    // The row runs from 50 to 250, its ends as far from the ends of the row as from the edge.
    assert.deepEqual(
      middles(brow, 'hole').slice(5),
      [60, 105, 150, 195, 240].map((x) => [x, 10]),
    );
    assert.deepEqual(
      middles(band, 'rivet'),
      [10, 55, 100, 145, 190].map((x) => [x, 10]),
    );
    for (const pattern of [brow, band])
      assert.ok(pattern.labels.some(({ what, text }) => what === 'seam' && text === 'A'));
  });

  it('letter seams from A to Z and on', () => {
    assert.deepEqual([0, 25, 26, 27, 51, 52, 701, 702].map(letterOf), ['A', 'Z', 'AA', 'AB', 'AZ', 'BA', 'ZZ', 'AAA']);
  });

  it('say why a piece has none, and pick one piece by its name', () => {
    const model = specOf({ 'a.planish': `${SPEC}\npiece lost\n  from plate\n` });
    const all = patternsIn(model);
    assert.deepEqual(all.missing, [{ piece: 'lost', reason: 'it has no form' }]);
    const one = patternsOf(model, { date: '2027-03-01', problems: [], piece: 'BAND' });
    assert.deepEqual(
      one.patterns.map(({ piece }) => piece),
      ['band'],
    );
  });

  it('draw no flutes but those that are worked out, each with its own words', () => {
    const flutes = (...lines: string[]) => {
      const text = `planish 1\nmaterial plate\n  mild steel 1.5 mm\npiece cuff\n  from plate\n  plate 200 x 60 mm\n${lines.map((line) => `  flute ${line}\n`).join('')}`;
      const [made] = patternsIn(specOf({ 'a.planish': text })).patterns;
      const { labels, notes } = made!;
      return { drawn: labels.map((each) => each.text).filter((each) => each.includes('flute')), notes };
    };
    const few = ['2 flutes, 10 mm wide, 2 mm out'];
    assert.deepEqual(flutes('2, deep 2 mm, wide 10 mm').drawn, few);
    for (const tooMany of ['61, deep 1 mm, wide 2 mm', '30, deep 1 mm, wide 20 mm']) {
      const { drawn, notes } = flutes(tooMany, '2, deep 2 mm, wide 10 mm');
      assert.deepEqual(drawn, few);
      assert.ok(
        notes.some((note) => /^Not drawn: (61|30) flutes/.test(note)),
        `${notes}`,
      );
    }
  });

  it('come out byte for byte the same again', async () => {
    const write = async (to: 'pdf' | 'svg' | 'dxf') => {
      const { bytes, text } = await exportPatterns(patternsIn(specOf({ 'a.planish': SPEC })), { to, fonts });
      return Buffer.from(bytes ?? text!);
    };
    for (const to of ['pdf', 'svg', 'dxf'] as const) assert.ok((await write(to)).equals(await write(to)), to);
  });

  it('let nothing from a spec act in the file', async () => {
    const note = '</text><script>alert(1)</script> & %%d ^J \\U+0041 \u202e é';
    const model = specOf({ 'a.planish': SPEC.replace('piece brow', `## ${note}\npiece brow`) });
    const svg = (await exportPatterns(patternsIn(model), { to: 'svg', fonts })).text!;
    assert.ok(!svg.includes('<script') && svg.includes('&lt;script') && !svg.includes('\u202e'));
    const dxf = (await exportPatterns(patternsIn(model), { to: 'dxf', fonts })).text!;
    assert.ok(!/[^\x20-\x7e\r\n]/.test(dxf));
    assert.equal(dxfText('%%d 5 % ^J \\P é\n0\nEOF'), '%%%%%%d 5 % ^ J \\U+005CP \\U+00E9 0 EOF');
  });
});

describe('a pattern over more sheets than anyone tapes together', () => {
  const square = (wide: number, high: number) => ({
    vertices: [
      { x: 0, y: 0 },
      { x: wide, y: 0 },
      { x: wide, y: high },
      { x: 0, y: high },
    ],
    closed: true,
  });
  const { patterns: some, ...paper } = patternsIn(specOf({ 'a.planish': SPEC }));
  const [small] = some;
  const sized = (wide: number, high: number): Pattern => ({
    ...small!,
    piece: 'sail',
    labels: [],
    lines: [{ kind: 'outline', path: square(wide, high) }],
  });
  const written = (pattern: Pattern) =>
    exportPatterns({ ...paper, patterns: [small!, pattern] }, { to: 'pdf', paper: 'a4', fonts });

  it('is named as left out, counted and never tiled', async () => {
    const { leftOut } = await written(sized(92_000_000, 26_000_000));
    assert.deepEqual(
      leftOut?.map(({ piece }) => piece),
      ['sail'],
    );
    assert.match(leftOut![0]!.reason, /it would take \d+ or more sheets, and 240 are the most: ask for/);
  });

  it('is named with how many where they can be counted', async () => {
    const { leftOut } = await written(sized(20_000, 20_000));
    assert.match(leftOut![0]!.reason, /it would take \d+ sheets, and 240 are the most: ask for/);
  });

  it('is drawn where it is not so many', async () => {
    const { leftOut, bytes } = await written(sized(900, 700));
    assert.deepEqual(leftOut, []);
    assert.ok(bytes!.length > 10_000);
  });
});

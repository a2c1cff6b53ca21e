import { strict as assert } from 'node:assert';
import { pieceMap } from '../../../server/output/documents/piece-map.ts';
import { type StrainMap, strainMapSvg } from '../../../server/output/documents/strain-map.ts';
import { modelFrom } from '../../model/support.ts';

const mapOf = (form: string, name = 'cop', unit: 'mm' | 'in' = 'mm'): StrainMap => {
  const model = modelFrom(`build "b"
  units ${unit}
material plate
  mild steel 1.5 mm
piece ${name}
  from plate
  ${form}
`);
  const map = pieceMap(model.pieces()[0]!, model.units());
  assert.ok(!('refused' in map), 'refused' in map ? map.refused : '');
  return map;
};

const texts = (svg: string): string[] => [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((match) => match[1]!);

describe('the map of a flat blank', () => {
  const cop = mapOf('oval dome 150 x 125 mm, deep 62 mm\n  dish then raise');
  const svg = strainMapSvg(cop);

  it('says thickness by figures on its contours and in its legend, not by colour alone', () => {
    const figures = [...svg.matchAll(/class="figure"[^>]*>([\d.]+)</g)].map((match) => match[1]!);
    assert.deepEqual([...new Set(figures)].sort(), ['1.4', '1.5', '1.6', '1.7']);
    for (const text of ['under 1.4', '1.4 to 1.5', '1.5 to 1.6', '1.6 to 1.7', 'over 1.7', 'stretch it', 'shrink it'])
      assert.ok(texts(svg).includes(text), text);
  });

  it('draws each contour where the thickness is what its figure says', () => {
    // The crown is thinner than its sheet, the rim thicker, and 1.5 mm lies between.
    const depth = [...cop.flat.depth];
    const crown = cop.flat.thickness[depth.indexOf(1)]! * 1.5;
    const rim = cop.flat.thickness[depth.indexOf(0)]! * 1.5;
    assert.ok(crown < 1.4 && rim > 1.7, `${crown} to ${rim}`);
    // Five bands, each a filled path of its own colour.
    const fills = [...svg.matchAll(/<path d="[^"]+" fill="(#\w+)"/g)].map((match) => match[1]);
    assert.equal(new Set(fills).size, 5);
  });

  it('is life-size, and tells how long each edge is flat and formed', () => {
    const [, wide] = /width="([\d.]+)mm"/.exec(svg)!;
    assert.match(svg, new RegExp(`viewBox="0 0 ${wide} `));
    assert.ok(texts(svg).some((text) => /rim 591\.\d mm flat, 432\.\d mm formed \(−26\.\d %\)/.test(text)));
    assert.ok(texts(svg).some((text) => /Reckoned as dished, then raised/.test(text)));
  });

  it('names the cut that spares most where the strain is past the metal’s allowance', () => {
    const bowl = mapOf('dome 200 mm, deep 120 mm\n  dish then raise', 'bowl');
    assert.ok(bowl.notes.some((note) => /A split along the middle would bring that down to 0\.\d\d/.test(note)));
    assert.ok(!cop.notes.some((note) => /would bring/.test(note)));
  });

  it('of what rolls out flat is even, without arrows', () => {
    const flat = strainMapSvg(mapOf('cone round 560 to 700 mm, high 75 mm, wrap 150 deg'));
    assert.ok(texts(flat).includes('even'));
    // The two that stand in the legend.
    assert.equal([...flat.matchAll(/class="(stretch|shrink)"/g)].length, 2);
  });

  it('of a plate that is as good as even has one band, and no band that nobody could measure', () => {
    const band = (share: Partial<StrainMap['flat']>) => strainMapSvg({ ...cop, flat: { ...cop.flat, ...share } });
    const spread = (most: number) => band({ thickness: cop.flat.depth.map((depth) => 1 + most * (0.5 - depth)) });
    const rows = (svg: string) => texts(svg).filter((text) => /^(under|over|even)|\d to \d/.test(text));
    assert.deepEqual(rows(spread(0.008)), ['even within 1 %']);
    // 1.473 to 1.527 mm: by steps of 0.02, more than a hundredth of the sheet, not of 0.01.
    assert.deepEqual(rows(spread(0.036)), ['under 1.48', '1.48 to 1.5', '1.5 to 1.52', 'over 1.52']);
    const inches = strainMapSvg({
      ...cop,
      system: 'in 1/32',
      flat: { ...cop.flat, thickness: cop.flat.depth.map((depth) => 1 + 0.1 * (0.5 - depth)) },
    });
    const labels = rows(inches);
    assert.equal(new Set(labels).size, labels.length);
    assert.ok(labels.length > 3, labels.join(', '));
  });

  it('is white where the sheet stays as it is, and deeper in colour the further it gets from that', () => {
    const fills = [...svg.matchAll(/class="swatch"[^>]*fill="(#\w+)"/g)].map((match) => match[1]!);
    const light = (colour: string) =>
      [1, 3, 5].reduce((sum, i) => sum + Number.parseInt(colour.slice(i, i + 2), 16), 0);
    // Under 1.4, 1.4 to 1.5, then thicker than the 1.5 mm of its sheet.
    const lights = fills.map(light);
    assert.ok(lights[0]! < lights[1]! && lights[2]! > lights[3]! && lights[3]! > lights[4]!, lights.join());
    const red = (colour: string) => Number.parseInt(colour.slice(1, 3), 16) - Number.parseInt(colour.slice(5, 7), 16);
    assert.ok(red(fills[1]!) > 0 && red(fills[2]!) < 0);
  });

  it('speaks inches where the build does, and lets no text of a spec in as markup', () => {
    const inches = strainMapSvg({ ...mapOf('dome 200 mm, deep 60 mm', 'cop', 'in'), title: '<b>&' });
    assert.match(inches, /&lt;b&gt;&amp;/);
    assert.ok(texts(inches).some((text) => text.includes(' in')));
  });

  it('is refused in words where there is none', () => {
    const model = modelFrom('material plate\n  mild steel 1.5 mm\npiece a\n  from plate\n  disc 90 mm\n');
    assert.deepEqual(pieceMap(model.pieces()[0]!, 'mm'), { refused: 'it has no formed surface' });
  });
});

import assert from 'node:assert/strict';
import type { MarkupContent } from 'vscode-languageserver-types';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { open } from './view.ts';

/** The picture in the hover at the cursor: its SVG, and what it is in words. */
function pictureAt(written: string): { words: string; svg: string } | undefined {
  const { view, position } = open(written);
  const { value } = hoverAt(view, position, { pictures: true })!.contents as MarkupContent;
  const found = /!\[([^\]]*)\]\(data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)\)/.exec(value);
  return found ? { words: found[1]!, svg: Buffer.from(found[2]!, 'base64').toString('utf8') } : undefined;
}

const BUILD = `
  material plate
    mild steel 1.5 mm

  material hide
    veg-tan leather 7 oz

  material edge-wire
    mild steel wire 3 mm

  rivet small
    mild steel 4 x 12 mm, domed
    washer 10 x 0.8 mm
`;

describe('drawings in hovers', () => {
  it('a rivet is cut through its stack, outside first, each layer as thick as it is', () => {
    const picture = pictureAt(`${BUILD}
  piece band
    from plate
    strip 300 x 25 mm

  piece strap
    from hide
    strip 100 x 25 mm

  seam row
    joins band, band, strap
    along band.top
    riv$0ets small, count 4, inset 8 mm, peened domed, washer inside
  `);
    assert.equal(
      picture?.words,
      'Section through a rivet, from outside: band 1.5 mm, band 1.5 mm, strap 2.36 mm, washer 0.8 mm',
    );
    // The left half of each layer, as high on the screen as its metal is thick.
    const heights = [...picture!.svg.matchAll(/<polygon points="([^"]+)"/g)]
      .map((found) => found[1]!.split(' ').map((point) => Number(point.split(',')[1])))
      .map((ys) => Math.max(...ys) - Math.min(...ys))
      .filter((_, i) => i % 2 === 0)
      .slice(0, 4);
    const scale = heights[0]! / 1.5;
    for (const [i, thickness] of [1.5, 1.5, 2.36, 0.8].entries())
      assert.ok(Math.abs(heights[i]! / scale - thickness) < 0.06);
  });

  it('a dome shows what forming leaves at crown and rim', () => {
    const picture = pictureAt(`${BUILD}
  piece skull
    from plate
    do$0me 210 mm, deep 60 mm
    raise
  `);
    assert.match(picture!.words, /^Section of the dome: 210 mm, deep 60 mm, crown 1\.5 mm, rim 1\.6\d mm/);
  });

  it('a rolled edge shows its wire, and what it stands beyond the line', () => {
    const picture = pictureAt(`${BUILD}
  piece skull
    from plate
    disc 210 mm
    edge rim rol$0led over edge-wire, outward
  `);
    assert.match(picture!.words, /^Section of the rolled edge: wire 3 mm, sheet 1\.5 mm, stands 3 mm beyond the line/);
    assert.equal(picture!.svg.match(/<circle/g)?.length, 1);
  });

  it('a wire or a rivet is drawn where it sits, with a name pointed at as with the line', () => {
    const picture = pictureAt(`${BUILD}
  piece skull
    from plate
    disc 210 mm
    edge rim rolled over edge-w$0ire, outward
  `);
    assert.match(picture!.words, /^Section of the rolled edge: wire 3 mm/);
  });

  it('a hem shows its layers', () => {
    const hem = (how: string) =>
      pictureAt(`${BUILD}
  piece band
    from plate
    strip 300 x 25 mm
    edge top hem$0med 6 mm${how}
  `)!.svg.match(/<path/g)?.length;
    assert.deepEqual([hem(''), hem(', double')], [2, 3]);
  });

  it('is small, well-formed, and holds nothing that a spec could slip in', () => {
    const picture = pictureAt(`
  material plate
    mild steel 1.5 mm

  rivet b
    mild steel 4 x 12 mm

  piece été
    from plate
    strip 300 x 25 mm

  seam row
    joins été, été
    along été.top
    riv$0ets b, count 4
  `);
    assert.ok(picture!.svg.length < 4000, `${picture!.svg.length} characters`);
    assert.match(picture!.svg, /été/);
    const names = [...picture!.svg.matchAll(/<(\/?)([a-z]+)/g)].map((found) => found[2]!);
    assert.deepEqual([...new Set(names)].sort(), ['g', 'line', 'path', 'polygon', 'svg', 'text', 'title']);
  });

  it('nothing is drawn where a figure is missing, or for an editor that did not ask', () => {
    const text = 'piece skull\n  do$0me 210 mm, deep 60 mm\n';
    assert.match(pictureAt(text)!.words, /^Section of the dome: 210 mm, deep 60 mm; thickness/);
    const { view, position } = open(text);
    assert.doesNotMatch((hoverAt(view, position)!.contents as MarkupContent).value, /data:/);
    assert.equal(pictureAt('seam row\n  riv$0ets small\n'), undefined);
  });
});

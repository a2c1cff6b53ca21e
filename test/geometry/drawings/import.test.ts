import assert from 'node:assert/strict';
import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import {
  cutOutFound,
  drawingRead,
  isCutOut,
  isOutline,
  type OutlineIn,
  outlineFound,
} from '../../../server/geometry/drawings/outline-in.ts';
import { boxOfPath, lengthOfPath, signedArea } from '../../../server/geometry/outline/measure.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { OF_HIDE, OF_PIECE } from '../../../server/trade/reckoning/bounds.ts';

/* Outlines of drawing files: sizes against closed forms and against a renderer of another house; what is said of bad ones. */

const readDrawing = (name: string, text: string) => atOnce(drawingRead(name, text));
type Read = ReturnType<typeof readDrawing>;
const outlineIn = (drawing: Read, name?: string, bounds = OF_PIECE) => atOnce(outlineFound(drawing, name, bounds));
const cutOutIn = (drawing: Read, name?: string) => atOnce(cutOutFound(drawing, name, OF_PIECE));

const MM = 'width="100mm" height="50mm" viewBox="0 0 100 50"';
const svg = (body: string, head = MM) => `<svg xmlns="http://www.w3.org/2000/svg" ${head}>${body}</svg>`;
const inSvg = (body: string, name?: string, head?: string) => outlineIn(readDrawing('a.svg', svg(body, head)), name);

function outline(answer: ReturnType<typeof outlineIn>): OutlineIn {
  assert.ok(isOutline(answer), JSON.stringify(answer));
  return answer;
}

const areaOf = ({ outer, openings }: OutlineIn) =>
  [outer, ...openings].reduce((sum, path) => sum + signedArea(path), 0);
const sizeOf = ({ outer }: OutlineIn) => {
  const { left, right, bottom, top } = boxOfPath(outer);
  assert.ok(Math.abs(left) < 1e-9 && Math.abs(bottom) < 1e-9, 'lies at the corner of its box');
  return [right, top].map((each) => Math.round(each * 1000) / 1000);
};
const near = (found: number, wanted: number, within: number) =>
  assert.ok(Math.abs(found - wanted) <= within, `${found}, not ${wanted}`);

describe('outlines out of SVG drawings', () => {
  it('circles, and corners that are rounded, keep their arcs', () => {
    const circle = outline(inSvg('<circle cx="20" cy="20" r="10"/>'));
    near(areaOf(circle), Math.PI * 100, 1e-9);
    assert.equal(circle.outer.vertices.length, 2);
    const plate = outline(inSvg('<rect x="1" y="2" width="30" height="20" rx="4"/>'));
    near(areaOf(plate), 600 - (4 - Math.PI) * 16, 1e-9);
    near(lengthOfPath(plate.outer), 2 * (22 + 12) + 8 * Math.PI, 1e-9);
  });

  it('ellipses and Bézier curves come within a hundredth of a millimetre', () => {
    near(areaOf(outline(inSvg('<ellipse cx="50" cy="25" rx="40" ry="20"/>'))), Math.PI * 800, 0.01 * 200);
    // 90 t(1 − t) high over 90 (3t² − 2t³): the integral of its height is 48,600/30.
    near(areaOf(outline(inSvg('<path d="M0 40 C 0 10 90 10 90 40 Z"/>'))), 1620, 0.01 * 220);
  });

  it('every unit of length, and the view box, give true size', () => {
    const square = (head: string) => sizeOf(outline(inSvg('<rect width="10" height="10"/>', undefined, head)));
    assert.deepEqual(square('width="100mm" height="100mm" viewBox="0 0 100 100"'), [10, 10]);
    assert.deepEqual(square('width="10cm" height="10cm" viewBox="0 0 100 100"'), [10, 10]);
    assert.deepEqual(square('width="4in" height="4in" viewBox="0 0 40 40"'), [25.4, 25.4]);
    assert.deepEqual(square('width="72pt" height="72pt" viewBox="0 0 10 10"'), [25.4, 25.4]);
    assert.deepEqual(square('width="6pc" height="6pc" viewBox="0 0 10 10"'), [25.4, 25.4]);
    assert.deepEqual(square('width="101.6Q" height="101.6Q" viewBox="0 0 10 10"'), [25.4, 25.4]);
    // One way is given more room: the drawing keeps its shape, unless it says otherwise.
    assert.deepEqual(square('width="200mm" height="100mm" viewBox="0 0 100 100"'), [10, 10]);
    assert.deepEqual(square('width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="none"'), [20, 10]);
  });

  it('without a unit an inch is 96, and it says so', () => {
    const plain = outline(inSvg('<rect width="96" height="48"/>', undefined, ''));
    assert.deepEqual(sizeOf(plain), [25.4, 12.7]);
    assert.match(plain.assumed ?? '', /96 to the inch/);
    assert.equal(outline(inSvg('<rect width="9" height="9"/>')).assumed, undefined);
  });

  it('follows groups, transforms, symbols and their use', () => {
    const turned =
      '<g id="frame" transform="translate(5 6) rotate(90, 1, 1)"><rect width="30" height="10" transform="scale(0.5)"/></g>';
    assert.deepEqual(sizeOf(outline(inSvg(turned, 'frame'))), [5, 15]);
    const symbol = '<symbol id="s"><rect width="10" height="5"/></symbol><use href="#s" x="3" y="4"/>';
    assert.deepEqual(sizeOf(outline(inSvg(symbol))), [10, 5]);
    const skewed = outline(inSvg('<rect width="10" height="10" transform="skewX(45)"/>'));
    assert.deepEqual(sizeOf(skewed), [20, 10]);
    near(areaOf(skewed), 100, 1e-9);
  });

  it('loose lines are chained whichever way they run, and what lies inside is cut out', () => {
    const loose =
      '<path d="M0 0h20"/><path d="M20 20h-20"/><path d="M20 0v20"/><path d="M0 20v-20"/><circle cx="10" cy="10" r="2"/>';
    const plate = outline(inSvg(loose));
    assert.equal(plate.openings.length, 1);
    near(areaOf(plate), 400 - 4 * Math.PI, 1e-9);
  });

  it('agrees with a renderer on what a winding path encloses', () => {
    const d =
      'M 12 30 c 4 -22 18 -26 30 -12 s 20 10 28 -6 q 10 -8 18 6 t -4 22 a 14 9 25 0 1 -22 6 A 30 30 0 0 0 30 44 Z';
    const path = outline(inSvg(`<path d="${d}"/>`, undefined, 'width="100mm" height="100mm" viewBox="0 0 100 100"'));
    const scale = 20;
    const drawn = new Resvg(svg(`<path d="${d}" fill="#000"/>`, 'width="100" height="100" viewBox="0 0 100 100"'), {
      fitTo: { mode: 'width', value: 100 * scale },
      background: '#fff',
    }).render();
    // The renderer makes its pixels anew each time they are asked for.
    const { pixels } = drawn;
    let dark = 0;
    for (let i = 0; i < pixels.length; i += 4) dark += (255 - pixels[i]!) / 255;
    near(areaOf(path), dark / scale ** 2, 0.0005 * areaOf(path));
  });

  it('says what is wrong with a drawing', () => {
    const said = (body: string, name?: string) => {
      const answer = inSvg(body, name);
      return isOutline(answer) ? 'an outline' : `${answer.why}: ${answer.text}`;
    };
    assert.equal(said(''), 'nothing: has no line in it that could be cut');
    assert.equal(said('<path id="crest" d="M0 0h1v1z"/>', 'crset'), 'no such name: has nothing named “crset” in it');
    assert.equal(
      said('<path d="M0 0h10v10"/>'),
      'open: has no closed outline in it: its longest line ends 14.1 mm from where it begins',
    );
    assert.equal(
      said('<path d="M0 0L10 10H0L10 0z"/>'),
      'crosses itself: has an outline that crosses itself, 5.0 mm from its left and 5.0 mm from its bottom',
    );
    assert.equal(
      said('<rect width="4" height="4"/><rect x="9" width="4" height="4"/>'),
      'several: has 2 outlines beside each other: say which with `named`',
    );
    assert.match(said('<path d="M0 0 Q x"/>'), /^unreadable: cannot be read: a path cannot be read/);
    assert.match(said('<g transform="tilt(3)"/>'), /the transform “tilt\(3\)” cannot be read/);
    assert.match(said('<rect'), /not well-formed/);
  });

  it('ends of lines within a twentieth of a millimetre meet, farther ones do not', () => {
    const gap = (size: number) => inSvg(`<path d="M0 0H10V10H0V${size}"/>`);
    near(areaOf(outline(gap(0.04))), 100, 0.5);
    assert.ok(!isOutline(gap(0.2)));
  });
});

/** A DXF file of these entities, each a list of group codes and values. */
function dxf(
  entities: readonly (readonly (string | number)[])[],
  header: readonly (string | number)[] = [9, '$INSUNITS', 70, 4],
) {
  return [
    0,
    'SECTION',
    2,
    'HEADER',
    ...header,
    0,
    'ENDSEC',
    0,
    'SECTION',
    2,
    'ENTITIES',
    ...entities.flat(),
    0,
    'ENDSEC',
    0,
    'EOF',
    '',
  ].join('\n');
}
const inDxf = (text: string, name?: string) => outlineIn(readDrawing('a.DXF', text), name);

describe('outlines out of DXF drawings', () => {
  it('lines and arcs are chained; a bulge of one is half a circle', () => {
    const slot = dxf([
      [0, 'LINE', 8, 'slot', 10, 0, 20, 0, 11, 40, 21, 0],
      [0, 'ARC', 8, 'slot', 10, 40, 20, 5, 40, 5, 50, 270, 51, 90],
      [0, 'LINE', 8, 'slot', 10, 40, 20, 10, 11, 0, 21, 10],
      [0, 'ARC', 8, 'slot', 10, 0, 20, 5, 40, 5, 50, 90, 51, 270],
    ]);
    near(areaOf(outline(inDxf(slot, 'SLOT'))), 400 + 25 * Math.PI, 1e-6);
    const bulged = dxf([
      [0, 'LWPOLYLINE', 8, '0', 90, 4, 70, 1, 10, 0, 20, 0, 10, 40, 20, 0, 42, 1, 10, 40, 20, 10, 10, 0, 20, 10, 42, 1],
    ]);
    near(areaOf(outline(inDxf(bulged))), 400 + 25 * Math.PI, 1e-9);
  });

  it('circles, ellipses and splines', () => {
    near(areaOf(outline(inDxf(dxf([[0, 'CIRCLE', 8, '0', 10, 3, 20, 4, 40, 10]])))), 100 * Math.PI, 1e-9);
    const ellipse = [0, 'ELLIPSE', 8, '0', 10, 0, 20, 0, 11, 30, 21, 0, 40, 0.5, 41, 0, 42, 2 * Math.PI];
    near(areaOf(outline(inDxf(dxf([ellipse])))), Math.PI * 450, 1);
    // A parabola as a spline of degree 2: two thirds of its box (Archimedes).
    const parabola = [
      0,
      'SPLINE',
      8,
      '0',
      70,
      8,
      71,
      2,
      72,
      6,
      73,
      3,
      74,
      0,
      ...[0, 0, 0, 1, 1, 1].flatMap((knot) => [40, knot]),
    ];
    const points = [
      [0, 0],
      [30, 40],
      [60, 0],
    ].flatMap(([x, y]) => [10, x!, 20, y!, 30, 0]);
    const closed = dxf([
      [...parabola, ...points],
      [0, 'LINE', 8, '0', 10, 0, 20, 0, 11, 60, 21, 0],
    ]);
    near(areaOf(outline(inDxf(closed))), (2 / 3) * 60 * 20, 0.5);
  });

  it('the unit of the file counts, and one that is unsaid is said', () => {
    const square = [0, 'LWPOLYLINE', 8, '0', 90, 4, 70, 1, 10, 0, 20, 0, 10, 2, 20, 0, 10, 2, 20, 2, 10, 0, 20, 2];
    assert.deepEqual(sizeOf(outline(inDxf(dxf([square], [9, '$INSUNITS', 70, 1])))), [50.8, 50.8]);
    assert.deepEqual(sizeOf(outline(inDxf(dxf([square], [9, '$INSUNITS', 70, 5])))), [20, 20]);
    const unsaid = outline(inDxf(dxf([square], [])));
    assert.deepEqual(sizeOf(unsaid), [2, 2]);
    assert.match(unsaid.assumed ?? '', /read as millimetres/);
  });

  it('a file that is none is said to be none', () => {
    for (const text of ['', 'crest', dxf([]).slice(0, 40)]) assert.ok(!isOutline(inDxf(text)), text);
    assert.match(JSON.stringify(outlineIn(readDrawing('crest.png', 'x'))), /only SVG and DXF/);
  });
});

describe('drawings that are hostile', () => {
  const whole = [
    svg('<g id="a"><path d="M0 0h10v10a5 5 0 0 1 -10 0z"/><use href="#a"/></g>'),
    dxf([[0, 'LWPOLYLINE', 8, '0', 90, 3, 70, 1, 10, 0, 20, 0, 10, 9, 20, 0, 10, 9, 20, 9]]),
  ];

  it('any text cut, spliced or stretched is answered and never thrown', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...whole.entries()),
        fc.nat(),
        fc.nat(),
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.constantFrom('NaN', '1e999', '-', '<g>', '\n0\nINSERT\n2\na\n', '&bomb;'),
        ),
        ([kind, text], at, length, put) => {
          const from = at % (text.length + 1);
          const spoilt = text.slice(0, from) + put + text.slice(from + (length % 20));
          outlineIn(readDrawing(kind ? 'a.dxf' : 'a.svg', spoilt));
        },
      ),
      { numRuns: 600 },
    );
  });

  it('a path that begins with no place, and a round that is lost beside its rectangle, are answered', () => {
    for (const shape of [
      '<path d="h10v10z"/>',
      '<path d="- 10 0h10v10z"/>',
      '<rect transform="rotate(-63.5)" width="4768478914084286" height="0.5" rx="0.5"/>',
    ])
      assert.ok(!isOutline(outlineIn(readDrawing('a.svg', svg(shape)))), shape);
  });

  it('what is wrong with a path is said without powers of ten', () => {
    const found = outlineIn(readDrawing('a.svg', svg('<path d="M0 0a-1e21 5 0 0 1 9 9z"/>')));
    assert.doesNotMatch(JSON.stringify(found), /e\+/);
    assert.match(JSON.stringify(found), /a number without end/);
  });

  it('entities are not blown up, a symbol of itself ends, and the deepest nest is refused', () => {
    const bomb = `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>${svg('<text>&b;</text>')}`;
    assert.ok(!isOutline(outlineIn(readDrawing('a.svg', bomb))));
    outlineIn(readDrawing('a.svg', svg('<g id="a"><use href="#a"/><use href="#a"/><use href="#a"/></g>')));
    assert.ok(!isOutline(outlineIn(readDrawing('a.svg', svg('<g>'.repeat(5000) + '</g>'.repeat(5000))))));
  });
});

describe('pierced work out of a drawing', () => {
  const cutOut = (body: string, name?: string, head?: string) => cutOutIn(readDrawing('a.svg', svg(body, head)), name);

  it('is every closed line, about the middle of the box of them all', () => {
    const found = cutOut('<rect x="10" y="10" width="20" height="10"/><circle cx="50" cy="20" r="5"/>');
    assert.ok(isCutOut(found));
    // From 10 to 55 across, from 10 to 25 up.
    assert.deepEqual(
      [found.long, found.wide].map((each) => Math.round(each * 1e6) / 1e6),
      [45, 15],
    );
    const area = found.shapes.reduce((sum, path) => sum + signedArea(path), 0);
    assert.ok(Math.abs(area - (200 + 25 * Math.PI)) < 1e-6);
    const boxes = found.shapes.map(boxOfPath);
    assert.ok(Math.abs(Math.min(...boxes.map(({ left }) => left)) + 22.5) < 1e-6);
    assert.ok(Math.abs(Math.max(...boxes.map(({ top }) => top)) - 7.5) < 1e-6);
    assert.deepEqual([found.falling, found.leftOut], [0, 0]);
  });

  it('lets what lies inside a shape fall out with it, and leaves open lines alone', () => {
    const found = cutOut(
      '<rect x="10" y="10" width="40" height="40"/><circle cx="30" cy="30" r="5"/><path d="M 60 60 L 70 60 L 70 65"/>',
    );
    assert.ok(isCutOut(found));
    assert.deepEqual([found.shapes.length, found.falling, found.leftOut], [1, 1, 1]);
    assert.ok(Math.abs(signedArea(found.shapes[0]!) - 1600) < 1e-6);
  });

  it('says what is wrong: open, crossing itself or another, no such name, not to be read', () => {
    const why = (answer: ReturnType<typeof cutOut>) => ('why' in answer ? answer.why : 'fine');
    assert.equal(why(cutOut('<path d="M 0 0 L 20 0 L 20 20"/>')), 'open');
    assert.equal(why(cutOut('<path d="M 0 0 L 20 20 L 20 0 L 0 20 Z"/>')), 'crosses itself');
    assert.equal(
      why(cutOut('<rect x="0" y="0" width="20" height="20"/><rect x="10" y="10" width="20" height="20"/>')),
      'crosses itself',
    );
    assert.equal(why(cutOut('<rect id="a" width="9" height="9"/>', 'b')), 'no such name');
    assert.equal(why(cutOut('')), 'nothing');
    assert.equal(why(cutOutIn(readDrawing('a.png', ''))), 'unreadable');
  });
});

describe('drawings of any size', () => {
  const dxf = (...groups: readonly (string | number)[]) =>
    outlineIn(readDrawing('a.dxf', `${[0, 'SECTION', 2, 'ENTITIES', ...groups, 0, 'ENDSEC', 0, 'EOF'].join('\n')}\n`));
  const said = (answer: ReturnType<typeof outlineIn>) =>
    'why' in answer ? `${answer.why}: ${answer.text}` : 'an outline';
  const round = (radius: number | string) => dxf(0, 'CIRCLE', 10, 0, 20, 0, 40, radius);
  const bent = (bulge: number | string) => dxf(0, 'LWPOLYLINE', 70, 1, 10, 0, 20, 0, 42, bulge, 10, 9, 20, 0, 42, 1);

  it('say which entity lies where nothing can be drawn, and in what line', () => {
    assert.match(said(round(1e308)), /unreadable: .*the CIRCLE in line 5 .*10 km/);
    for (const bulge of [1e5, 1e160, 1e308, 'NaN']) assert.match(said(bent(bulge)), /the LWPOLYLINE in line 5/);
    assert.equal(said(bent(50)), 'an outline');
    assert.match(said(inSvg('<g>\n<path d="M 0 0 L 1e308 0 L 9 9 Z"/></g>')), /the path in line 2/);
    assert.match(said(inSvg('<path d="M 0 0 A 1e160 1e160 0 1 1 100 0 Z"/>')), /the path in line 1/);
    assert.match(said(inSvg('<path d="M 0 0 C 1e308 1e308 5 5 9 0 Z"/>')), /the path in line 1/);
  });

  it('are no larger than a piece or a hide can be', () => {
    assert.match(said(round(5_100)), /too large: is drawn 10\.2 × 10\.2 m large, and no piece is longer than 10 m/);
    assert.equal(said(round(4_900)), 'an outline');
    const hide = readDrawing(
      'a.svg',
      svg('<rect width="6000" height="5000"/>', 'width="9000mm" height="9000mm" viewBox="0 0 9000 9000"'),
    );
    assert.match(said(outlineIn(hide, undefined, OF_HIDE)), /no hide is larger than 25 m²/);
  });

  it('a fault in what is not asked for does no harm', () => {
    const body = '<path id="far" d="M 0 0 L 1e308 0 L 9 9 Z"/><rect id="plate" width="30" height="20"/>';
    assert.equal(said(inSvg(body, 'plate')), 'an outline');
    assert.match(said(inSvg(body, 'far')), /the path in line 1/);
  });

  it('are counted before they are gone through', () => {
    const many = '<circle cx="9" cy="9" r="1"/>'.repeat(51_000);
    assert.match(said(inSvg(many)), /more in it than an outline could need/);
    const wiggles = Array.from({ length: 120_000 }, (_, i) => `L${i % 97} ${i % 7}`).join('');
    assert.match(said(inSvg(`<path d="M0 0${wiggles}Z"/>`)), /more in it than an outline could need/);
    const rings = Array.from({ length: 1_200 }, (_, i) => `<circle cx="25" cy="25" r="${1 + i / 100}"/>`).join('');
    const within = cutOutIn(readDrawing('a.svg', svg(rings)));
    assert.match('why' in within ? within.text : '', /too many lines/);
  });

  it('are read, and looked through, with stops, and come out the same', () => {
    const circles = Array.from(
      { length: 2_000 },
      (_, i) => `<circle cx="${4 * (i % 50)}" cy="${4 * Math.floor(i / 50)}" r="1"/>`,
    );
    const text = svg(circles.join(''), 'width="400mm" height="400mm" viewBox="0 0 400 400"');
    let stops = 0;
    const through = <T>(steps: Generator<unknown, T, undefined>): T => {
      for (;;) {
        const step = steps.next();
        if (step.done) return step.value;
        stops++;
      }
    };
    const drawing = through(drawingRead('a.svg', text));
    const found = through(cutOutFound(drawing, undefined, OF_PIECE));
    assert.ok(stops > 40, `${stops} stops`);
    assert.ok(isCutOut(found) && found.shapes.length === 2_000);
    assert.deepEqual(found, cutOutIn(readDrawing('a.svg', text)));
  });
});

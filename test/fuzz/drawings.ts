import assert from 'node:assert/strict';
import fc from 'fast-check';
import { problemsOf } from '../../server/checks/run.ts';
import { atOnce, type Runner } from '../../server/incremental/steps.ts';
import { layoutsInSteps, writeLayout } from '../../server/output/documents/patterns/layouts.ts';
import { patternsOf } from '../../server/output/documents/patterns/patterns-of.ts';
import { exportPatterns } from '../../server/output/writers/patterns.ts';
import { type Files, modelIn } from '../checks/specs.ts';

/* Drawings by the grammar of their formats, valid, damaged and with numbers of any size, and bytes that are none. */

/** A drawing and what the spec does with it. */
export interface DrawnInput {
  readonly name: 'a.svg' | 'a.dxf';
  readonly text: string;
  readonly as: 'outline' | 'pierce' | 'hide';
  readonly rim: boolean;
}

const ordinary = fc.integer({ min: -400, max: 400 }).map((each) => each / 2);
const extreme = fc.oneof(
  fc.constantFrom(
    '1e308',
    '-1e308',
    '1e160',
    '1e-160',
    '5e-324',
    '1e20',
    'NaN',
    'Infinity',
    '-0',
    '1e',
    '',
    '0x1f',
    '1e5',
  ),
  fc.double().map(String),
);
const number = fc.oneof({ weight: 30, arbitrary: ordinary.map(String) }, { weight: 1, arbitrary: extreme });
const unit = fc.constantFrom('', 'mm', 'in', 'cm', 'px', '%', 'furlong');

const numbers = (count: number) =>
  fc.tuple(...Array.from({ length: count }, () => number)).map((each) => each.join(' '));
const command = fc.oneof(
  numbers(2).map((at) => `L ${at}`),
  numbers(2).map((at) => `l ${at}`),
  number.map((x) => `H ${x}`),
  number.map((y) => `v ${y}`),
  numbers(6).map((at) => `C ${at}`),
  numbers(4).map((at) => `s ${at}`),
  numbers(4).map((at) => `Q ${at}`),
  numbers(2).map((at) => `T ${at}`),
  fc
    .tuple(numbers(3), fc.nat(1), fc.nat(1), numbers(2))
    .map(([radii, large, sweep, at]) => `A ${radii} ${large} ${sweep} ${at}`),
  fc.constant('Z'),
);
const path = fc
  .tuple(numbers(2), fc.array(command, { maxLength: 12 }), fc.boolean())
  .map(([at, commands, closed]) => `<path d="M ${at} ${commands.join(' ')}${closed ? ' Z' : ''}"/>`);
const attributes = (...names: string[]) =>
  fc.tuple(...names.map(() => number)).map((values) => names.map((name, i) => `${name}="${values[i]}"`).join(' '));
const transform = fc.oneof(
  fc.constant(''),
  fc
    .tuple(fc.constantFrom('translate', 'scale', 'rotate', 'skewX', 'skewY'), number)
    .map(([kind, by]) => ` transform="${kind}(${by})"`),
  numbers(6).map((by) => ` transform="matrix(${by})"`),
);
const shape = fc.oneof(
  path,
  attributes('x', 'y', 'width', 'height', 'rx').map((each) => `<rect ${each}/>`),
  attributes('cx', 'cy', 'r').map((each) => `<circle ${each}/>`),
  attributes('cx', 'cy', 'rx', 'ry').map((each) => `<ellipse ${each}/>`),
  attributes('x1', 'y1', 'x2', 'y2').map((each) => `<line ${each}/>`),
  fc.array(number, { maxLength: 14 }).map((each) => `<polygon points="${each.join(' ')}"/>`),
  fc.constantFrom('<use href="#n1"/>', '<use href="#n2" x="3"/>', '<symbol id="n2"><use href="#n1"/></symbol>'),
);
const group = fc
  .tuple(fc.array(shape, { maxLength: 4 }), transform, fc.nat(3))
  .map(([shapes, moved, id]) => `<g id="n${id}"${moved}>${shapes.join('')}</g>`);
const svg = fc
  .tuple(fc.array(fc.oneof(shape, group), { minLength: 1, maxLength: 6 }), number, unit, number)
  .map(
    ([body, wide, of, box]) =>
      `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}${of}" height="${wide}${of}" viewBox="0 0 ${box} ${box}">${body.join('')}</svg>`,
  );

const groupsOf = (kind: string, codes: readonly number[]) =>
  fc
    .tuple(...codes.map(() => number))
    .map((values) => [0, kind, 8, 'cut', ...codes.flatMap((code, i) => [code, values[i]!])]);
const corner = fc
  .tuple(number, number, fc.option(number))
  .map(([x, y, bulge]) => [10, x, 20, y, ...(bulge === null ? [] : [42, bulge])]);
const entity = fc.oneof(
  groupsOf('LINE', [10, 20, 11, 21]),
  groupsOf('CIRCLE', [10, 20, 40]),
  groupsOf('ARC', [10, 20, 40, 50, 51]),
  groupsOf('ELLIPSE', [10, 20, 11, 21, 40, 41, 42]),
  fc.array(corner, { maxLength: 8 }).map((corners) => [0, 'LWPOLYLINE', 8, 'cut', 70, 1, ...corners.flat()]),
  fc
    .tuple(fc.integer({ min: 1, max: 4 }), fc.array(fc.tuple(number, number), { minLength: 2, maxLength: 8 }))
    .map(([degree, points]) => [
      ...[0, 'SPLINE', 8, 'cut', 71, degree],
      ...Array.from({ length: points.length + degree + 1 }, (_, i) => [40, i]).flat(),
      ...points.flatMap(([x, y]) => [10, x, 20, y]),
    ]),
  groupsOf('INSERT', [10, 20, 41, 42, 50, 70, 71, 44, 45]).map((groups) => [...groups, 2, 'B']),
);
const dxf = fc
  .tuple(fc.array(entity, { minLength: 1, maxLength: 8 }), fc.array(entity, { maxLength: 2 }), fc.nat(20))
  .map(
    ([entities, inBlock, of]) =>
      `${[
        ...[0, 'SECTION', 2, 'HEADER', 9, '$INSUNITS', 70, of, 0, 'ENDSEC'],
        ...[0, 'SECTION', 2, 'BLOCKS', 0, 'BLOCK', 2, 'B', 10, 0, 20, 0, ...inBlock.flat(), 0, 'ENDBLK', 0, 'ENDSEC'],
        ...[0, 'SECTION', 2, 'ENTITIES', ...entities.flat(), 0, 'ENDSEC', 0, 'EOF'],
      ].join('\n')}\n`,
  );

/** A part of it taken out, doubled, or letters put in. */
const damaged = (text: fc.Arbitrary<string>) =>
  fc
    .tuple(text, fc.nat(), fc.nat(60), fc.oneof(fc.constant(''), fc.string({ maxLength: 12, unit: 'binary' })))
    .map(([whole, at, length, put]) => {
      const from = at % (whole.length + 1);
      return whole.slice(0, from) + put + whole.slice(from + length);
    });
const bytes = fc.uint8Array({ maxLength: 400 }).map((each) => new TextDecoder().decode(each));
const textOf = (whole: fc.Arbitrary<string>) =>
  fc.oneof({ weight: 6, arbitrary: whole }, { weight: 3, arbitrary: damaged(whole) }, { weight: 1, arbitrary: bytes });

export const drawnInputs: fc.Arbitrary<DrawnInput> = fc
  .tuple(
    fc.oneof(
      textOf(svg).map((text) => ({ name: 'a.svg' as const, text })),
      textOf(dxf).map((text) => ({ name: 'a.dxf' as const, text })),
    ),
    fc.constantFrom('outline' as const, 'pierce' as const, 'hide' as const),
    fc.boolean(),
  )
  .map(([drawing, as, rim]) => ({ ...drawing, as, rim }));

/** Reads the drawing, checks what is made of it and draws it again: nothing throws, and no paper says a number that is none. */
export function tryDrawing(input: DrawnInput): void {
  const model = modelIn(filesOf(input));
  // What the drawing says itself is quoted.
  for (const { message } of problemsOf(model)) sound(message.replaceAll(/“[^”]*”/g, ''));
  for (const set of model.figures())
    for (const figure of set.all()) assert.ok(Number.isFinite(figure.value), figure.name);
  const options = { date: '2027-01-01', problems: [], kerf: true };
  const patterns = patternsOf(model, options);
  for (const to of ['svg', 'dxf'] as const) void exportPatterns(patterns, { to, fonts: NO_FONTS, run: heard });
  const layouts = atOnce(layoutsInSteps(model, options));
  for (const sheet of layouts.sheets)
    for (const to of ['svg', 'dxf'] as const) sound(atOnce(writeLayout(layouts, sheet, to)));
}

/** SVG and DXF need none. */
const NO_FONTS = () => Promise.reject(new Error('no paper here needs a typeface'));

/** At once, and what comes of it is looked at. */
const heard: Runner = (steps) => {
  const made = atOnce(steps);
  sound(String(made));
  return made;
};

function sound(text: string): void {
  const odd = /NaN|Infinity|undefined|\d[eE]\+\d/.exec(text);
  assert.ok(
    !odd,
    `“${odd?.[0]}” is written: ${text.slice(Math.max(0, (odd?.index ?? 0) - 60), (odd?.index ?? 0) + 60)}`,
  );
}

function filesOf({ name, text, as, rim }: DrawnInput): Files {
  const stock =
    as === 'hide'
      ? `material stock\n  veg tan 3 mm\n  hide "${name}"\n  margin 8 mm\n`
      : 'material stock\n  mild steel 1.5 mm\n  sheet 2500 x 1250 mm\n  kerf 0.3 mm\n';
  const form = {
    outline: `outline "${name}"${rim ? '\n  edge rim hemmed 6 mm' : ''}`,
    pierce: `plate 500 x 400 mm\n  pierce "${name}", at 250 mm from left and 200 mm from bottom`,
    hide: 'plate 120 x 40 mm',
  }[as];
  return { 'main.planish': `planish 1\n${stock}piece front\n  from stock\n  make 2\n  ${form}\n`, [name]: text };
}

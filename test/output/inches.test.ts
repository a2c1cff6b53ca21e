import assert from 'node:assert/strict';
import { problemsOf } from '../../server/checks/run.ts';
import { fontsOnDisk } from '../../server/disk-fonts.ts';
import { codeLensesOf } from '../../server/editor/features/code-lens.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { inlayHintsIn } from '../../server/editor/features/inlay-hints.ts';
import { ALL_HINTS } from '../../server/editor/workspace/settings.ts';
import type { View } from '../../server/editor/workspace/workspace.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import type { Model } from '../../server/model/spec.ts';
import { assemblySvgInSteps } from '../../server/output/documents/assembly-view.ts';
import { explain } from '../../server/output/documents/explain.ts';
import { pieceMap } from '../../server/output/documents/piece-map.ts';
import { strainMapSvg } from '../../server/output/documents/strain-map.ts';
import { exports, type WriteAsk } from '../../server/output/exports.ts';
import { open } from '../editor/view.ts';
import { builds, samples, textOf } from '../samples/support.ts';

/* Nothing that is said of a build in inches is in millimetres, whoever says it; and a fraction lies as near as the paper says. */

type Told = readonly [where: string, text: string];

const STEPS = { 'units in': 32, 'units in, sixteenths': 16, 'units in, decimal': undefined } as const;

/** A sample with its build told in inches, and the stock that it uses beside it. */
function opened(file: string, units: string): View {
  const inInches = (text: string) =>
    text.replace(/^ +units .*\n/m, '').replace(/^build .*\n/m, (header) => `${header}  ${units}\n`);
  const files = [file, ...samples.filter((each) => each !== file)];
  return open(files.map((each) => `#- ${each}\n${inInches(textOf(each))}`).join('')).view;
}

/** Stock is called by the size that it is made in, and what stands in quotes or as code is the smith's, or an example of one. */
function ours(text: string, model: Model): string {
  const titles = [...model.file.visibleOf('material'), ...model.file.visibleOf('rivet')].flatMap((named) =>
    [named.word.text, ...named.section.lines.map((line) => named.section.text.slice(line.from, line.to))].map((each) =>
      each.trim(),
    ),
  );
  let left = text.replace(/“[^”]*”/g, '').replace(/```[^`]*```|`[^`]*`/g, '');
  for (const title of titles)
    for (const part of [title, title.split(',')[0]!]) if (/\dmm?\b|\d mm/.test(part)) left = left.replaceAll(part, '');
  return left.replace(/washer \d+(?:\.\d+)? × \d+(?:\.\d+)? mm/g, '');
}

const words = (svg: string): string =>
  [...svg.matchAll(/<(?:text|title|desc)[^>]*>([^<]*)</g)].map(([, text]) => text).join('\n');

async function* papers(model: Model): AsyncGenerator<Told> {
  const problems = problemsOf(model);
  for (const row of exports) {
    const made = atOnce(row.read(model, { date: '2027-03-01', problems }));
    for (const to of row.formats) {
      if (to === 'pdf' || to === 'json') continue;
      const ask: WriteAsk = { to, fonts: fontsOnDisk, run: atOnce };
      const contents = row.whole
        ? [await row.whole(made, ask)]
        : await Promise.all((row.parts?.(made) ?? []).map((part) => part.write(ask)));
      for (const { text = '' } of contents) {
        yield [
          `${row.command} ${to}`,
          to === 'svg' ? words(text) : to === 'html' ? text.replace(/<style>[\s\S]*?<\/style>|<[^>]*>/g, '\n') : text,
        ];
      }
    }
  }
  const whole = atOnce(assemblySvgInSteps(model, { title: 'whole', system: model.units(), exploded: false }));
  if (whole) yield ['draw', words(whole)];
  for (const piece of model.pieces()) {
    const map = pieceMap(piece, model.units());
    if (!('refused' in map)) yield [`draw ${piece.name}`, words(strainMapSvg(map))];
  }
}

function* inEditor(view: View): Generator<Told> {
  const { model } = view;
  for (const { code, message, related } of problemsOf(model))
    for (const text of [message, ...related.map((each) => each.message)]) yield [code, text];
  for (const { name, shown, formula, worked, source, note = '', outside = '', basis } of explain(model, {
    file: 'spec.planish',
    problems: [],
  }).figures) {
    yield [name, shown];
    for (const text of [source, note, outside, ...(basis === 'from the spec' ? [] : [formula, worked])])
      yield [name, text];
  }
  const end = view.positionAt(view.text.length);
  for (const { label, tooltip } of inlayHintsIn(view, { start: view.positionAt(0), end }, ALL_HINTS)) {
    yield ['hint', String(label)];
    if (tooltip) yield ['hint', typeof tooltip === 'string' ? tooltip : tooltip.value];
  }
  for (const { command } of codeLensesOf(view)) yield ['lens', command?.title ?? ''];
  for (const section of view.spec.sections)
    for (const line of section.lines) {
      const hover = hoverAt(view, view.positionAt(section.start + line.from));
      if (hover) yield [`hover ${section.text.slice(line.from, line.to)}`, (hover.contents as { value: string }).value];
    }
}

describe('a build in inches', () => {
  for (const file of builds)
    it(`is told in inches everywhere: ${file}`, async () => {
      const view = opened(file, 'units in');
      let count = 0;
      const judge = ([where, text]: Told) => {
        count++;
        const left = ours(text, view.model);
        const at = left.search(/(?<!\p{L})(?:mm|cm|millimet)/u);
        assert.ok(at < 0, `${where}: ${left.slice(Math.max(0, at - 80), at + 40)}`);
      };
      for (const told of inEditor(view)) judge(told);
      for await (const told of papers(view.model)) judge(told);
      assert.ok(count > 100, `${count}`);
    });

  for (const [units, step] of Object.entries(STEPS))
    it(`tells a length to its step, what is cut off never short: ${units}`, () => {
      let fractions = 0;
      for (const file of builds) {
        const { model } = opened(file, units);
        const shownBy = new Map(explain(model, { file, problems: [] }).figures.map(({ name, shown }) => [name, shown]));
        for (const set of model.figures())
          for (const figure of set.all()) {
            if (figure.unit !== 'mm' || figure.shape.grain) continue;
            const shown = shownBy.get(figure.name)!;
            const told = / \((?!.*\()/.test(shown) ? shown.slice(0, shown.indexOf(' (')) : shown;
            const match = /^(−?)((?:\d+ )?\d+\/\d+|\d+(?:\.\d+)?) in$/.exec(told);
            assert.ok(match, `${figure.name}: ${shown}`);
            const [over, under] = match[2]!.includes('/') ? match[2]!.split(' ').at(-1)!.split('/').map(Number) : [];
            const whole = over ? Number(match[2]!.split(' ').slice(0, -1)[0] ?? 0) : Number(match[2]);
            const value = (match[1] ? -1 : 1) * (whole + (over ? over / under! : 0));
            const off = value - figure.value / 25.4;
            const isRule = step !== undefined && Math.abs(figure.value) >= 12.7;
            const coarse = isRule ? 1 / step : 1 / 1000;
            if (over) fractions++;
            if (isRule) assert.ok(over ? 64 % under! === 0 : Number.isInteger(whole), `${figure.name}: ${shown}`);
            if (figure.shape.up)
              assert.ok(off > -1e-6 && off < coarse + 1e-6, `${figure.name}: ${shown} of ${figure.value / 25.4}`);
            else assert.ok(Math.abs(off) <= coarse / 2 + 1e-6, `${figure.name}: ${shown} of ${figure.value / 25.4}`);
          }
      }
      assert.ok(step === undefined ? fractions === 0 : fractions > 100, `${fractions}`);
    });

  it('goes by the setting of the editor, where the build does not say', () => {
    const { workspace, uri } = open(
      'build "b"\n  units in\nmaterial plate\n  mild steel 16 ga\npiece a\n  from plate\n  plate 300 x 40 mm\n',
    );
    const hint = () => {
      const view = workspace.view(uri('spec.planish'))!;
      return inlayHintsIn(view, { start: view.positionAt(0), end: view.positionAt(view.text.length) }, ALL_HINTS).map(
        ({ label }) => label,
      );
    };
    assert.match(hint().join(), /blank 11 13\/16 × 1 19\/32 in/);
    workspace.tell({ inches: '1/16' });
    workspace.changed();
    assert.match(hint().join(), /blank 11 13\/16 × 1 5\/8 in/);
    workspace.tell({ inches: 'decimal' });
    workspace.changed();
    assert.match(hint().join(), /blank 11\.812 × 1\.575 in/);
  });

  it('calls the longer side long, of a blank, of one’s own blank and of a sheet', async () => {
    for (const size of ['40 x 200 mm', '200 x 40 mm'])
      for (const own of ['', `  blank ${size}\n`]) {
        const { view } = open(
          `build "b"\n  units in\nmaterial plate\n  mild steel 16 ga\n  sheet 1000 x 2000 mm\npiece a\n  from plate\n  plate ${size}\n${own}`,
        );
        const { model } = view;
        assert.ok(model.pieces()[0]!.figure('blank.long')!.value > model.pieces()[0]!.figure('blank.wide')!.value);
        const row = exports.find(({ command }) => command === 'cutlist')!;
        const made = atOnce(row.read(model, { date: '2027-03-01', problems: [] }));
        const { text = '' } = await row.whole!(made, { to: 'csv', fonts: fontsOnDisk, run: atOnce });
        const [head, ...rows] = text
          .trim()
          .split('\r\n')
          .map((line) => line.split(','));
        const [long, wide] = ['long (in)', 'wide (in)'].map((title) => head!.indexOf(title));
        assert.equal(rows.length, 2);
        for (const cells of rows) assert.ok(Number(cells[long!]) > Number(cells[wide!]), cells.join());
        assert.equal(rows[0]![long!], '7.874');
      }
  });

  it('works its sums in inches, and they come to what is told', () => {
    let count = 0;
    for (const file of builds) {
      const { model } = opened(file, 'units in');
      for (const { name, unit, value, worked, formula } of explain(model, { file, problems: [] }).figures) {
        const power = { mm: 1, mm2: 2 }[unit as string];
        const sum = worked === formula || power === undefined ? undefined : comesTo(worked);
        if (sum === undefined) continue;
        count++;
        const inches = value / 25.4 ** power!;
        // The numbers of a sum have four digits or so.
        assert.ok(
          Math.abs(sum - inches) <= 0.01 * Math.abs(inches) + 2e-3,
          `${name}: ${worked} is ${sum}, not ${inches}`,
        );
      }
    }
    assert.ok(count > 150, `${count}`);
  });
});

/** What a sum comes to that is written in plain signs; nothing of one that has words in it. */
function comesTo(worked: string): number | undefined {
  const plain = worked
    .replace(/^[\p{L}\d₀′ -]+ = /u, '')
    .replace(/\/2π/g, '/(2*π)')
    .replace(/(?<=\d)(?=[π(√])/g, '*')
    .replace(/²/g, '**2')
    .replace(/√/g, 'Math.sqrt')
    .replace(/π/g, 'Math.PI')
    .replace(/×/g, '*')
    .replace(/÷/g, '/')
    .replace(/−/g, '-')
    .replace(/arc(sin|tan)/g, 'Math.a$1')
    .replace(/(?<![.\w])(sin|cos|tan)\(?([\d.]+)°/g, 'Math.$1($2*Math.PI/180');
  if (/[^\d\s.+*/()-]/.test(plain.replace(/Math\.(?:sqrt|PI|asin|atan|sin|cos|tan)/g, ''))) return undefined;
  try {
    return Number(new Function(`return ${plain}`)());
  } catch {
    return undefined;
  }
}

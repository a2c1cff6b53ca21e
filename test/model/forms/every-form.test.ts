import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { formList } from '../../../.scripts/form-list.ts';
import { sections } from '../../../grammar/vocabulary/sections.ts';
import type { Chart } from '../../../server/geometry/surface/chart.ts';
import { cross, dot, minus } from '../../../server/geometry/surface/vector.ts';
import { LAID_FLAT, MEASURED, NONE, NOT_KNOWN } from '../../../server/model/forms/answers.ts';
import { FORM_EDGES, FORMS, type Form, kindOf, notationOf } from '../../../server/model/forms/index.ts';
import { measuredArea, measuredLength, measuredRun } from '../../../server/model/shapes/surface.ts';
import type { PieceModel } from '../../../server/model/things/piece.ts';
import { patternsOf } from '../../../server/output/documents/patterns/patterns-of.ts';
import { modelFrom, PLATE } from '../support.ts';

const PLATE_SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="60mm" viewBox="0 0 90 60"><path d="M0 0H90V60H0Z"/></svg>';

const close = (a: number, b: number, within: number, what: string) =>
  assert.ok(Math.abs(a - b) <= within * Math.max(1, Math.abs(b)), `${what}: ${a} is not ${b}`);

const modelOf = (example: string, more = '') =>
  modelFrom({ 'helm.planish': `${PLATE}${example}${more}`, 'plate.svg': PLATE_SVG });

const exampleOf = (kind: Form['kind'], more = ''): PieceModel =>
  modelOf(FORMS[kind].example, more)
    .pieces()
    .find(({ name }) => name === 'example')!;

/** Whether places spread over a surface lie in the plane through three of its corners. */
function liesInOnePlane(chart: Chart): boolean {
  const [corner, ...sides] = [chart.point(0, 0), chart.point(0.4, 0), chart.point(0, 0.7)];
  const [u, v] = sides.map((side) => minus(side, corner!));
  const normal = cross(u!, v!);
  return [0.2, 0.5, 0.9].every((share) => Math.abs(dot(normal, minus(chart.point(share, share), corner!))) < 1e-9);
}

/** Where the surface has the edge and the form a formula beside it. */
const EDGES_WITH_FORMULA = (form: Form): string[] =>
  [...kindOf(form).edges(form), 'middle'].filter((edge) => kindOf(form).length(form, edge) !== MEASURED);

describe('every form', function () {
  this.timeout(60_000);

  for (const kind of Object.keys(FORMS) as Form['kind'][]) {
    describe(kind, () => {
      it('is read from its example', () => {
        const form = exampleOf(kind).form();
        assert.equal(form?.kind, kind);
        assert.ok(form && kindOf(form) === (FORMS[kind] as unknown));
        for (const edge of kindOf(form).edges(form)) assert.ok(FORM_EDGES.has(edge), `${edge} is no name of an edge`);
      });

      if (kind === 'later') return;

      it('has an area and a length of each edge, above nothing', () => {
        const piece = exampleOf(kind);
        assert.ok(piece.figure('area')!.value > 0);
        for (const edge of piece.edgeNames()) assert.ok(piece.figure(`${edge}.length`)!.value > 0, edge);
        assert.equal(piece.edgeLength('no-such-edge'), undefined);
      });

      it('says of each edge how it runs, and of none that it has not', () => {
        const piece = exampleOf(kind);
        for (const edge of piece.edgeNames()) {
          const run = piece.edgeRun(edge);
          // How the ends of a comb run is the one thing that no form tells.
          if (run === NOT_KNOWN) {
            assert.equal(kind, 'comb', edge);
            continue;
          }
          const length = piece.edgeLength(edge)!.value;
          assert.ok(Number.isFinite(run.turns()));
          // The corner at which an outline begins lies in no part of it.
          const whole = run.turns(0, length);
          assert.ok(whole <= run.turns() + 1e-3);
          close(run.turns(0, length / 3) + run.turns(length / 3, length), whole, 2e-3, `${edge} in two parts`);
          assert.ok(Number.isFinite(run.curvature(length / 2)));
        }
        assert.equal(piece.edgeRun('no-such-edge'), NOT_KNOWN);
      });

      it('has a mass, a blank and a pattern', () => {
        const model = modelOf(FORMS[kind].example);
        const piece = model.pieces().find(({ name }) => name === 'example')!;
        assert.ok(piece.figure('mass')!.value > 0);
        const blank = piece.workedBlank()!.blank;
        assert.ok(blank.long > 0 && blank.wide > 0 && blank.area > 0);
        assert.ok(blank.area <= blank.long * blank.wide * (1 + 1e-9));
        // However it lies, its longer side is called long.
        assert.ok(piece.figure('blank.long')!.value >= piece.figure('blank.wide')!.value);
        const { missing, patterns } = patternsOf(model, { date: '2027-03-01', problems: [], piece: 'example' });
        assert.deepEqual(missing, []);
        assert.ok(patterns[0]!.lines.length);
      });

      it('grows by what a rolled edge needs, and takes a wire', () => {
        const plain = exampleOf(kind);
        const edge = plain.edgeNames().includes('rim') ? 'rim' : 'bottom';
        const rolled = exampleOf(kind, `  edge ${edge} rolled over wire-3\nmaterial wire-3\n  mild steel wire 3 mm\n`);
        assert.ok(rolled.blank()!.area > plain.blank()!.area);
        assert.ok(rolled.figure(`${edge}.wire`)!.value > 0);
      });

      it('has formulas that say what its surface does', () => {
        const piece = exampleOf(kind);
        const form = piece.form()!;
        const chart = kindOf(form).chart(form, piece);
        assert.ok(chart !== undefined);
        if (chart === NONE) return;
        const area = kindOf(form).area(form);
        assert.notEqual(area, NOT_KNOWN);
        if (area !== MEASURED && area !== NOT_KNOWN) close(area.value, measuredArea(piece)!.value, 1e-5, 'area');
        for (const edge of EDGES_WITH_FORMULA(form)) {
          close(piece.edgeLength(edge)!.value, measuredLength(piece, edge)!.value, 1e-6, `${edge}.length`);
          const [own, found] = [piece.edgeRun(edge), measuredRun(piece, edge)];
          assert.ok(own !== NOT_KNOWN && found !== NOT_KNOWN, edge);
          close(own.turns(), found.turns(), 1e-5, `${edge} turns`);
          if (typeof own.tightest === 'number') close(own.tightest, found.tightest as number, 2e-3, `${edge} tightest`);
          else assert.equal(own.tightest, found.tightest, edge);
        }
        const [x, y, z] = [chart.point(0.3, 0), chart.point(0.3, 1), kindOf(form).centre(form)];
        assert.ok([...x, ...y].every(Number.isFinite));
        assert.ok(z === NONE || z === MEASURED || z[2] > 0);
      });

      it('has its level sections where its surface is', () => {
        const piece = exampleOf(kind);
        const form = piece.form()!;
        const [girths, chart] = [kindOf(form).girths(form), piece.plainChart()];
        if (girths === NONE || girths === NOT_KNOWN || !chart) return;
        for (const u of [0.05, 0.3, 0.5, 0.77, 0.96])
          for (const v of [0.01, 0.2, 0.45, 0.7, 0.93]) {
            const [x, y, z] = chart.point(u, v);
            const { section, offset } = girths.at(z)!;
            const { power: n, ridge, front, back, wide } = section;
            const [X, Y] = [Math.abs(x) / wide, Math.abs(y - offset) / (y >= offset ? front : back)];
            const k = y >= offset ? ridge : 0;
            close(Y ** n + (1 - k) * X ** n + k * X ** (n / 2), 1, 1e-6, `${u} ${v}`);
          }
      });

      it('says of its girths, its section and its blank either what they are or that there is none', () => {
        const piece = exampleOf(kind);
        const form = piece.form()!;
        const of = kindOf(form);
        const girths = of.girths(form);
        if (girths !== NONE && girths !== NOT_KNOWN) {
          assert.ok(girths.heights.length > 1 && girths.at(girths.heights[0]!)!.section.wide > 0);
          assert.equal(girths.at(girths.heights.at(-1)! + 1), undefined);
        }
        assert.equal(typeof of.blank === 'function', of.blank !== LAID_FLAT);
        const layout = of.layout(form);
        assert.equal(layout !== NOT_KNOWN && layout.kind === LAID_FLAT, of.blank === LAID_FLAT);
        const chart = of.chart(form, piece)!;
        assert.equal(of.isFlat, chart === NONE ? of.follows(form) === NONE : liesInOnePlane(chart));
      });
    });
  }

  it('is in the list, which is made from the folder', () => {
    const list = readFileSync(new URL('../../../server/model/forms/all.generated.ts', import.meta.url), 'utf8');
    assert.equal(list, formList(), 'npm run generate');
  });

  it('is written by a word of the vocabulary, and each such word is read by one', () => {
    const words = sections
      .flatMap(({ lines }) => lines)
      .filter(({ group, id }) => group === 'form' && id !== 'like')
      .map(({ id }) => id);
    assert.ok(words.length > 10);
    for (const word of words) assert.ok(notationOf(word), word);
    const written = Object.values(FORMS).flatMap(({ notations }) => Object.keys(notations));
    assert.deepEqual([...new Set(written)].sort(), [...new Set(words)].sort());
    assert.equal(written.length, new Set(written).size, 'no word is read by two');
  });

  it('that nobody computes yet knows nothing and says so', () => {
    const piece = exampleOf('later');
    assert.equal(piece.figure('area'), undefined);
    assert.equal(piece.blank(), undefined);
    assert.equal(piece.edgeRun('rim'), NOT_KNOWN);
    assert.deepEqual(piece.edgeNames(), ['top', 'bottom', 'left', 'right', 'rim']);
  });
});

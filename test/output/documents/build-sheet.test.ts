import assert from 'node:assert/strict';
import path from 'node:path';
import { problemsOf } from '../../../server/checks/run.ts';
import { atOnce } from '../../../server/incremental/steps.ts';
import { workOf } from '../../../server/model/operations/order-of-work.ts';
import type { BuildSheet } from '../../../server/output/documents/build-sheet.ts';
import { buildSheetInSteps } from '../../../server/output/documents/build-sheet-of.ts';
import { buildSheetPaper } from '../../../server/output/documents/build-sheet-paper.ts';
import { writeJson } from '../../../server/output/writers/json.ts';
import { writeMarkdown } from '../../../server/output/writers/markdown.ts';
import { rateOf } from '../../../server/trade/usual/rates.ts';
import { builds, sample, specOf } from '../../samples/support.ts';
import { assertExpected } from '../expected.ts';

const date = '2027-01-18';

const sheetOf = (model: ReturnType<typeof specOf>): BuildSheet =>
  atOnce(buildSheetInSteps(model, { date, problems: problemsOf(model) }));

const BOWL = `build "Bowl"
material plate
  mild steel 1.5 mm
piece bowl
  from plate
  dome 180 mm, deep 40 mm
  dish
  planish
finish grey
  on bowl
  sand 120 grit
  paint "grey", coats 2
`;
const bowl = (more: string) => sheetOf(specOf({ 'spec.planish': BOWL + more }));
const keys = ({ turns }: BuildSheet) => turns.map(({ key }) => key);
const minutesOf = ({ turns }: BuildSheet, key: string) => turns.find((turn) => turn.key === key)?.minutes;

describe('build sheet', () => {
  for (const file of builds) {
    it(`has every operation once and keeps every arrow: ${file}`, () => {
      const model = sample(file);
      const sheet = sheetOf(model);
      const { operations, arrows, circles } = workOf(model);
      assert.deepEqual(circles, []);
      assert.deepEqual(keys(sheet).sort(), operations.map(({ key }) => key).sort());
      assert.equal(new Set(keys(sheet)).size, operations.length);
      const at = new Map(sheet.turns.map(({ key, number }) => [key, number]));
      for (const { from, to } of arrows) assert.ok(at.get(from.key)! < at.get(to.key)!, `${from.key} before ${to.key}`);
      for (const turn of sheet.turns)
        for (const number of turn.after) {
          const before = sheet.turns[number - 1]!;
          assert.ok(before.start + before.setUp + (before.minutes ?? 0) + (before.wait ?? 0) <= turn.start + 1e-9);
        }
      assert.ok(sheet.hours.least <= sheet.hours.throughout + 1e-9);
    });

    it(`takes as long as its parts: ${file}`, () => {
      const model = sample(file);
      const { turns, hours, builds } = sheetOf(model);
      const hands = turns.reduce((sum, { minutes = 0 }) => sum + minutes, 0);
      const laid = [...new Set(turns.map(({ kind }) => kind))].reduce((sum, kind) => sum + rateOf(kind).setUp, 0);
      assert.ok(Math.abs(model.buildFigures().get('hours')!.value - (hands / builds + laid)) < 1e-6);
      assert.ok(hours.hands >= hands + laid - 1e-9, 'laid out at least once for each kind');
      for (const { low, high, minutes } of turns)
        if (low !== undefined) assert.ok(low <= minutes! && minutes! <= high!);
    });
  }

  it('has a card for each piece, with all that is done to it', () => {
    const sheet = sheetOf(sample('knee/knee.planish'));
    const cop = sheet.cards.find(({ piece }) => piece === 'cop')!;
    assert.deepEqual(
      cop.turns.map((number) => sheet.turns[number - 1]!.key).sort(),
      keys(sheet)
        .filter((key) => ['cop', 'cop-leather', 'fan-line', 'field'].includes(key.split(' ')[0]!))
        .sort(),
    );
    assert.ok(cop.turns.some((number) => sheet.turns[number - 1]!.key === 'fan-line rivet'));
    assert.ok(cop.measures.some(({ name }) => name === 'cop crown'));
  });

  it('lets the second coat wait for the first', () => {
    const { turns } = bowl('');
    const [one, two] = ['grey paint 2', 'grey paint 3'].map((key) => turns.find((turn) => turn.key === key)!);
    assert.ok(two!.start >= one!.start + one!.wait!);
  });

  it('takes hours that the smith gives, for one step or for all of a finish', () => {
    const usual = bowl('');
    const own = bowl('order bench\n  hours bowl dish 2 h\n  hours grey 90 min\n');
    assert.equal(minutesOf(own, 'bowl dish'), 120);
    const steps = ['grey sand 1', 'grey paint 2', 'grey paint 3'];
    assert.ok(Math.abs(steps.reduce((sum, key) => sum + minutesOf(own, key)!, 0) - 90) < 1e-9);
    assert.equal(minutesOf(own, 'bowl planish'), minutesOf(usual, 'bowl planish'));
  });

  it('goes by the smith’s order, and says what is usual where it goes against that', () => {
    const seam = `piece one
  from plate
  plate 120 x 80 mm
piece other
  from plate
  plate 120 x 80 mm
rivet small
  copper 3 x 10 mm, flat
seam lap
  joins one, other
  along one.top
  rivets small, count 3, inset 10 mm
finish bright
  on one, other
  polish
`;
    const usual = bowl(seam);
    assert.ok(keys(usual).indexOf('bright polish 1') < keys(usual).indexOf('lap rivet'));
    assert.deepEqual(usual.against, []);
    const own = bowl(`${seam}order bench\n  first lap, then bright\n`);
    assert.ok(keys(own).indexOf('bright polish 1') > keys(own).indexOf('lap rivet'));
    assert.deepEqual(
      own.against.map(({ reason }) => reason),
      ['reached-before-riveted'],
    );
  });

  it('does what only an order names', () => {
    const sheet = bowl('order bench\n  first bowl dish, then bowl anneal, then bowl planish\n');
    const at = (key: string) => keys(sheet).indexOf(key);
    assert.ok(at('bowl dish') < at('bowl anneal') && at('bowl anneal') < at('bowl planish'));
  });

  it('works several builds in one go, and lays out once', () => {
    const one = bowl('');
    const many = sheetOf(specOf({ 'spec.planish': BOWL.replace('build "Bowl"', 'build "Bowl"\n  make 4, spare 1') }));
    assert.equal(many.builds, 5);
    assert.ok(Math.abs(minutesOf(many, 'bowl dish')! - 5 * minutesOf(one, 'bowl dish')!) < 1e-9);
    const laid = one.turns.reduce((sum, { setUp }) => sum + setUp, 0);
    assert.ok(Math.abs(many.hours.hands - (5 * (one.hours.hands - laid) + laid)) < 1e-6);
  });

  it('says what it does not know the time of', () => {
    const sheet = sheetOf(
      specOf({ 'spec.planish': 'build "Bowl"\npiece bowl\n  from nowhere\n  plate 120 x 80 mm\n' }),
    );
    assert.deepEqual(sheet.hours.unknown, []);
    const half = sheetOf(specOf({ 'spec.planish': 'build "Bowl"\npiece bowl\n  dome 120 mm\n  planish\n' }));
    assert.ok(half.hours.unknown.includes('Planish bowl'));
  });

  for (const file of ['sallet/sallet.planish', 'knee/knee.planish'])
    it(`as a paper, as looked at: ${file}`, () => {
      const sheet = sheetOf(sample(file));
      const name = `build-sheet-${path.basename(file, '.planish')}`;
      assertExpected(`${name}.md`, atOnce(writeMarkdown(atOnce(buildSheetPaper(sheet)))));
      assertExpected(`${name}.json`, atOnce(writeJson('build sheet', sheet)));
    });
});

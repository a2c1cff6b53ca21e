import assert from 'node:assert/strict';
import fc from 'fast-check';
import { readSpec } from '../../grammar/reader.ts';
import type { Spec } from '../../grammar/tree.ts';
import { problemsInSteps, problemsOf } from '../../server/checks/run.ts';
import { listenToWork } from '../../server/incremental/memo.ts';
import { atOnce, mapped, patientlyThrough } from '../../server/incremental/steps.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import type { Model } from '../../server/model/spec.ts';
import { longSpec } from '../bench/peers/long-spec.ts';

/*
 * A project lives over every edit and works out again only what hangs on what was edited. What it then says must be what a
 * reader who never saw the text before would say, to the last digit.
 */

const stockUri = 'file:///build/stock.planish';
const helmUri = 'file:///build/helm.planish';

const STOCK = `shop bench
  gauges US

material plate
  mild steel 16 ga
material thin
  mild steel 18 ga
material edge-wire
  mild steel wire 1/8 in
material hide
  veg-tan leather 7 oz
rivet small
  brass 4 x 8 mm, domed
  washer 10 x 0.8 mm
`;

const HELM = `use "stock.planish"

build "Helm"
  duty contact, rules book

rules book
  finished at least 1.0 mm

wearer guard
  head round 585 mm

let ease = 6 mm
let round = guard.head-round + 2 * pi * ease

piece cap
  from plate
  dome 210 mm, deep 60 mm
  edge rim rolled over edge-wire, outward

piece band
  from thin
  cylinder round round, high 40 mm
  make 2

piece lame
  from thin
  lies under band, gap 1 mm, high 30 mm

piece trim
  from plate
  trim along cap.rim, wide 20 mm

piece small-cap
  like cap, scaled 0.9

piece flap
  from hide
  plate 120 x 40 mm

let half = cap.mass / 2

seam rim-line
  joins band, cap
  joins flap, cap
  along cap.rim
  rivets small, every 30 mm, inset 8 mm, peened domed, washer inside

seam lame-line
  joins lame, band
  along band.top
  rivets small, count 4, inset 8 mm
  shares rim-line 1 and 2
`;

/** What no formula lays flat. */
const SHELL = `
piece shell
  from plate
  half dome 210 x 180 mm, deep 90 mm
  dish then raise
  hold middle

piece guard-plate
  from thin
  form
    at 0 mm, round 240 mm, wide 80 mm
    at 90 mm, round 300 mm, wide 110 mm
  wrap 180 deg
  cut elbow from 40 mm on top to 40 mm on top, deep 20 mm

seam shell-line
  joins shell, guard-plate
  along shell.rim
  rivets small, every 30 mm, inset 8 mm, peened domed
`;

/** Everything that is known of a spec, as text. */
function knownOf(model: Model): string {
  const figures = model
    .figures()
    .flatMap((set) => set.all())
    .map(({ place, ...figure }) => ({ ...figure, at: place.section.start + place.from }));
  const problems = problemsOf(model).map(({ code, message, place, severity }) => ({
    code,
    message,
    severity,
    from: place.section.start + place.from,
    to: place.section.start + place.to,
  }));
  const stacks = model.seams().map((seam) => seam.stacks().map(({ total, needed }) => ({ total, needed })));
  const blanks = model.pieces().map((piece) => [piece.name, piece.blank()?.long, piece.blank()?.area]);
  return JSON.stringify({ figures, problems, stacks, blanks }, undefined, 1);
}

/** Specs that change, and the project that is told so. */
class Desk {
  private readonly specs = new Map<string, Spec>();
  readonly project = new Project({ mayRead: () => true, read: (uri) => this.specs.get(uri) });

  constructor(readonly texts: Map<string, string>) {
    for (const [uri, text] of texts) this.specs.set(uri, readSpec(text));
  }

  write(uri: string, text: string): void {
    this.texts.set(uri, text);
    this.specs.set(uri, readSpec(text, this.specs.get(uri)));
    this.project.refresh(uri);
  }

  model(): Model {
    return modelOf(this.project, helmUri)!;
  }
}

const deskOf = (stock: string, helm: string): Desk =>
  new Desk(
    new Map([
      [stockUri, stock],
      [helmUri, helm],
    ]),
  );

/** What stands in the specs, and what a slip or a second thought may put there. */
const CHANGES: readonly (readonly [string, string])[] = [
  ['16 ga', '14 ga'],
  ['18 ga', '20 ga'],
  ['finished at least 1.0', 'finished at least 1.2'],
  ['high 40 mm', 'high 20 * cap.start-thickness'],
  ['contact, rules book', 'contact'],
  ['gauges US', 'gauges UK'],
  ['1/8 in', '3 mm'],
  ['585 mm', '600 mm'],
  ['ease = 6 mm', 'ease = 9 mm'],
  ['ease = 6 mm', 'ease = cap.mass'],
  ['guard.head-round +', 'band.mass +'],
  ['deep 60 mm', 'deep 20 mm'],
  ['deep 60 mm', 'deep half'],
  ['from plate\n  dome', 'from thin\n  dome'],
  ['from plate', 'from nothing'],
  ['material thin', 'material thin-2'],
  ['like cap', 'like small-cap'],
  ['like cap', 'like trim'],
  ['under band', 'over band'],
  ['under band', 'under lame'],
  ['along cap.rim, wide', 'along band.top, wide'],
  ['joins flap, cap', 'joins flap, band'],
  ['every 30 mm', 'every 300 mm'],
  [', washer inside', ''],
  ['10 x 0.8 mm', '10 x 2 mm'],
  ['brass 4 x 8', 'mild steel 3 x 6'],
  ['let half', '# let half'],
  ['piece cap', '\n\n# moved down\n\npiece cap'],
  ['piece flap', 'piece band'],
  ['use "stock.planish"', '# use "stock.planish"'],
  ['\nrivet small', 'shop other\n  gauges UK\nrivet small'],
  ['veg-tan leather 7 oz', 'veg-tan leather 4 oz'],
  ['deep 90 mm', 'deep 80 mm'],
  ['round 300 mm', 'round 310 m'],
  ['hold middle', '# hold middle'],
];

/** A few hundred random edits every day; or as many of 50,000 as fit into so many minutes, in CI five. */
const MINUTES = Number(process.env['EDIT_MINUTES'] ?? 0);
const EDITS = MINUTES ? 50_000 : 400;
const STEPS = 20;

const one = fc.oneof(
  { weight: 3, arbitrary: fc.record({ change: fc.integer({ min: 0, max: CHANGES.length - 1 }), back: fc.boolean() }) },
  // What nobody thought of: something is cut out and something put in, from somewhere in the same text.
  {
    weight: 1,
    arbitrary: fc.record({
      file: fc.constantFrom(stockUri, helmUri),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      cut: fc.nat(60),
      from: fc.double({ min: 0, max: 1, noNaN: true }),
      put: fc.nat(60),
    }),
  },
);

function edit(desk: Desk, step: typeof one extends fc.Arbitrary<infer T> ? T : never): void {
  if ('change' in step) {
    const [from, to] = CHANGES[step.change]!;
    for (const [uri, text] of [...desk.texts]) {
      const next = step.back && to ? text.replace(to, () => from) : text.replace(from, () => to);
      if (next !== text) desk.write(uri, next);
    }
    return;
  }
  const text = desk.texts.get(step.file)!;
  const at = Math.floor(step.at * text.length);
  const from = Math.floor(step.from * text.length);
  desk.write(step.file, text.slice(0, at) + text.slice(from, from + step.put) + text.slice(at + step.cut));
}

describe('a project over its edits', () => {
  after(() => console.log(`    ${edits.toLocaleString('en')} edits held beside a fresh reading`));
  let edits = 0;

  it(`says what is worked out afresh, through up to ${EDITS.toLocaleString('en')} random edits`, function () {
    // Not held to a time: a busy machine takes as long as it takes.
    this.timeout((MINUTES + 20) * 60_000);
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: STEPS, size: 'max' }), (steps) => {
        const desk = deskOf(STOCK, HELM);
        knownOf(desk.model());
        for (const step of steps) {
          edit(desk, step);
          edits++;
          const kept = knownOf(desk.model());
          const fresh = knownOf(deskOf(desk.texts.get(stockUri)!, desk.texts.get(helmUri)!).model());
          assert.equal(kept, fresh);
        }
      }),
      {
        numRuns: Math.ceil(EDITS / (STEPS / 2)),
        ...(MINUTES ? { interruptAfterTimeLimit: MINUTES * 60_000 } : {}),
      },
    );
    assert.ok(edits > 100);
  });

  let shells = 0;
  it('says the same where long work is done between the steps of the question, given up and begun again', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(one, fc.nat(60)), { minLength: 3, maxLength: 8, size: 'max' }), (asked) => {
        // Another shell each time, that nobody has laid flat yet.
        const desk = deskOf(STOCK, HELM + SHELL.replace('180 mm', `${180 + ++shells / 10} mm`));
        for (const [step, patience] of asked) {
          const steps = patientlyThrough(function* () {
            yield* problemsInSteps(desk.model());
            return knownOf(desk.model());
          });
          for (let stop = 0; stop < patience && !steps.next().done; stop++);
          edit(desk, step);
        }
        const said = (model: Model) =>
          atOnce(patientlyThrough(() => mapped(problemsInSteps(model), () => knownOf(model))));
        const fresh = said(deskOf(desk.texts.get(stockUri)!, desk.texts.get(helmUri)!).model());
        // Of what needs itself it depends on who asks first where the circle is said to begin.
        if (!/-circle"/.test(fresh)) assert.equal(said(desk.model()), fresh);
      }),
      { numRuns: 12 },
    );
  });

  it('works out 2 plates and finishes again after an edit at 10,000 lines, as many as at 500', () => {
    const workAt = (lines: number) => {
      const text = longSpec(lines);
      const desk = deskOf('', text);
      problemsOf(desk.model());
      const at = text.indexOf('deep 45 mm', text.length >> 1);
      desk.write(helmUri, `${text.slice(0, at)}deep 46 mm${text.slice(at + 10)}`);
      const work: Record<string, number> = {};
      const end = listenToWork((what) => {
        work[what] = (work[what] ?? 0) + 1;
      });
      problemsOf(desk.model());
      end();
      return work;
    };
    const long = workAt(10_000);
    assert.deepEqual([long['thing'], long['reading']], [2, 2], 'the dome and the finish that is on it');
    assert.deepEqual(long, workAt(500));
  });

  it('reads no line with an unknown name again before a name has changed', () => {
    const text = longSpec(500).replaceAll('from thin-plate', 'from thin-plat');
    const desk = deskOf('', text);
    const unknown = () => problemsOf(desk.model()).filter(({ code }) => code === 'unknown-name');
    const { length } = unknown();
    assert.ok(length >= 9);
    const readAfter = (now: string) => {
      desk.write(helmUri, now);
      let read = 0;
      const end = listenToWork((what) => {
        if (what === 'reading') read++;
      });
      const found = unknown();
      end();
      assert.ok(found.length >= length);
      return { read, message: found[0]!.message };
    };
    const other = text.replace('a stage production', 'another production');
    const stays = readAfter(other);
    assert.ok(stays.read <= 2, `${stays.read} sections were read`);
    assert.match(stays.message, /did you mean “thin-plate”/);
    // There is another name: all of them look.
    const renamed = readAfter(other.replace('material leather', 'material thin-plats'));
    assert.ok(renamed.read >= length);
    const back = readAfter(other.replace('material thin-plate', 'material thick-plate'));
    assert.doesNotMatch(back.message, /“thin-plate”/);
  });

  it('works out again only what hangs on the edit', () => {
    const desk = deskOf(STOCK, HELM);
    knownOf(desk.model());
    const before = new Map(
      desk
        .model()
        .pieces()
        .map((piece) => [piece.name, piece]),
    );
    desk.write(helmUri, HELM.replace('deep 60 mm', 'deep 61 mm'));
    knownOf(desk.model());
    const again = desk
      .model()
      .pieces()
      .filter((piece) => before.get(piece.name) !== piece)
      .map((piece) => piece.name);
    // The trim runs along the cap’s rim, and the small cap is like it.
    assert.deepEqual(again, ['cap', 'trim', 'small-cap']);
  });
});

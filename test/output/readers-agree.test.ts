import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { problemsOf } from '../../server/checks/run.ts';
import { hoverAt } from '../../server/editor/features/hover.ts';
import { inlayHintsIn } from '../../server/editor/features/inlay-hints.ts';
import { figureLine } from '../../server/editor/text/figure-text.ts';
import { plainText } from '../../server/editor/text/markdown.ts';
import { ALL_HINTS } from '../../server/editor/workspace/settings.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { cutListInputOf } from '../../server/output/documents/cut-list-of.ts';
import { explain, explainSectionInSteps } from '../../server/output/documents/explain.ts';
import { type Opened, open } from '../editor/view.ts';
import { folder, samples } from '../samples/support.ts';

/* A number is the same wherever it is read: explained, under the pointer, behind its line, on the cut list. */

/** A sample in the editor, with the stock that it uses beside it. */
function opened(file: string): Opened {
  const files = [file, ...samples.filter((each) => each !== file)];
  return open(files.map((each) => `#- ${each}\n${readFileSync(`${folder}${each}`, 'utf8')}`).join(''));
}

describe('all who read a figure', () => {
  // Laying a breastplate flat takes a second, and more on a busy machine.

  for (const file of samples) {
    describe(file, () => {
      const { view } = opened(file);
      const { model } = view;
      const { figures } = explain(model, { file, problems: problemsOf(model) });
      const byName = new Map(figures.map((figure) => [figure.name, figure]));
      const own = model.figures().flatMap((set) => set.all());

      it('see what is explained: the hover of its line', () => {
        assert.equal(view.text.trimEnd(), readFileSync(`${folder}${file}`, 'utf8').trimEnd());
        assert.ok(figures.length > 20 && own.length === figures.length);
        let told = 0;
        const titles = own.map((figure) => plainText(figure.title));
        for (const figure of own) {
          const { section, from } = figure.place;
          // A figure of a line that came from another file stands there.
          if (!view.spec.sections.includes(section)) continue;
          const hover = hoverAt(view, view.positionAt(section.start + from));
          assert.ok(hover, figure.name);
          const { value } = hover.contents as { value: string };
          // A hover has the first few; one that it names has the number that is explained.
          const [title, line] = [plainText(figure.title), figureLine(figure, view.system).slice(2)];
          const alike = own
            .filter((other) => other.title === figure.title)
            .map((other) => figureLine(other, view.system).slice(2));
          for (const said of value.split('\n').map((each) => each.replace(/^- |\*\*|\s+$/g, '')))
            if (
              said.startsWith(`${title}: `) &&
              !titles.some((other) => other.length > title.length && said.startsWith(`${other}: `))
            ) {
              assert.ok(alike.includes(said), `${figure.name}: “${said}”, explained “${line}”`);
              told++;
            }
        }
        assert.ok(told > 10, `${told}`);
      });

      it('see all of it in the panel of figures', () => {
        const inPanel = view.spec.sections.flatMap((section) =>
          atOnce(explainSectionInSteps(model, section, { file, problems: [] })).figures.map(
            ({ name, shown }) => `${name}: ${shown}`,
          ),
        );
        const lets = new Set(
          model.file.spec.sections.flatMap(({ singles }) =>
            singles.flatMap((each) => (each.kind === 'let' && each.name ? [each.name.text] : [])),
          ),
        );
        for (const { name, shown } of figures)
          if (!lets.has(name)) assert.ok(inPanel.includes(`${name}: ${shown}`), name);
      });

      it('see it behind the line', () => {
        const end = view.positionAt(view.text.length);
        const hints = inlayHintsIn(view, { start: { line: 0, character: 0 }, end }, ALL_HINTS);
        for (const piece of model.pieces()) {
          const mass = byName.get(`${piece.name}.mass`);
          const size = byName.get(`${piece.name}.blank.diameter`) ?? byName.get(`${piece.name}.blank.long`);
          const form = piece.formLine();
          if (!mass || !size || !form || form.line.section !== piece.named.section) continue;
          const at = view.positionAt(form.place.section.start + form.place.to);
          const hint = hints.find(({ position }) => position.line === at.line);
          const label = String(hint?.label);
          assert.ok(label.includes(withoutRange(mass.shown)), `${piece.name}: ${label}, explained ${mass.shown}`);
          // Sizes of inches have a decimal less behind the line.
          const number = Number.parseFloat(size.shown);
          const inHint = /[\d.]+/.exec(label.replace('blank ', ''))![0]!;
          assert.ok(Math.abs(Number(inHint) - number) <= 0.0051, `${piece.name}: ${label}, explained ${size.shown}`);
        }
        for (const seam of model.seams()) {
          const needed = byName.get(`${seam.name}.rivet-length`);
          const line = seam.rivetsLine();
          if (!needed || !line) continue;
          const at = view.positionAt(line.place.section.start + line.place.to);
          const label = String(hints.find(({ position }) => position.line === at.line)?.label);
          assert.ok(label.includes(withoutRange(needed.shown)), `${seam.name}: ${label}, explained ${needed.shown}`);
        }
      });

      it('find it on the cut list', () => {
        const list = cutListInputOf(model, { date: '2027-01-01', problems: [] });
        const value = (name: string) => byName.get(name)?.value;
        for (const { blanks } of list.materials) {
          for (const blank of blanks) {
            if (!model.pieces().some(({ name }) => name === blank.piece)) continue;
            // On the sheet it lies as its grain wants it; a blank's long side is the longer one.
            assert.equal(Math.max(blank.long, blank.wide), value(`${blank.piece}.blank.long`), blank.piece);
            assert.equal(Math.min(blank.long, blank.wide), value(`${blank.piece}.blank.wide`), blank.piece);
            assert.equal(blank.area, value(`${blank.piece}.blank.area`), blank.piece);
            assert.equal(blank.perBuild, value(`${blank.piece}.make`), blank.piece);
            for (const { edge, amount } of blank.allowances) {
              // The other one of a mirrored bay has the figure of the first.
              const figure = `${blank.piece}.${edge.replace(/ mirrored$/, '')}.allowance`;
              assert.equal(amount, value(figure), figure);
            }
          }
        }
        for (const { uses } of list.wires)
          for (const { piece, edge, length } of uses) assert.equal(length, value(`${piece}.${edge}.wire`));
        const lengths = new Set(
          figures.filter(({ name }) => /\.rivet-length(-\d+)?$/.test(name)).map((each) => each.value),
        );
        const holes = new Set(figures.filter(({ name }) => /\.hole(-\d+)?$/.test(name)).map((each) => each.value));
        for (const { uses } of list.rivets) {
          for (const { needed, hole, seam } of uses) {
            // A joint tells the longest of a rivet's, the list each of its stacks.
            const longest = Math.max(
              0,
              ...figures.filter(({ name }) => name.startsWith(`${seam}.rivet-length`)).map((each) => each.value),
            );
            const isOfJoint = model.joints().some(({ name }) => name === seam);
            if (needed) assert.ok(isOfJoint ? needed.value <= longest : lengths.has(needed.value), seam);
            if (hole !== undefined) assert.ok(holes.has(hole), seam);
          }
        }
        assert.equal(list.mass?.formed, value('build.mass'));
      });
    });
  }
});

const withoutRange = (text: string): string => text.replace(/ \(.*\)$/, '');

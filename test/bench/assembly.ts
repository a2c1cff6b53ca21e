/*
 * How long it takes to place all pieces of a build and to find what its seams leave open, after an edit of one plate. Warm, one core,
 * time of the thread where the system tells it: npm run bench -- assembly [--json]
 */
import { existsSync, readFileSync } from 'node:fs';
import { readSpec } from '../../grammar/reader.ts';
import { misfitsOf } from '../../server/model/assembly/misfit.ts';
import { assemblyOf } from '../../server/model/assembly/pose.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import { textOf } from '../samples/support.ts';

const SCHEDULED = '/proc/thread-self/schedstat';
const now = (): number =>
  existsSync(SCHEDULED) ? Number(readFileSync(SCHEDULED, 'utf8').split(' ')[0]) / 1e6 : performance.now();

/** A helm: the sample, whose skull is made a little longer at each edit. */
const HELM = {
  name: 'sallet, skull edited',
  text: (n: number) => textOf('sallet/sallet.planish').replace('head length 200 mm', `head length ${200 + n / 50} mm`),
};

/** Plates round a ring, every seam of which says something of all: least squares over all poses at once. */
const RING = (count: number) => ({
  name: `ring of ${count} plates, one edited`,
  text: (n: number) => {
    const pieces = Array.from({ length: count }, (_, i) => {
      const wrap = (360 / count) * (i ? 1 : 1 - n / 1000);
      return `piece p${i}\n  from plate\n  cylinder round 900 mm, high 80 mm, wrap ${wrap} deg\n`;
    });
    const seams = pieces.map((_, i) => {
      const next = (i + 1) % count;
      return `seam s${i}\n  joins p${i}, p${next}\n  along p${i}.right\n  along p${next}.left\n  weld\n`;
    });
    return `material plate\n  mild steel 1.5 mm\n${pieces.join('')}${seams.join('')}`;
  },
});

const results = [HELM, RING(8), RING(40)].map(({ name, text }) => {
  const main = 'file:///build/spec.planish';
  const stock = 'file:///shop/stock.planish';
  let spec = readSpec(text(0));
  const rack = readSpec(textOf('shop/stock.planish'));
  const project = new Project({
    mayRead: () => true,
    read: (uri) => (uri === main ? spec : uri === stock ? rack : undefined),
  });
  const ask = () => {
    const model = modelOf(project, main)!;
    const placed = assemblyOf(model).groups.reduce((sum, { bodies }) => sum + bodies.length, 0);
    return [placed, model.seams().reduce((sum, seam) => sum + misfitsOf(seam).length, 0)] as const;
  };
  const [bodies, seams] = ask();
  const took = Array.from({ length: 60 }, (_, n) => {
    spec = readSpec(text(n + 1), spec);
    project.refresh(main);
    const start = now();
    ask();
    return now() - start;
  })
    .slice(20)
    .sort((a, b) => a - b);
  return { name, bodies, seams, median: took[20]!, p95: took[37]! };
});

if (process.argv.includes('--json')) console.log(JSON.stringify(results, null, 2));
else
  for (const { name, bodies, seams, median, p95 } of results)
    console.log(
      `${name}: ${bodies} placed, ${seams} seams measured, ${median.toFixed(1)} ms (95 %: ${p95.toFixed(1)} ms)`,
    );

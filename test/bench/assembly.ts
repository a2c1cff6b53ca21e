/*
 * How long it takes to place all pieces of a build and to find what its seams leave open, and which pieces run through each other, after
 * an edit of one plate; and to turn a visor over a skull through a hundred steps. Warm, one core,
 * time of the thread where the system tells it: npm run bench -- assembly [--json]
 */
import { existsSync, readFileSync } from 'node:fs';
import { readSpec } from '../../grammar/reader.ts';
import { AT_REST } from '../../server/geometry/motion/motion.ts';
import { sweptInSteps } from '../../server/geometry/motion/sweep.ts';
import { MeshTree } from '../../server/geometry/motion/tree.ts';
import { atOnce } from '../../server/incremental/steps.ts';
import { misfitsOf } from '../../server/model/assembly/misfit.ts';
import { assemblyOf } from '../../server/model/assembly/pose.ts';
import { shapeOf } from '../../server/model/assembly/shape.ts';
import { throughs } from '../../server/model/assembly/through.ts';
import { modelOf } from '../../server/model/index.ts';
import { Project } from '../../server/model/names/project.ts';
import { specOf, textOf } from '../samples/support.ts';

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
  const runs = Array.from({ length: 60 }, (_, n) => {
    spec = readSpec(text(n + 1), spec);
    project.refresh(main);
    const start = now();
    ask();
    const placed = now();
    throughs(modelOf(project, main)!);
    return { took: placed - start, through: now() - placed };
  }).slice(20);
  const sorted = (of: (run: (typeof runs)[number]) => number) => runs.map(of).sort((a, b) => a - b);
  const took = sorted((run) => run.took);
  return { name, bodies, seams, median: took[20]!, p95: took[37]!, through: sorted((run) => run.through)[20]! };
});

/** A visor round a skull, a finger's breadth outside it, turned about a line through its temples. */
function sweepTook(): { readonly looks: number; readonly triangles: number; readonly median: number } {
  const model = specOf({
    'helm.planish': `material plate
  mild steel 1.5 mm
piece skull
  from plate
  form wrap 360 deg
  at 0 mm, long 240 mm, wide 210 mm
  at 150 mm, long 240 mm, wide 210 mm
  at 240 mm, long 60 mm, wide 50 mm
piece visor
  from plate
  cylinder round 780 mm, high 130 mm, wrap 190 deg, long 262 mm
`,
  });
  const [skull, visor] = model.pieces().map((piece) => shapeOf(piece)!);
  const trees = [skull!, visor!].map(({ positions, triangles }) => new MeshTree(positions, triangles));
  const axis = { point: [0, 0, 120], along: [1, 0, 0] } as const;
  const still = { still: trees[0]!, stillAt: AT_REST, turning: trees[1]!, turningAt: AT_REST, touching: 1.5 };
  const took: number[] = [];
  let looks = 0;
  for (let n = 0; n < 20; n++) {
    const start = now();
    ({ looks } = atOnce(sweptInSteps(axis, [still], 0, (100 * Math.PI) / 180)));
    took.push(((now() - start) / looks) * 100);
  }
  return {
    looks,
    triangles: (skull!.triangles.length + visor!.triangles.length) / 3,
    median: took.slice(5).sort((a, b) => a - b)[7]!,
  };
}
const sweep = sweepTook();

if (process.argv.includes('--json')) console.log(JSON.stringify({ results, sweep }, null, 2));
else {
  for (const { name, bodies, seams, median, p95, through } of results)
    console.log(
      `${name}: ${bodies} placed, ${seams} seams measured, ${median.toFixed(1)} ms (95 %: ${p95.toFixed(1)} ms); what runs through: ${through.toFixed(1)} ms`,
    );
  console.log(
    `a visor turned, ${sweep.triangles} triangles: 100 of its ${sweep.looks} steps in ${sweep.median.toFixed(0)} ms`,
  );
}

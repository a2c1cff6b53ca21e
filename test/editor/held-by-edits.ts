// node --expose-gc --import=tsx held-by-edits.ts SECTIONS EDITS: the megabytes that a workspace holds beyond an empty one once a spec
// of so many sections has been opened, once it has been edited so often, and once it is closed.
import { diagnosticsOf } from '../../server/editor/features/diagnostics.ts';
import { Workspace } from '../../server/editor/workspace/workspace.ts';
import { atOnce } from '../../server/incremental/steps.ts';

const [sections = 0, edits = 0] = process.argv.slice(2).map(Number);
const uri = 'file:///build/spec.planish';
const workspace = new Workspace({ mayRead: () => true, read: () => null });
const look = () => diagnosticsOf(workspace.view(uri)!, { linksToDocs: false }).length;
const megabytes = () => {
  gc!();
  return Math.round(process.memoryUsage().heapUsed / 1e6);
};

// What is set up once is no spec's.
workspace.open(uri, 0, 'piece one\n');
look();
atOnce(workspace.close(uri));
const empty = megabytes();
workspace.open(uri, 1, Array.from({ length: sections }, (_, i) => `piece p${i}\n  disc 90 mm\n`).join(''));
look();
const opened = megabytes() - empty;
for (let edit = 0; edit < edits; edit++) {
  const line = 1 + 2 * ((edit * 37) % Math.min(sections, 5_000));
  const at = { line, character: '  disc '.length };
  const range = { start: at, end: { line, character: at.character + 2 } };
  workspace.change(uri, edit + 2, [{ range, text: String(10 + (edit % 90)) }]);
  if (edit % 50 === 0) look();
}
look();
const edited = megabytes() - empty;
atOnce(workspace.close(uri));
const closed = megabytes() - empty;
console.log(JSON.stringify({ opened, edited, closed }));

import { longSpec } from './bench/peers/long-spec.ts';
import { Workspace } from '../server/editor/workspace.ts';
import { diagnosticsOf } from '../server/editor/diagnostics.ts';
const lines = Number(process.argv[2] ?? 1000), rounds = Number(process.argv[3] ?? 400);
const ws = new (Workspace as any)({ read: () => undefined, list: () => [] } as any);
const uri = 'file:///bench/long.planish';
const text = longSpec(lines);
const found = [...text.matchAll(/\n {2}from (plate)\n/g)];
const m = found[found.length >> 1]!;
const off = m.index + 8;
const before = text.slice(0, off).split('\n');
const at = { line: before.length - 1, character: before.at(-1)!.length };
ws.open(uri, 1, text);
diagnosticsOf(ws.view(uri)!, { linksToDocs: false });
const times: number[] = [];
function editing() {
for (let i = 0; i < rounds; i++) {
  const letter = i % 2 ? 'p' : 'x';
  const t = performance.now();
  ws.change(uri, i + 2, [{ range: { start: at, end: { line: at.line, character: at.character + 1 } }, text: letter }]);
  diagnosticsOf(ws.view(uri)!, { linksToDocs: false });
  times.push(performance.now() - t);
}
}
editing();
const half = (k: number) => times.slice(rounds > 60 ? rounds / 2 : 10).filter((_, i) => i % 2 === k).sort((a, b) => a - b);
for (const k of [0, 1]) { const s = half(k); console.log(k ? 'mended' : 'broken', s[s.length >> 1]!.toFixed(2), 'ms median', s[s.length >> 3]!.toFixed(2)); }
const d = diagnosticsOf(ws.view(uri)!, { linksToDocs: false });
console.log(d.length, JSON.stringify(d).length);

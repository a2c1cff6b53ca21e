import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { features } from '../../server/editor/features/all.generated.ts';
import { exports, methodOf } from '../../server/output/exports.ts';

const root = path.resolve(import.meta.dirname, '../..');
const read = (file: string) => readFileSync(path.join(root, file), 'utf8');

/** The requests of one interface of types. */
const typed = (name: string): string[] => {
  const [, body = ''] =
    new RegExp(`export interface ${name} \\{\\n([\\s\\S]*?)\\n\\}`).exec(read('server/requests.ts')) ?? [];
  const found = [...body.matchAll(/^ {2}'(planish\/\w+)':/gm)].map(([, method]) => method!);
  assert.ok(found.length, name);
  return found;
};

describe('requests of our own', () => {
  const answered = features.flatMap(({ requests }) => requests.map(({ method }) => method));

  it('have their types and their handler, each one', () => {
    const own = answered.filter((method) => method.startsWith('planish/'));
    assert.deepEqual(own.sort(), [...typed('OwnRequests'), ...exports.map(methodOf)].sort());
  });

  it('are each answered by one feature', () => {
    assert.equal(new Set(answered).size, answered.length);
  });

  it('stand in the table of DEVELOPERS.md', () => {
    const rows = [...read('DEVELOPERS.md').matchAll(/^\| `(planish\/\w+)`/gm)].map(([, method]) => method!);
    // A sign of life is no question that anybody else would ask.
    const told = [...typed('OwnRequests'), ...exports.map(methodOf)].filter((method) => method !== 'planish/alive');
    assert.deepEqual(rows.filter((method) => method !== 'planish/alive').sort(), told.sort());
  });

  it('are asked of the client by their names', () => {
    const [server, client] = [read('server/editor/protocol/server.ts'), read('client/extension.ts')];
    for (const method of typed('ClientRequests')) {
      assert.ok(server.includes(`ask('${method}'`), method);
      assert.ok(client.includes(`answer(client, '${method}'`), method);
    }
  });
});

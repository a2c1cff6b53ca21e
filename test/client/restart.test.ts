import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { closeAll, eventually, itOutsideBrowser, openSpec, planish, type Spec } from './editor.ts';
import { bandedCap } from './specs.ts';

/** The process of the server, as the client keeps it to itself. */
const processOf = (client: BaseLanguageClient) =>
  (client as unknown as { _serverProcess?: { readonly pid: number; kill(signal: string): boolean } })._serverProcess;

const nobodyKills = 'nobody but its owner can end a worker, and nobody is told of it';

describe('a server that is killed', () => {
  let client: BaseLanguageClient;
  before(async () => {
    client = (await planish()).client;
  });
  afterEach(closeAll);

  /** Kills it, and gives what came after it: another process, or none. */
  const kill = async (after: State) => {
    const killed = processOf(client)!.pid;
    processOf(client)!.kill('SIGKILL');
    await eventually(() => {
      assert.equal(client.state, after);
      assert.notEqual(processOf(client)?.pid, killed);
    });
  };

  const edited = async (): Promise<Spec> => {
    const spec = await openSpec(bandedCap);
    await spec.replace('5/16 in', '3/16 in');
    await spec.problem('rivet-too-short');
    return spec;
  };

  const unsaved = 'is started again, with what nobody has saved and with its problems';
  itOutsideBrowser(unsaved, nobodyKills, async () => {
    const spec = await edited();
    const { text } = spec;
    await kill(State.Running);
    assert.equal(spec.text, text);
    assert.equal(spec.document.isDirty, true);
    assert.match(await spec.hover('16 ga'), /mm/);
    // Of the text as it is, not as it lies on the disk; and it follows what is typed from there on.
    await spec.problem('rivet-too-short');
    await spec.replace('3/16 in', '5/16 in');
    await spec.withoutProblem('rivet-too-short');
    await spec.replace('strip 300', 'stripp 300');
    await spec.problem('unknown-word');
  });

  const leftAlone = 'over and over is left alone, says so, and is there again when it is asked for';
  itOutsideBrowser(leftAlone, nobodyKills, async () => {
    const { lastWord } = await planish();
    await vscode.commands.executeCommand('planish.restartServer');
    const spec = await edited();
    assert.equal(lastWord(), undefined);
    for (let i = 0; i < 4; i++) await kill(State.Running);
    await kill(State.Stopped);
    assert.match(lastWord() ?? '', /5 times/);
    assert.deepEqual(spec.problems(), [], 'what nobody watches over is not shown');
    await vscode.commands.executeCommand('planish.restartServer');
    assert.equal(client.isRunning(), true);
    assert.equal(lastWord(), undefined);
    await spec.problem('rivet-too-short');
    assert.match(await spec.hover('16 ga'), /mm/);
  });

  itOutsideBrowser('or hangs is replaced when a restart is asked for', nobodyKills, async function () {
    // The client waits two seconds for a farewell, and as long again for the end.
    this.timeout(60_000);
    const spec = await edited();
    const hung = processOf(client)!;
    hung.kill('SIGSTOP');
    await vscode.commands.executeCommand('planish.restartServer');
    assert.equal(client.isRunning(), true);
    assert.notEqual(processOf(client)!.pid, hung.pid);
    await spec.problem('rivet-too-short');
    assert.match(await spec.hover('16 ga'), /mm/);
    hung.kill('SIGKILL');
  });
});

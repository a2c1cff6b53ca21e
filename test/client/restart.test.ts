import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { Crashes } from '../../client/crashes.ts';
import { watched } from '../../client/extension.ts';
import { Watch } from '../../client/watch.ts';
import { closeAll, eventually, hangOf, itInBrowser, openSpec, planish, type Spec, serverOf } from './editor.ts';
import { bandedCap } from './specs.ts';

describe('a server that is killed', () => {
  let client: BaseLanguageClient;
  before(async () => {
    client = (await planish()).client;
  });
  beforeEach(() => vscode.commands.executeCommand('planish.restartServer'));
  afterEach(closeAll);

  /** Waits for what comes after it: another one, or none. */
  const followed = async (by: State, end: () => void) => {
    const { runsIn } = serverOf(client);
    end();
    await eventually(() => {
      assert.equal(client.state, by);
      assert.notEqual(by === State.Running && serverOf(client).runsIn, runsIn);
    });
  };
  const kill = (after: State) => followed(after, serverOf(client).kill);

  const edited = async (): Promise<Spec> => {
    const spec = await openSpec(bandedCap);
    await spec.replace('5/16 in', '3/16 in');
    await spec.problem('rivet-too-short');
    return spec;
  };

  it('is started again, with what nobody has saved and with its problems', async () => {
    const spec = await edited();
    const { text } = spec;
    await kill(State.Running);
    assert.equal(spec.text, text);
    assert.equal(spec.document.isDirty, true);
    await spec.hovers('16 ga', /mm/);
    // Of the text as it is, not as it lies on the disk; and it follows what is typed from there on.
    await spec.problem('rivet-too-short');
    await spec.replace('3/16 in', '5/16 in');
    await spec.withoutProblem('rivet-too-short');
    await spec.replace('strip 300', 'stripp 300');
    await spec.problem('unknown-word');
  });

  it('or that ends by itself is started again', async () => {
    const spec = await edited();
    // Nobody has asked it to shut down before.
    await followed(State.Running, () => void client.sendNotification('exit'));
    await spec.hovers('16 ga', /mm/);
    await spec.problem('rivet-too-short');
  });

  it('over and over is left alone, says so, and is there again when it is asked for', async () => {
    const { lastWord } = await planish();
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
    await spec.hovers('16 ga', /mm/);
  });

  it('or hangs is started again by itself, and the status bar says so', async () => {
    const { watch, status } = await planish();
    const { patience } = watch;
    const hang = await hangOf(client);
    const spec = await edited();
    const { runsIn: hung } = serverOf(client);
    hang();
    // Something is told to it that it should look at; and here nobody has twenty seconds.
    watch.patience = 3;
    await spec.replace('strip 300', 'stripp 300');
    try {
      await eventually(() => {
        assert.equal(client.state, State.Running);
        assert.notEqual(serverOf(client).runsIn, hung);
      });
    } finally {
      watch.patience = patience;
    }
    assert.match(status().text, /started anew, it did not answer/);
    await spec.problem('unknown-word');
    await spec.replace('stripp 300', 'strip 300');
    await spec.withoutProblem('unknown-word');
    await spec.hovers('16 ga', /mm/);
  });

  it('or hangs is replaced when a restart is asked for', async () => {
    const hang = await hangOf(client);
    const spec = await edited();
    const hung = serverOf(client).runsIn as { signalCode?: string | null };
    hang();
    await vscode.commands.executeCommand('planish.restartServer');
    assert.equal(client.isRunning(), true);
    assert.notEqual(serverOf(client).runsIn, hung);
    // A process is gone before the other one starts: its end is nobody else's.
    if ('signalCode' in hung) assert.equal(hung.signalCode, 'SIGKILL');
    await spec.problem('rivet-too-short');
    await spec.hovers('16 ga', /mm/);
  });
});

describe('a worker that is no server', () => {
  const crashes = new Crashes();
  beforeEach(() => crashes.forget());

  /** What starts it, as the server is started. */
  const clientOf = async (script: string, watch = new Watch()) => {
    // Node has no such client: it is loaded in a browser only.
    const { WorkerClient } = await import('../../client/worker-client.ts');
    return new WorkerClient(script, '', {
      errorHandler: crashes,
      initializationFailedHandler: () => false,
      middleware: watch.middleware,
    });
  };
  /** Says yes to everything but what a server is asked once it runs. */
  const hangs = `onmessage = ({ data: { id, method } }) => {
    if (method !== 'initialize') for (;;);
    postMessage({ jsonrpc: '2.0', id, result: { capabilities: {} } });
  };`;
  /** What was said in the end. */
  const lastWordOf = async (script: string): Promise<string> => {
    await assert.rejects((await clientOf(script)).start());
    return eventually(() => {
      const word = crashes.lastWord();
      assert.ok(word);
      return word;
    });
  };
  const scriptOf = (text: string) => URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));

  itInBrowser('since its script is not there, is given up in the end', async () => {
    assert.match(await lastWordOf('https://localhost:1/none.js'), /5 times/);
  });

  itInBrowser('since it throws as it is loaded, is given up in the end', async () => {
    assert.match(await lastWordOf(scriptOf('throw new Error("no server");')), /5 times/);
  });

  itInBrowser('since it throws when it is asked, is given up in the end', async () => {
    assert.match(await lastWordOf(scriptOf('onmessage = () => { throw new Error("no server"); };')), /5 times/);
  });

  itInBrowser('since it says yes and hangs, is replaced by the next start', async () => {
    const client = await clientOf(scriptOf(hangs));
    await client.start();
    const { runsIn } = serverOf(client);
    await assert.rejects(client.stop(), /timed out/);
    await client.start();
    assert.equal(client.isRunning(), true);
    assert.notEqual(serverOf(client).runsIn, runsIn);
    serverOf(client).kill();
  });

  itInBrowser('since it says yes and hangs, is noticed each time and given up in the end', async () => {
    const watch = new Watch();
    const client = await clientOf(scriptOf(hangs), watch);
    const watching = watched(client, watch, crashes);
    watch.patience = 1;
    await client.start();
    await eventually(() => assert.match(crashes.lastWord() ?? '', /5 times/));
    assert.equal(client.isRunning(), false);
    watching.dispose();
  });
});

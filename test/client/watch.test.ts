import assert from 'node:assert/strict';
import { aliveRequest, type Hang, Watch } from '../../client/watch.ts';

/** A watch whose seconds pass when the test says so, over a server that answers when the test says so. */
class Scene {
  private run: (() => void) | undefined;
  readonly watch = new Watch((run) => {
    this.run = run;
    return () => {
      this.run = undefined;
    };
  });
  readonly hangs: Hang[] = [];
  readonly slow: boolean[] = [];
  asked = 0;
  private answers: (() => void)[] = [];

  constructor() {
    this.watch.over({
      ask: () => {
        this.asked += 1;
        return new Promise<void>((resolve) => this.answers.push(resolve));
      },
      hangs: (hang) => void this.hangs.push(hang),
      slow: () => void this.slow.push(this.watch.isSlow),
    });
  }

  get isAwake(): boolean {
    return this.run !== undefined;
  }

  /** Seconds in which we run; what the server has not answered stays so. */
  pass(seconds: number): void {
    for (let i = 0; i < seconds; i++) this.run?.();
  }

  /** It answers what it was asked first. */
  async answer(): Promise<void> {
    this.answers.shift()?.();
    for (let turn = 0; turn < 5; turn++) await Promise.resolve();
  }

  /** Seconds in which it answers at once. */
  async live(seconds: number): Promise<void> {
    for (let i = 0; i < seconds; i++) {
      this.pass(1);
      await this.answer();
    }
  }

  tell(method: string, params?: unknown): void {
    void this.watch.middleware.sendNotification(method, async () => {}, params);
  }

  /** A question; what it gives answers it. */
  ask(method: string, params?: unknown): () => void {
    let answer = () => {};
    const answered = new Promise<void>((resolve) => {
      answer = resolve;
    });
    void this.watch.middleware.sendRequest(method, params, undefined, () => answered);
    return answer;
  }
}

describe('the watch over the server', () => {
  let scene: Scene;
  beforeEach(() => {
    scene = new Scene();
  });

  it('gives up one that says nothing for twenty seconds, and tells what it was at', () => {
    scene.watch.runs();
    scene.tell('textDocument/didChange', { textDocument: { uri: 'file:///a.planish' } });
    scene.ask('textDocument/hover', {
      textDocument: { uri: 'file:///a.planish' },
      position: { line: 2, character: 0 },
    });
    scene.ask('planish/summary', { uri: 'file:///b.planish' });
    scene.tell('workspace/didChangeConfiguration');
    scene.pass(20);
    assert.equal(scene.asked, 1);
    assert.equal(scene.hangs.length, 0);
    scene.pass(1);
    assert.deepEqual(scene.hangs, [
      {
        seconds: 20,
        last: 'workspace/didChangeConfiguration',
        open: ['textDocument/hover file:///a.planish:3:1', 'planish/summary file:///b.planish'],
      },
    ]);
    assert.equal(scene.isAwake, false, 'it is given up once');
  });

  it('lets one live that answers late, as often as it does', async () => {
    scene.watch.runs();
    scene.ask('planish/patterns', { uri: 'file:///a.planish' });
    for (let i = 1; i <= 50; i++) {
      // Five seconds until it is asked again, and one less than it may take.
      scene.pass(i === 1 ? 1 : 6);
      scene.pass(19);
      assert.equal(scene.asked, i);
      await scene.answer();
    }
    assert.equal(scene.hangs.length, 0);
  });

  it('asks nothing of an idle one, and again once something is sent', async () => {
    scene.watch.runs();
    await scene.live(100);
    assert.equal(scene.isAwake, false);
    const { asked } = scene;
    assert.ok(asked > 5 && asked < 20, `${asked} times`);
    scene.tell('textDocument/didChange');
    assert.equal(scene.isAwake, true);
    scene.pass(1);
    assert.equal(scene.asked, asked + 1);
  });

  it('stays awake while a question is open', async () => {
    scene.watch.runs();
    const answer = scene.ask('planish/patterns');
    await scene.live(1000);
    assert.equal(scene.isAwake, true);
    answer();
    await scene.live(100);
    assert.equal(scene.isAwake, false);
  });

  it('does not take its own question for work', async () => {
    scene.watch.runs();
    await scene.live(100);
    void scene.watch.middleware.sendRequest(aliveRequest, undefined, undefined, async () => undefined);
    assert.equal(scene.isAwake, false);
  });

  it('counts the seconds that we run, not those that we sleep', () => {
    scene.watch.runs();
    scene.tell('textDocument/didChange');
    // However long the night was, the timer makes up for nothing: it is a single second.
    scene.pass(1 + 19);
    assert.equal(scene.hangs.length, 0);
  });

  it('gives one that starts more time', () => {
    scene.watch.starts();
    scene.pass(59);
    assert.equal(scene.hangs.length, 0);
    scene.pass(1);
    assert.equal(scene.hangs[0]?.seconds, 60);
    assert.equal(scene.asked, 0, 'one that starts cannot be asked yet');
  });

  it('begins anew with the next server, whatever the last one still owes', async () => {
    scene.watch.runs();
    scene.ask('textDocument/hover');
    scene.pass(15);
    scene.watch.rests();
    scene.pass(60);
    assert.equal(scene.hangs.length, 0);
    scene.watch.starts();
    scene.watch.runs();
    scene.pass(1);
    assert.equal(scene.asked, 2);
    scene.pass(19);
    assert.equal(scene.hangs.length, 0);
    scene.pass(1);
    assert.deepEqual(scene.hangs[0]?.open, []);
  });

  it('does not take a late answer of the last server for one of the next', async () => {
    scene.watch.runs();
    scene.pass(10);
    scene.watch.rests();
    scene.watch.runs();
    scene.pass(1);
    assert.equal(scene.asked, 2);
    await scene.answer();
    scene.pass(19);
    assert.equal(scene.hangs.length, 0);
    scene.pass(1);
    assert.equal(scene.hangs.length, 1);
  });

  it('says when it takes long, and when it has answered', async () => {
    scene.watch.runs();
    scene.pass(1 + 4);
    assert.deepEqual(scene.slow, []);
    scene.pass(1);
    assert.deepEqual(scene.slow, [true]);
    await scene.answer();
    assert.deepEqual(scene.slow, [true, false]);
  });
});

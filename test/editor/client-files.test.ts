import assert from 'node:assert/strict';
import { ClientFiles } from '../../server/editor/client-files.ts';
import { Workspace } from '../../server/editor/workspace.ts';

const cap = 'vscode-vfs://anywhere/cap.planish';
const stock = 'vscode-vfs://anywhere/stock.planish';
const capText = 'planish 1\n\nuse "stock.planish"\n\npiece cap\n  from plate\n  disc 90 mm\n';
const stockText = 'planish 1\n\nmaterial plate\n  mild steel 1.5 mm\n';

/** A workspace whose files take a while to come, as over a wire. */
function workspaceOf(texts: Record<string, string>): Workspace {
  const later = () => new Promise((come) => setTimeout(come, 5));
  const files = new ClientFiles({
    text: async (uri) => {
      await later();
      return texts[uri] ?? null;
    },
    specs: async () => {
      await later();
      return Object.keys(texts);
    },
  });
  return new Workspace({
    mayRead: () => true,
    read: (uri) => files.read(uri),
    specs: () => files.specs(),
    settled: () => files.settled(),
    forget: (uri) => files.forget(uri),
    lookAgain: () => files.lookAgain(),
  });
}

async function unknownNames(workspace: Workspace): Promise<string[]> {
  const view = await workspace.ready(cap);
  return view!.problems().flatMap(({ code, message }) => (/^(unknown-name|use-)/.test(code) ? [message] : []));
}

describe('files that only the editor can reach', () => {
  it('are waited for by everybody who asks while they come', async () => {
    const workspace = workspaceOf({ [stock]: stockText });
    workspace.open(cap, 1, capText);
    assert.deepEqual(await Promise.all([1, 2, 3].map(() => unknownNames(workspace))), [[], [], []]);
  });

  it('are waited for again after they have changed', async () => {
    const texts = { [stock]: stockText };
    const workspace = workspaceOf(texts);
    workspace.open(cap, 1, capText);
    assert.deepEqual(await unknownNames(workspace), []);
    texts[stock] = stockText.replace('plate', 'sheet');
    workspace.fileChanged(stock);
    const wrong = await Promise.all([1, 2].map(() => unknownNames(workspace)));
    assert.match(wrong[0]!.join(), /plate/);
    assert.deepEqual(wrong[1], wrong[0]);
  });

  it('are found where all are asked for, not only those that were told of', async () => {
    const texts: Record<string, string> = { [stock]: stockText };
    const workspace = workspaceOf(texts);
    assert.deepEqual(await workspace.specs(), [stock]);
    texts[cap] = capText;
    assert.deepEqual(await workspace.specs(), [stock, cap]);
  });

  it('that are not there are missed', async () => {
    const workspace = workspaceOf({});
    workspace.open(cap, 1, capText);
    const wrong = await Promise.all([1, 2].map(() => unknownNames(workspace)));
    for (const messages of wrong) assert.match(messages.join(), /stock\.planish/);
  });
});

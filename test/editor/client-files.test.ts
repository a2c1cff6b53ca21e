import assert from 'node:assert/strict';
import { ClientFiles, isUnder } from '../../server/editor/workspace/client-files.ts';
import { Workspace } from '../../server/editor/workspace/workspace.ts';
import type { FolderEntry } from '../../server/requests.ts';

const cap = 'vscode-vfs://anywhere/cap.planish';
const stock = 'vscode-vfs://anywhere/stock.planish';
const near = 'vscode-vfs://anywhere/stocks.planish';
const capText = 'planish 1\n\nuse "stock.planish"\n\npiece cap\n  from plate\n  disc 90 mm\n';
const stockText = 'planish 1\n\nmaterial plate\n  mild steel 1.5 mm\n';

/** A workspace whose files take a while to come, as over a wire. `heard` gets every folder that the editor is asked for. */
function workspaceOf(texts: Record<string, string>, heard: string[] = []): Workspace {
  const later = () => new Promise((come) => setTimeout(come, 5));
  const files = new ClientFiles({
    text: async (uri) => {
      await later();
      return texts[uri] ?? null;
    },
    entries: async (folder) => {
      heard.push(folder);
      await later();
      return entriesOf(folder, Object.keys(texts));
    },
    specs: async () => {
      await later();
      return Object.keys(texts);
    },
  });
  return new Workspace({
    mayRead: (uri) => isUnder('vscode-vfs://anywhere/', uri),
    read: (uri) => files.read(uri),
    list: (folder) => files.list(folder),
    specs: () => files.specs(),
    settled: () => files.settled(),
    forget: (uri) => files.forget(uri),
    lookAgain: () => files.lookAgain(),
  });
}

/** What lies in a folder, by the addresses of all files. A folder without any cannot be read. */
function entriesOf(folder: string, uris: readonly string[]): FolderEntry[] {
  const ways = uris
    .filter((uri) => isUnder(folder, uri))
    .map((uri) => uri.slice(folder.length).split('/').filter(Boolean));
  if (!ways.length) throw new Error(`There is no ${folder}.`);
  return [...new Map(ways.map(([name, ...rest]) => [name!, rest.length > 0]))].map(([name, isFolder]) => ({
    name,
    isFolder,
  }));
}

/** Asks as a feature does: anew once what was missing has come. */
async function asked<T>(workspace: Workspace, question: () => T | Promise<T>): Promise<T> {
  for (;;) {
    const answer = await question();
    if (!(await workspace.missed())) return answer;
  }
}

const listed = (workspace: Workspace, folder: string): Promise<string> =>
  asked(workspace, () =>
    workspace
      .list(folder)
      .map(({ name, isFolder }) => name + (isFolder ? '/' : ''))
      .join(' '),
  );

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

  it('and are drawings are seen to change by every spec that names any', () => {
    const workspace = workspaceOf({});
    for (const line of ['outline "crest.svg"', 'pierce "crest.svg"', 'pierce vine “crest.svg”', 'hide "crest.svg"']) {
      workspace.open(cap, 1, `piece cap\n  ${line}\n`);
      assert.deepEqual(workspace.affectedBy('vscode-vfs://anywhere/crest.svg'), [cap], line);
    }
    workspace.open(cap, 1, capText);
    assert.deepEqual(workspace.affectedBy('vscode-vfs://anywhere/crest.svg'), []);
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

  it('that are not there are missed with the name that was likely meant, as long as that is there', async () => {
    const texts: Record<string, string> = { [near]: stockText };
    const workspace = workspaceOf(texts);
    workspace.open(cap, 1, capText);
    const wrong = async () => (await asked(workspace, () => unknownNames(workspace))).join();
    assert.match(await wrong(), /did you mean “stocks\.planish”/);
    delete texts[near];
    workspace.fileChanged(near);
    assert.doesNotMatch(await wrong(), /did you mean/);
    texts[near] = stockText;
    workspace.fileChanged(near);
    assert.match(await wrong(), /did you mean “stocks\.planish”/);
  });
});

describe('folders that only the editor can list', () => {
  const shop = 'vscode-vfs://anywhere/shop';

  it('are asked for once, by all who wait, however they are written', async () => {
    const heard: string[] = [];
    const workspace = workspaceOf({ [cap]: '', [`${shop}/stock.planish`]: '' }, heard);
    const twice = await Promise.all([listed(workspace, shop), listed(workspace, `${shop}/`)]);
    assert.deepEqual(twice, ['stock.planish', 'stock.planish']);
    assert.equal(await listed(workspace, shop), 'stock.planish');
    assert.deepEqual(heard, [shop]);
  });

  it('are kept until something changes in them', async () => {
    const heard: string[] = [];
    const texts: Record<string, string> = { [cap]: '', [stock]: '', [`${shop}/stock.planish`]: '' };
    const workspace = workspaceOf(texts, heard);
    const root = 'vscode-vfs://anywhere/';
    assert.equal(await listed(workspace, root), 'cap.planish shop/ stock.planish');
    assert.equal(await listed(workspace, shop), 'stock.planish');
    delete texts[stock];
    texts[`${root}crest.svg`] = '';
    assert.equal(await listed(workspace, root), 'cap.planish shop/ stock.planish', 'nobody has told of it yet');
    workspace.fileChanged(stock);
    assert.equal(await listed(workspace, root), 'cap.planish crest.svg shop/');
    assert.equal(await listed(workspace, shop), 'stock.planish');
    assert.deepEqual(heard, [root, shop, root], 'what changed beside a folder is nothing to it');
    delete texts[`${shop}/stock.planish`];
    workspace.fileChanged(shop);
    assert.equal(await listed(workspace, shop), '');
    assert.equal(await listed(workspace, root), 'cap.planish crest.svg');
  });

  it('are asked for again where something changed while they came', async () => {
    const texts: Record<string, string> = { [cap]: '' };
    const workspace = workspaceOf(texts);
    const coming = listed(workspace, 'vscode-vfs://anywhere/');
    texts[stock] = '';
    workspace.fileChanged(stock);
    assert.equal(await coming, 'cap.planish stock.planish');
  });

  it('are empty where they cannot be read', async () => {
    const workspace = workspaceOf({ [cap]: '' });
    assert.equal(await listed(workspace, shop), '');
  });

  it('are never asked for outside the open folders', async () => {
    const heard: string[] = [];
    const workspace = workspaceOf({ [cap]: '', 'vscode-vfs://elsewhere/secret.planish': '' }, heard);
    assert.equal(await listed(workspace, 'vscode-vfs://elsewhere/'), '');
    assert.deepEqual(heard, []);
  });
});

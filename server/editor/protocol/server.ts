import {
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type InitializeResult,
  WatchKind,
} from 'vscode-languageserver';
import { speak, type Texts } from '../../../l10n/say.ts';
import { sameList } from '../../incremental/memo.ts';
import type { Fonts } from '../../output/writers/papers.ts';
import type { ClientRequests } from '../../requests.ts';
import { features } from '../features/all.generated.ts';
import { type ClientAnswers, ClientFiles } from '../workspace/client-files.ts';
import { DEFAULT_SETTINGS, readSettings, type Settings } from '../workspace/settings.ts';
import { type FileHost, sameUri, Workspace } from '../workspace/workspace.ts';
import { Answers, type Circumstances } from './answers.ts';
import { capabilitiesFor } from './capabilities.ts';
import { abilitiesOf, type ClientAbilities } from './client-abilities.ts';
import { Publishing } from './publishing.ts';
import { Turns } from './turns.ts';

/** What the program around the server gives it: the server itself knows no file system and no clock. */
export interface Surroundings {
  /** Files as this program reaches them. `roots` are the folders that may be read. */
  files(roots: () => readonly string[], client: ClientFiles): FileHost;
  fonts: Fonts;
  /** `2027-03-01` */
  today(): string;
  version?: string;
  /** What is told in this language, where we have it: `de`. */
  texts(language: string): Promise<Texts | undefined> | Texts | undefined;
  /** Hears the options that the editor starts the server with, which then waits for it. */
  begin?(options: unknown): Promise<void>;
  /** Lets pass one turn of whatever brings messages. */
  turn(): Promise<void>;
}

/** A server on a connection, ready to be asked. */
export function startServer(connection: Connection, surroundings: Surroundings): void {
  new Server(connection, surroundings).listen();
}

/** `de` of `de-AT`; an editor that says none is told in English. */
const languageOf = ({ locale }: InitializeParams): string =>
  /^[a-z]{2,3}(?![a-z])/i.exec(locale ?? '')?.[0].toLowerCase() ?? 'en';

/** Start, folders, settings and texts; what is asked is answered by the features. */
class Server implements Circumstances {
  private readonly files: FileHost;
  private readonly workspace: Workspace;
  private readonly turns: Turns;
  private readonly answers: Answers;
  private readonly publishing: Publishing;
  private readonly settings = new Map<string, Settings>();
  private pushedSettings: Settings = DEFAULT_SETTINGS;
  private folders: string[] = [];
  client: ClientAbilities = abilitiesOf(undefined);

  constructor(
    private readonly connection: Connection,
    private readonly surroundings: Surroundings,
  ) {
    this.files = surroundings.files(() => this.roots(), new ClientFiles(this.clientAnswers()));
    this.workspace = new Workspace(this.files, (uri) => this.settingsOf(uri).checks);
    this.turns = new Turns(surroundings.turn);
    this.workspace.resting = () => this.turns.resting();
    this.answers = new Answers(connection, this.workspace, this.turns, this);
    this.publishing = new Publishing(this.answers);
  }

  get fonts(): Fonts {
    return this.surroundings.fonts;
  }

  today(): string {
    return this.surroundings.today();
  }

  listen(): void {
    this.listenToLife();
    this.listenToTexts();
    for (const feature of features) this.answers.listen(feature);
    this.connection.listen();
  }

  private listenToLife(): void {
    const { connection } = this;
    connection.onInitialize((params) => this.initialize(params));
    connection.onInitialized(() => {
      if (this.client.configuration && this.client.registersConfiguration)
        this.answers.quietly(
          connection.client.register(DidChangeConfigurationNotification.type, { section: 'planish' }),
        );
      if (this.client.registersWatchers && !this.client.readsFiles)
        this.answers.quietly(
          connection.client.register(DidChangeWatchedFilesNotification.type, {
            watchers: [{ globPattern: '**/*.{planish,svg,dxf}' }],
          }),
        );
      if (this.client.folders)
        connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) =>
          this.answers.guard('workspace folders', () => {
            const gone = new Set(removed.map(({ uri }) => sameUri(uri)));
            this.folders = [...this.folders.filter((uri) => !gone.has(sameUri(uri))), ...added.map(({ uri }) => uri)];
            for (const { uri } of [...added, ...removed]) this.files.forget?.(uri);
            this.workspace.changed();
            this.publishing.scheduleFromOutside(this.workspace.openUris());
          }),
        );
    });
    connection.onDidChangeConfiguration((params) =>
      this.answers.guard('settings', () => {
        this.pushedSettings = readSettings((params?.settings as Record<string, unknown> | undefined)?.['planish']);
        this.workspace.tell(this.pushedSettings);
        this.settings.clear();
        void this.refreshSettings();
      }),
    );
    connection.onDidChangeWatchedFiles((params) =>
      this.answers.guard('changed files', () => {
        const uris = params.changes.map(({ uri }) => uri).filter((uri) => !this.workspace.isOpen(uri));
        for (const uri of uris) this.workspace.fileChanged(uri);
        this.publishing.scheduleFromOutside(uris.flatMap((uri) => this.workspace.affectedBy(uri)));
      }),
    );
  }

  private async initialize(params: InitializeParams): Promise<InitializeResult> {
    this.client = abilitiesOf(params);
    this.workspace.encoding = this.client.encoding;
    this.folders = params.workspaceFolders?.map(({ uri }) => uri) ?? (params.rootUri ? [params.rootUri] : []);
    await this.surroundings.begin?.(params.initializationOptions);
    const language = languageOf(params);
    speak(language === 'en' ? undefined : await this.surroundings.texts(language));
    return {
      serverInfo: {
        name: 'Planish',
        ...(this.surroundings.version ? { version: this.surroundings.version } : {}),
      },
      capabilities: capabilitiesFor(this.client, features),
    };
  }

  /** The open folders; and for a spec that lies in none of them, its own. */
  private roots(): readonly string[] {
    const { folders } = this;
    const open = this.workspace.openUris();
    if (this.rootsOf?.folders !== folders || !sameList(this.rootsOf.open, open))
      this.rootsOf = { folders, open, roots: this.rootsNow() };
    return this.rootsOf.roots;
  }
  private rootsOf: { readonly folders: string[]; readonly open: string[]; readonly roots: string[] } | undefined;

  private rootsNow(): string[] {
    const alone = this.workspace
      .openUris()
      .filter(
        (uri) => !this.folders.some((folder) => sameUri(uri).startsWith(`${sameUri(folder).replace(/\/+$/, '')}/`)),
      )
      .map((uri) => sameUri(uri).replace(/\/[^/]*$/, ''))
      .filter((folder) => /^[a-z][a-z0-9+.-]*:\/\/.*\/./i.test(folder));
    return [...this.folders, ...alone];
  }

  private clientAnswers(): ClientAnswers {
    const ask = <M extends keyof ClientRequests>(method: M, asked: ClientRequests[M]['asked']) =>
      asked === undefined
        ? this.connection.sendRequest<ClientRequests[M]['answer']>(method)
        : this.connection.sendRequest<ClientRequests[M]['answer']>(method, asked);
    return {
      text: async (uri) => {
        if (!this.client.readsFiles) return null;
        const answer = await ask('planish/readFile', { uri });
        if (!answer) return null;
        if ('text' in answer && typeof answer.text === 'string') return answer.text;
        return 'why' in answer && typeof answer.why === 'string' ? answer : null;
      },
      specs: async () => {
        if (!this.client.findsSpecs) return [];
        const answer = await ask('planish/findSpecs', undefined);
        return answer.uris.filter((uri) => typeof uri === 'string');
      },
      entries: async (folder) => {
        if (!this.client.listsFolders) return [];
        await this.watch(folder);
        const answer = await ask('planish/listFolder', { uri: folder });
        return answer.entries.filter(({ name }) => typeof name === 'string');
      },
    };
  }

  /** A folder that was listed has to be listed anew once something comes or goes there, be it no spec. */
  private async watch(folder: string): Promise<void> {
    const { registersWatchers, watchesOneFolder } = this.client;
    if (!registersWatchers || !watchesOneFolder || this.watched.has(folder)) return;
    this.watched.add(folder);
    const watcher = { globPattern: { baseUri: folder, pattern: '*' }, kind: WatchKind.Create | WatchKind.Delete };
    await this.connection.client
      .register(DidChangeWatchedFilesNotification.type, { watchers: [watcher] })
      .catch((error: unknown) => this.answers.log('the editor', error));
  }
  private readonly watched = new Set<string>();

  settingsOf(uri: string): Settings {
    return this.settings.get(sameUri(uri)) ?? this.pushedSettings;
  }

  async loadSettings(uri: string): Promise<void> {
    if (!this.client.configuration || this.settings.has(sameUri(uri))) return;
    try {
      const given = await this.connection.workspace.getConfiguration({ scopeUri: uri, section: 'planish' });
      if (!this.workspace.isOpen(uri)) return;
      const settings = readSettings(given);
      const changes = JSON.stringify(settings) !== JSON.stringify(this.settingsOf(uri));
      this.settings.set(sameUri(uri), settings);
      // One for the whole window: what several specs say of one another is told alike.
      this.workspace.tell(settings);
      if (changes) this.workspace.changed();
    } catch (error) {
      this.answers.log('settings', error);
    }
  }

  private async refreshSettings(): Promise<void> {
    this.workspace.changed();
    const uris = this.workspace.openUris();
    await Promise.all(uris.map((uri) => this.loadSettings(uri)));
    this.publishing.scheduleFromOutside(uris);
    if (this.client.refreshesHints) this.answers.quietly(this.connection.languages.inlayHint.refresh());
    if (this.client.refreshesLenses) this.answers.quietly(this.connection.sendRequest(CodeLensRefreshRequest.type));
  }

  private listenToTexts(): void {
    const { connection, workspace } = this;
    connection.onDidOpenTextDocument(({ textDocument }) =>
      this.answers.guard('open', () => {
        workspace.open(textDocument.uri, textDocument.version, textDocument.text);
        void this.loadSettings(textDocument.uri).then(() =>
          this.publishing.schedule(workspace.affectedBy(textDocument.uri), 0),
        );
      }),
    );
    connection.onDidChangeTextDocument(({ textDocument, contentChanges }) =>
      this.answers.guard('change', () => {
        workspace.change(textDocument.uri, textDocument.version, contentChanges);
        this.publishing.schedule([textDocument.uri]);
      }),
    );
    connection.onDidCloseTextDocument(({ textDocument }) =>
      this.answers.guard('close', () => {
        const others = workspace
          .affectedBy(textDocument.uri)
          .filter((uri) => sameUri(uri) !== sameUri(textDocument.uri));
        void this.turns.through(workspace.close(textDocument.uri));
        this.settings.delete(sameUri(textDocument.uri));
        this.publishing.forget(textDocument.uri);
        this.answers.tokens.forget(textDocument.uri);
        this.publishing.schedule(others);
      }),
    );
  }
}

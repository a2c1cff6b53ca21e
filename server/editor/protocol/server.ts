import {
  CancellationToken,
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type DocumentDiagnosticReport,
  DocumentRangesFormattingRequest,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  TextDocumentContentRequest,
  WatchKind,
  type WorkDoneProgressParams,
  type WorkDoneProgressReporter,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  WorkspaceDiagnosticRequest,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type {
  CompletionItem,
  Diagnostic,
  DocumentSymbol,
  Location,
  LocationLink,
  SemanticTokens,
  SemanticTokensDelta,
  SymbolInformation,
  WorkspaceEdit,
} from 'vscode-languageserver-types';
import { isLibrary } from '../../model/library.ts';
import { sameList } from '../../model/memo.ts';
import { atOnce, mapped, patientlyThrough, type Runner, type Steps } from '../../model/steps.ts';
import { type Explained, explainInSteps } from '../../output/explain.ts';
import type { Fonts } from '../../output/writers.ts';
import { starter, starters } from '../../starters.ts';
import { codeActionsInSteps } from '../features/code-actions.ts';
import { codeLensesOf, lensUri, resolveCodeLens } from '../features/code-lens.ts';
import { coloursOf, presentationsOf } from '../features/colours.ts';
import { completionsAt, completionUri, resolveCompletion } from '../features/completion.ts';
import { definitionAt, highlightsAt, referencesAt } from '../features/definition.ts';
import { diagnosticsInSteps } from '../features/diagnostics.ts';
import { docsText } from '../features/docs.ts';
import { documentLinksOf } from '../features/document-links.ts';
import { foldingRangesInSteps } from '../features/folding.ts';
import { formattingInSteps } from '../features/formatting.ts';
import { madeFrom, prepareHierarchyAt, usersOf } from '../features/hierarchy.ts';
import { hoverAt } from '../features/hover.ts';
import { hintUri, inlayHintsInSteps, resolveHint } from '../features/inlay-hints.ts';
import { implementationsAt, typeDefinitionAt } from '../features/kin.ts';
import { linkedEditingAt } from '../features/linked-editing.ts';
import { editsForMoves } from '../features/move-files.ts';
import { onTypeFormattingInSteps, rangesFormattingInSteps } from '../features/on-type.ts';
import {
  cutListFile,
  cutListOf,
  isFormat,
  isLayoutFormat,
  isOrderFormat,
  isPaper,
  isPatternFormat,
  kerfRefused,
  layoutFiles,
  layoutsOf,
  orderListFile,
  orderOf,
  type PaperFile,
  patternsFile,
  patternsOf,
} from '../features/papers.ts';
import { documentReport } from '../features/pulled-diagnostics.ts';
import { prepareRenameAt, RenameRefused, renameAt } from '../features/rename.ts';
import { selectionRangesAt } from '../features/selection-range.ts';
import { semanticTokensInSteps } from '../features/semantic-tokens.ts';
import { signatureHelpAt } from '../features/signature-help.ts';
import { summaryOf } from '../features/summary.ts';
import { documentSymbolsInSteps, workspaceSymbolsOf } from '../features/symbols.ts';
import { TokenDeltas } from '../features/token-deltas.ts';
import { withoutMarkup } from '../text/markdown.ts';
import { type ClientAnswers, ClientFiles } from '../workspace/client-files.ts';
import { DEFAULT_SETTINGS, readSettings, type Settings } from '../workspace/settings.ts';
import { type FileHost, type FolderEntry, sameUri, type View, Workspace } from '../workspace/workspace.ts';
import { abilitiesOf, type ClientAbilities, capabilitiesFor } from './abilities.ts';
import { type ProgressAsk, type Told, withProgress } from './progress.ts';
import { type Course, GivenUp, Turns } from './turns.ts';

/** What the program around the server gives it: the server itself knows no file system and no clock. */
export interface Surroundings {
  /** Files as this program reaches them. `roots` are the folders that may be read. */
  files(roots: () => readonly string[], client: ClientFiles): FileHost;
  fonts: Fonts;
  /** `2027-03-01` */
  today(): string;
  version?: string;
  /** Hears the options that the editor starts the server with, which then waits for it. */
  begin?(options: unknown): Promise<void>;
  /** Lets pass one turn of whatever brings messages. */
  turn(): Promise<void>;
}

/**
 * Long enough to take a burst of keys as one, short enough not to be felt. Only where a round takes so long that the next
 * key would wait for it: what is quick is told at once.
 */
const SETTLE_MS = 15;
const QUICK_MS = 8;

/** A server on a connection, ready to be asked. */
export function startServer(connection: Connection, surroundings: Surroundings): void {
  new Server(connection, surroundings).listen();
}

class Server {
  private readonly files: FileHost;
  private readonly workspace: Workspace;
  private readonly turns: Turns;
  private readonly tokens = new TokenDeltas();
  private readonly settings = new Map<string, Settings>();
  private pushedSettings: Settings = DEFAULT_SETTINGS;
  private folders: string[] = [];
  private client: ClientAbilities = abilitiesOf(undefined);
  private readonly published = new Map<string, { readonly version: number; readonly diagnostics: Diagnostic[] }>();
  /** How long the last round of diagnostics took, ms. */
  private lastRound = 0;
  /** Texts that changed, and others that a change of these reaches: of all of them it has to be said anew what is wrong. */
  private readonly dirty = new Set<string>();
  private readonly reached = new Set<string>();
  private isPublishing = false;
  /** Something else than a key changed what is known: a file, a setting, a folder. */
  private outside = false;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly surroundings: Surroundings,
  ) {
    this.files = surroundings.files(() => this.roots(), new ClientFiles(this.clientAnswers()));
    this.workspace = new Workspace(this.files, (uri) => this.settingsOf(uri).checks);
    this.turns = new Turns(surroundings.turn);
    this.workspace.resting = () => this.turns.resting();
  }

  listen(): void {
    this.listenToLife();
    this.listenToTexts();
    this.answerReading();
    this.answerKin();
    this.answerLenses();
    this.answerWriting();
    this.answerMoves();
    this.answerPulls();
    this.answerOwn();
    this.connection.listen();
  }

  // ---- start, settings, folders ------------------------------------------------------------------------------------

  private listenToLife(): void {
    const { connection } = this;
    connection.onInitialize((params) => this.initialize(params));
    connection.onInitialized(() => {
      if (this.client.configuration && this.client.registersConfiguration)
        this.quietly(connection.client.register(DidChangeConfigurationNotification.type, { section: 'planish' }));
      if (this.client.registersWatchers && !this.client.readsFiles)
        this.quietly(
          connection.client.register(DidChangeWatchedFilesNotification.type, {
            watchers: [{ globPattern: '**/*.{planish,svg,dxf}' }],
          }),
        );
      if (this.client.folders)
        connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) =>
          this.guard('workspace folders', () => {
            const gone = new Set(removed.map(({ uri }) => sameUri(uri)));
            this.folders = [...this.folders.filter((uri) => !gone.has(sameUri(uri))), ...added.map(({ uri }) => uri)];
            for (const { uri } of [...added, ...removed]) this.files.forget?.(uri);
            this.workspace.changed();
            this.outside = true;
            this.schedule(this.workspace.openUris());
          }),
        );
    });
    connection.onDidChangeConfiguration((params) =>
      this.guard('settings', () => {
        this.pushedSettings = readSettings((params?.settings as Record<string, unknown> | undefined)?.['planish']);
        this.settings.clear();
        void this.refreshSettings();
      }),
    );
    connection.onDidChangeWatchedFiles((params) =>
      this.guard('changed files', () => {
        const uris = params.changes.map(({ uri }) => uri).filter((uri) => !this.workspace.isOpen(uri));
        for (const uri of uris) this.workspace.fileChanged(uri);
        this.outside = true;
        this.schedule(uris.flatMap((uri) => this.workspace.affectedBy(uri)));
      }),
    );
  }

  private async initialize(params: InitializeParams): Promise<InitializeResult> {
    this.client = abilitiesOf(params);
    this.workspace.encoding = this.client.encoding;
    this.folders = params.workspaceFolders?.map(({ uri }) => uri) ?? (params.rootUri ? [params.rootUri] : []);
    await this.surroundings.begin?.(params.initializationOptions);
    return {
      serverInfo: {
        name: 'Planish',
        ...(this.surroundings.version ? { version: this.surroundings.version } : {}),
      },
      capabilities: capabilitiesFor(this.client),
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
    const { connection } = this;
    return {
      text: async (uri) => {
        if (!this.client.readsFiles) return null;
        const answer = await connection.sendRequest<{ text?: string; why?: string } | null>('planish/readFile', {
          uri,
        });
        if (typeof answer?.text === 'string') return answer.text;
        return typeof answer?.why === 'string' ? { why: answer.why } : null;
      },
      specs: async () => {
        if (!this.client.findsSpecs) return [];
        const answer = await connection.sendRequest<{ uris: string[] }>('planish/findSpecs');
        return answer.uris.filter((uri) => typeof uri === 'string');
      },
      entries: async (folder) => {
        if (!this.client.listsFolders) return [];
        await this.watch(folder);
        const answer = await connection.sendRequest<{ entries: FolderEntry[] }>('planish/listFolder', { uri: folder });
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
      .catch((error: unknown) => this.log('the editor', error));
  }
  private readonly watched = new Set<string>();

  private settingsOf(uri: string): Settings {
    return this.settings.get(sameUri(uri)) ?? this.pushedSettings;
  }

  private async loadSettings(uri: string): Promise<void> {
    if (!this.client.configuration || this.settings.has(sameUri(uri))) return;
    try {
      const given = await this.connection.workspace.getConfiguration({ scopeUri: uri, section: 'planish' });
      if (!this.workspace.isOpen(uri)) return;
      const settings = readSettings(given);
      const changes = JSON.stringify(settings) !== JSON.stringify(this.settingsOf(uri));
      this.settings.set(sameUri(uri), settings);
      if (changes) this.workspace.changed();
    } catch (error) {
      this.log('settings', error);
    }
  }

  private async refreshSettings(): Promise<void> {
    this.workspace.changed();
    this.outside = true;
    const uris = this.workspace.openUris();
    await Promise.all(uris.map((uri) => this.loadSettings(uri)));
    this.schedule(uris);
    if (this.client.refreshesHints) this.quietly(this.connection.languages.inlayHint.refresh());
    if (this.client.refreshesLenses) this.quietly(this.connection.sendRequest(CodeLensRefreshRequest.type));
  }

  // ---- texts and their diagnostics ---------------------------------------------------------------------------------

  private listenToTexts(): void {
    const { connection, workspace } = this;
    connection.onDidOpenTextDocument(({ textDocument }) =>
      this.guard('open', () => {
        workspace.open(textDocument.uri, textDocument.version, textDocument.text);
        void this.loadSettings(textDocument.uri).then(() => this.schedule(workspace.affectedBy(textDocument.uri), 0));
      }),
    );
    connection.onDidChangeTextDocument(({ textDocument, contentChanges }) =>
      this.guard('change', () => {
        workspace.change(textDocument.uri, textDocument.version, contentChanges);
        this.schedule([textDocument.uri]);
      }),
    );
    connection.onDidCloseTextDocument(({ textDocument }) =>
      this.guard('close', () => {
        const others = workspace
          .affectedBy(textDocument.uri)
          .filter((uri) => sameUri(uri) !== sameUri(textDocument.uri));
        workspace.close(textDocument.uri);
        this.settings.delete(sameUri(textDocument.uri));
        this.dirty.delete(textDocument.uri);
        this.reached.delete(textDocument.uri);
        this.published.delete(textDocument.uri);
        this.tokens.forget(textDocument.uri);
        if (!this.client.pullsDiagnostics)
          this.quietly(connection.sendDiagnostics({ uri: textDocument.uri, diagnostics: [] }));
        this.schedule(others);
      }),
    );
  }

  private schedule(uris: readonly string[], delay = this.lastRound < QUICK_MS ? 0 : SETTLE_MS): void {
    for (const uri of uris) this.dirty.add(uri);
    if (!this.dirty.size) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.publishDirty(), delay);
  }

  /** Text by text, the one that was typed in first, until there is none left. What changes meanwhile is looked at in the same round. */
  private async publishDirty(): Promise<void> {
    if (this.client.pullsDiagnostics) {
      const uris = [...this.dirty];
      this.dirty.clear();
      this.askToPull(uris);
      return;
    }
    if (this.isPublishing) return;
    this.isPublishing = true;
    try {
      await this.withProgress({ title: 'Looking through the specs', cancellable: false }, NEVER, async (_, told) => {
        for (let done = 1; this.dirty.size + this.reached.size; done++) {
          const [uri] = this.dirty.size ? this.dirty : this.reached;
          await this.publishNext(uri!);
          const left = this.dirty.size + this.reached.size;
          told(done / (done + left), shortNameOf(uri!));
          // Keys typed meanwhile go first.
          if (left) await this.turns.pass();
        }
      });
    } finally {
      this.isPublishing = false;
    }
  }

  private async publishNext(uri: string): Promise<void> {
    const isTyped = this.dirty.delete(uri);
    this.reached.delete(uri);
    const started = performance.now();
    try {
      await this.publish(uri);
      if (!isTyped) return;
      this.lastRound = performance.now() - started;
      for (const other of this.workspace.affectedBy(uri))
        if (!this.dirty.has(other) && other !== uri) this.reached.add(other);
    } catch (error) {
      this.log('diagnostics', error);
    }
  }

  /** The editor asks again about what it changed itself; of what else that reaches it has to be told. */
  private askToPull(uris: readonly string[]): void {
    const reaches = this.outside || uris.length > 1 || uris.some((uri) => this.workspace.affectedBy(uri).length > 1);
    this.outside = false;
    if (reaches && this.client.refreshesDiagnostics) this.quietly(this.connection.languages.diagnostics.refresh());
  }

  private async publish(uri: string): Promise<void> {
    // Nobody mends what comes with Planish.
    if (isLibrary(uri)) return;
    const { workspace } = this;
    const options = { linksToDocs: this.client.textContent };
    const found = await this.steadily(uri, function* (view) {
      const diagnostics = yield* diagnosticsInSteps(view, options);
      return { diagnostics, version: workspace.version(uri) };
    });
    // Closed meanwhile.
    if (found?.version === undefined) return;
    const { version, diagnostics } = found;
    const told = this.published.get(uri);
    // Of a new version it is said again even where it is the same: editors move what they show along with what is typed, and
    // a word that is pasted over by itself leaves its mark behind; and some let fall what was said of another version.
    // It costs next to nothing: 2 ms for 436 problems, at a spec of 10,000 lines.
    if (told?.version === version && sameList(told.diagnostics, diagnostics)) return;
    this.published.set(uri, { version, diagnostics });
    await this.connection.sendDiagnostics({ uri, version, diagnostics: this.forClient(diagnostics) });
  }

  private forClient(diagnostics: Diagnostic[]): Diagnostic[] {
    if (this.client.relatedInformation) return diagnostics;
    return diagnostics.map(({ relatedInformation: _, ...rest }) => rest);
  }

  // ---- what the protocol asks --------------------------------------------------------------------------------------

  private answerReading(): void {
    const { connection } = this;
    connection.onHover((params, token) =>
      this.answer(
        'hover',
        params,
        token,
        null,
        (view) =>
          hoverAt(view, params.position, { markdown: this.client.markdownHover, pictures: this.client.pictures }) ??
          null,
        { judged: true },
      ),
    );
    connection.onCompletion((params, token) =>
      this.answer('completion', params, token, [], (view) =>
        this.completionItems(
          completionsAt(view, params.position, {
            snippets: this.client.snippets,
            replaces: this.client.replaces,
            trigger: params.context?.triggerCharacter,
          }),
        ),
      ),
    );
    connection.onCompletionResolve((item, token) =>
      this.answer(
        'completion',
        completionUri(item),
        token,
        item,
        (view) => this.completionItems([resolveCompletion(view, item)])[0] ?? item,
      ),
    );
    connection.onSignatureHelp((params, token) =>
      this.answer('signature help', params, token, null, (view) => signatureHelpAt(view, params.position) ?? null),
    );
    connection.onDefinition((params, token) =>
      this.answer('definition', params, token, [], (view): LocationLink[] | Location[] => {
        return this.linksTo(definitionAt(view, params.position));
      }),
    );
    connection.onReferences((params, token, reporter) =>
      this.answer(
        'references',
        params,
        token,
        [],
        (view) =>
          mapped(referencesAt(view, params.position, params.context.includeDeclaration), (found) =>
            found.filter(({ uri }) => this.canShow(uri)),
          ),
        { title: READING, reporter },
      ),
    );
    connection.onDocumentHighlight((params, token) =>
      this.answer('highlight', params, token, [], (view) => highlightsAt(view, params.position)),
    );
    connection.onDocumentSymbol((params, token) =>
      this.answer<DocumentSymbol[] | SymbolInformation[]>('outline', params, token, [], (view) => {
        const all = documentSymbolsInSteps(view);
        if (this.client.nestedSymbols) return all;
        return mapped(all, (symbols) =>
          symbols.map(
            ({ name, kind, range }): SymbolInformation => ({ name, kind, location: { uri: view.uri, range } }),
          ),
        );
      }),
    );
    connection.onWorkspaceSymbol((params, token, reporter) =>
      this.attempt('workspace symbols', token, [], () =>
        this.withProgress({ title: READING, reporter }, token, (cancelled, told) =>
          this.throughSpecs(
            function* (server, specs) {
              const found = yield* workspaceSymbolsOf(server.workspace, specs, params.query);
              return found.filter(({ location }) => server.canShow(location.uri));
            },
            { token: cancelled, told },
          ),
        ),
      ),
    );
    connection.onFoldingRanges((params, token) =>
      this.answer('folding', params, token, [], (view) => foldingRangesInSteps(view)),
    );
    connection.onSelectionRanges((params, token) =>
      this.answer('selection', params, token, [], (view) => selectionRangesAt(view, params.positions)),
    );
    connection.onDocumentLinks((params, token) =>
      this.answer('links', params, token, [], (view) =>
        documentLinksOf(view).filter(({ target }) => target !== undefined && this.canShow(target)),
      ),
    );
    connection.languages.semanticTokens.on((params, token) =>
      this.answer('semantic tokens', params, token, { data: [] }, (view) =>
        mapped(semanticTokensInSteps(view), (all) => this.tokens.whole(view.uri, all)),
      ),
    );
    connection.languages.semanticTokens.onDelta((params, token) =>
      this.answer<SemanticTokens | SemanticTokensDelta>('semantic tokens', params, token, { data: [] }, (view) =>
        mapped(semanticTokensInSteps(view), (all) => this.tokens.since(view.uri, params.previousResultId, all)),
      ),
    );
    connection.languages.semanticTokens.onRange((params, token) =>
      this.answer('semantic tokens', params, token, { data: [] }, (view) => semanticTokensInSteps(view, params.range)),
    );
    connection.languages.inlayHint.on((params, token) =>
      this.answer('inlay hints', params, token, [], (view) =>
        inlayHintsInSteps(view, params.range, this.settingsOf(view.uri).hints, { lazily: this.client.resolvesHints }),
      ),
    );
    connection.languages.inlayHint.resolve((hint, token) =>
      this.answer('inlay hints', hintUri(hint), token, hint, (view) => resolveHint(view, hint)),
    );
    if (TextDocumentContentRequest)
      connection.onRequest(TextDocumentContentRequest.type, (params, token) =>
        this.attempt('documentation', token, { text: '' }, () => ({ text: docsText(params.uri) ?? '' })),
      );
  }

  /** From a thing to what it is, is made of, and is made from it. */
  private answerKin(): void {
    const { connection } = this;
    connection.onDeclaration((params, token) =>
      this.answer('declaration', params, token, [], (view) => this.linksTo(definitionAt(view, params.position))),
    );
    connection.onTypeDefinition((params, token) =>
      this.answer('type definition', params, token, [], (view) =>
        this.linksTo(typeDefinitionAt(view, params.position)),
      ),
    );
    connection.onImplementation((params, token, reporter) =>
      this.answer(
        'implementation',
        params,
        token,
        [],
        (view) => mapped(implementationsAt(view, params.position), (links) => this.linksTo(links)),
        { title: READING, reporter },
      ),
    );
    const { callHierarchy } = connection.languages;
    callHierarchy.onPrepare((params, token) =>
      this.answer('hierarchy', params, token, null, (view) => prepareHierarchyAt(view, params.position)),
    );
    callHierarchy.onIncomingCalls(({ item }, token, reporter) =>
      this.answer(
        'hierarchy',
        item.uri,
        token,
        [],
        (view) => mapped(usersOf(view, item), (users) => users.filter(({ from }) => this.canShow(from.uri))),
        { title: READING, reporter },
      ),
    );
    callHierarchy.onOutgoingCalls(({ item }, token) =>
      this.answer('hierarchy', item.uri, token, [], (view) =>
        madeFrom(view, item).filter(({ to }) => this.canShow(to.uri)),
      ),
    );
  }

  private linksTo(all: LocationLink[]): LocationLink[] | Location[] {
    const links = all.filter(({ targetUri }) => this.canShow(targetUri));
    return this.client.links ? links : links.map((link) => ({ uri: link.targetUri, range: link.targetSelectionRange }));
  }

  private answerLenses(): void {
    const { connection } = this;
    connection.onCodeLens((params, token) =>
      this.answer('lenses', params, token, [], (view) => (this.settingsOf(view.uri).lenses ? codeLensesOf(view) : [])),
    );
    connection.onCodeLensResolve((lens, token) =>
      this.answer('lens', lensUri(lens), token, lens, (view) => resolveCodeLens(view, lens, this.client)),
    );
    connection.onDocumentColor((params, token) => this.answer('colours', params, token, [], (view) => coloursOf(view)));
    connection.onColorPresentation((params, token) =>
      this.attempt('colours', token, [], () => presentationsOf(params.range, params.color)),
    );
    connection.languages.onLinkedEditingRange((params, token) =>
      this.answer('linked editing', params, token, null, (view) => linkedEditingAt(view, params.position)),
    );
  }

  private answerWriting(): void {
    const { connection } = this;
    connection.onDocumentFormatting((params, token) =>
      this.answer('formatting', params, token, [], (view) => formattingInSteps(view)),
    );
    connection.onDocumentRangeFormatting((params, token) =>
      this.answer('formatting', params, token, [], (view) => formattingInSteps(view, params.range)),
    );
    connection.onCodeAction((params, token) =>
      this.answer(
        'code actions',
        params,
        token,
        [],
        (view) => codeActionsInSteps(view, params.range, params.context.diagnostics, params.context.only, this.client),
        { judged: true },
      ),
    );
    connection.onDocumentOnTypeFormatting((params, token) =>
      this.answer('formatting', params, token, [], (view) => onTypeFormattingInSteps(view, params.position)),
    );
    connection.onRequest(DocumentRangesFormattingRequest.type, (params, token) =>
      this.answer('formatting', params, token, [], (view) => rangesFormattingInSteps(view, params.ranges)),
    );
    connection.onPrepareRename((params, token) =>
      this.answer('rename', params, token, null, (view) => prepareRenameAt(view, params.position)),
    );
    connection.onRenameRequest((params, token, reporter) => {
      this.workspace.lookAgain();
      return this.answer<WorkspaceEdit | null>(
        'rename',
        params,
        token,
        null,
        (view) => renameAt(view, params.position, params.newName),
        { title: READING, reporter },
      );
    });
  }

  /** Files that are about to move: the `use` lines that lead to them move along. */
  private answerMoves(): void {
    this.connection.workspace.onWillRenameFiles((params, token) =>
      this.plainly<WorkspaceEdit | null>(
        this.attempt<WorkspaceEdit | null>('moved files', token, null, () =>
          this.withProgress({ title: READING }, token, (cancelled, told) =>
            this.throughSpecs((server, specs) => editsForMoves(server.workspace, specs, params.files), {
              token: cancelled,
              told,
            }),
          ),
        ),
      ),
    );
  }

  private answerPulls(): void {
    const { connection } = this;
    connection.languages.diagnostics.on((params, token) =>
      this.plainly(
        this.attempt<DocumentDiagnosticReport>('diagnostics', token, { kind: 'full', items: [] }, async () => {
          const { uri } = params.textDocument;
          await this.loadSettings(uri);
          const items = await this.steadily(uri, (view) => this.diagnosticsFor(view), { token });
          return documentReport(items ?? [], params.previousResultId);
        }),
      ),
    );
    connection.onRequest(
      WorkspaceDiagnosticRequest.method,
      (params: WorkspaceDiagnosticParams, token: CancellationToken) =>
        this.attempt<WorkspaceDiagnosticReport>('diagnostics', token, { items: [] }, async () => {
          const items: WorkspaceDocumentDiagnosticReport[] = [];
          const { partialResultToken } = params;
          const heard = (report: WorkspaceDocumentDiagnosticReport) =>
            partialResultToken === undefined
              ? items.push(report)
              : void connection.sendProgress(WorkspaceDiagnosticRequest.partialResult, partialResultToken, {
                  items: [report],
                });
          const asked = { title: 'Looking through the specs', reporter: this.reporterOf(params) };
          await this.withProgress(asked, token, async (cancelled, told) => {
            const previous = new Map(params.previousResultIds.map(({ uri, value }) => [sameUri(uri), value]));
            const uris = [...new Map((await this.workspace.specs()).map((uri) => [sameUri(uri), uri])).values()];
            for (const [done, uri] of uris.entries()) {
              await this.turns.pass(cancelled);
              const report = await this.reportOn(uri, previous, cancelled);
              if (report) heard(report);
              told((done + 1) / uris.length, shortNameOf(uri));
            }
          });
          return { items };
        }),
    );
  }

  private async reportOn(
    uri: string,
    previous: ReadonlyMap<string, string>,
    token: CancellationToken,
  ): Promise<WorkspaceDocumentDiagnosticReport | undefined> {
    const { workspace } = this;
    const judged = (view: View) => this.diagnosticsFor(view);
    return this.steadily(
      uri,
      function* (view): Steps<WorkspaceDocumentDiagnosticReport> {
        const report = documentReport(yield* judged(view), previous.get(sameUri(view.uri)));
        const version = workspace.version(uri) ?? null;
        return { ...report, uri: view.uri, version } as WorkspaceDocumentDiagnosticReport;
      },
      { token },
    );
  }

  private *diagnosticsFor(view: View): Steps<Diagnostic[]> {
    if (isLibrary(view.uri)) return [];
    return this.forClient(yield* diagnosticsInSteps(view, { linksToDocs: this.client.textContent }));
  }

  private completionItems(items: CompletionItem[]): CompletionItem[] {
    if (this.client.markdownCompletion) return items;
    return items.map((item) =>
      typeof item.documentation === 'object'
        ? { ...item, documentation: withoutMarkup(item.documentation.value) }
        : item,
    );
  }

  // ---- what only our client asks -----------------------------------------------------------------------------------

  private answerOwn(): void {
    const { connection } = this;
    connection.onRequest('planish/alive', (...given: unknown[]) =>
      this.attempt('alive', tokenOf(given), null, () => null),
    );
    connection.onRequest('planish/summary', (params: { uri: string }, token: CancellationToken) =>
      this.answer('summary', params.uri, token, null, (view) => summaryOf(view), { judged: true }),
    );
    connection.onRequest('planish/explain', (params: { uri: string; name?: string }, token: CancellationToken) =>
      this.answer<Explained | null>(
        'explain',
        params.uri,
        token,
        null,
        (view) =>
          explainInSteps(view.model, {
            file: view.uri,
            problems: view.problems(),
            ...(params.name === undefined ? {} : { names: [params.name] }),
          }),
        { judged: true },
      ),
    );
    connection.onRequest('planish/starters', (...given: unknown[]) =>
      this.attempt('starters', tokenOf(given), [], () => starters()),
    );
    connection.onRequest('planish/newBuild', (params: { from?: unknown } | null, token: CancellationToken) =>
      this.attempt('new build', token, null, () => {
        const files = typeof params?.from === 'string' ? starter(params.from) : undefined;
        if (files) return { files };
        throw new ResponseError<void>(ErrorCodes.InvalidParams, `There is no starter build “${String(params?.from)}”.`);
      }),
    );
    connection.onRequest('planish/patterns', (params: CutAsk & { paper?: string }, token: CancellationToken) => {
      const { to, paper, kerf } = params;
      if (!isPatternFormat(to))
        return new ResponseError(ErrorCodes.InvalidParams, `Patterns cannot be written as “${to}”.`);
      if (paper !== undefined && !isPaper(paper))
        return new ResponseError(ErrorCodes.InvalidParams, `Patterns cannot be set on “${paper}”.`);
      const refused = kerfRefused(kerf, to);
      if (refused) return new ResponseError(ErrorCodes.InvalidParams, refused);
      const asked = { to, ...(paper === undefined ? {} : { paper }) };
      const read = (view: View, date: string) => patternsOf(view, date, kerf === true);
      return this.paper('patterns', 'Drawing the patterns', params, token, read, (made, run) =>
        patternsFile(params.uri, made, asked, this.surroundings.fonts, run),
      );
    });
    connection.onRequest('planish/layouts', (params: CutAsk, token: CancellationToken) => {
      const { to, kerf } = params;
      if (!isLayoutFormat(to))
        return new ResponseError(ErrorCodes.InvalidParams, `Sheet layouts cannot be written as “${to}”.`);
      const refused = kerfRefused(kerf, to);
      if (refused) return new ResponseError(ErrorCodes.InvalidParams, refused);
      const read = (view: View, date: string) => layoutsOf(view, date, kerf === true);
      return this.paper('sheet layouts', 'Laying out the sheets', params, token, read, (made, run) =>
        layoutFiles(params.uri, made, to, run),
      );
    });
    connection.onRequest('planish/cutList', (params: PaperAsk, token: CancellationToken) => {
      const { to } = params;
      if (!isFormat(to)) return new ResponseError(ErrorCodes.InvalidParams, `A cut list cannot be written as “${to}”.`);
      return this.paper('cut list', 'Making the cut list', params, token, cutListOf, (made, run) =>
        cutListFile(params.uri, made, to, this.surroundings.fonts, run),
      );
    });
    connection.onRequest('planish/orderList', (params: PaperAsk, token: CancellationToken) => {
      const { to } = params;
      if (!isOrderFormat(to))
        return new ResponseError(ErrorCodes.InvalidParams, `An order list cannot be written as “${to}”.`);
      return this.paper('order list', 'Making the order list', params, token, orderOf, (made, run) =>
        orderListFile(params.uri, made, to, this.surroundings.fonts, run),
      );
    });
  }

  /** A paper: first what the spec says, then the writing of it, which hangs on no text any more. */
  private paper<T, F = PaperFile>(
    what: string,
    title: string,
    params: PaperAsk,
    token: CancellationToken,
    read: (view: View, date: string) => Steps<T>,
    write: (made: T, run: Runner) => Promise<F>,
  ): Promise<F | ResponseError<void>> {
    const unreadable = new ResponseError<void>(LSPErrorCodes.RequestFailed, 'This spec could not be read.');
    return this.attempt<F | ResponseError<void>>(what, token, unreadable, () =>
      this.withProgress({ title, reporter: this.reporterOf(params) }, token, async (cancelled, told) => {
        const course = (from: number, to: number): Course => ({
          token: cancelled,
          told: (share) => told(from + (to - from) * share),
        });
        const date = this.surroundings.today();
        const made = await this.steadily(params.uri, (view) => read(view, date), course(0, 0.3));
        if (made === undefined) return unreadable;
        return write(made, (steps) => this.turns.through(steps, course(0.3, 1)));
      }),
    );
  }

  /** The stock that comes with Planish is no file: only an editor that takes texts from a server can open it. */
  private canShow(uri: string): boolean {
    return this.client.textContent || !isLibrary(uri);
  }

  // ---- no question brings the server down --------------------------------------------------------------------------

  /** A question about one spec. What `ask` gives may be steps: then others may go first between two of them. */
  private async answer<T>(
    what: string,
    asked: string | Asked,
    token: CancellationToken,
    empty: T,
    ask: (view: View) => T | Steps<T>,
    { judged = false, title, reporter }: AnswerOptions = {},
  ): Promise<T | ResponseError<void>> {
    return this.attempt(what, token, empty, async () => {
      const uri = typeof asked === 'string' ? asked : asked?.textDocument?.uri;
      if (typeof uri !== 'string') throw new ResponseError(ErrorCodes.InvalidParams, 'Which document?');
      // A place counts from the text as it was when the question came.
      const version = this.workspace.version(uri);
      const holds = hasPlace(asked) ? () => this.workspace.version(uri) === version : undefined;
      const steps = function* (view: View): Steps<T> {
        if (judged) yield* view.problemsInSteps();
        const answer = ask(view);
        return isSteps(answer) ? yield* answer : answer;
      };
      const work = async (cancelled: CancellationToken, told?: (share: number) => void) =>
        (await this.steadily(uri, steps, { token: cancelled, ...(told ? { told } : {}) }, holds)) ?? empty;
      return title === undefined ? work(token) : this.withProgress({ title, reporter }, token, work);
    });
  }

  /**
   * Works something out of a spec as it stands, in turns. Where a text changes meanwhile, or where a file was missing that the
   * editor was still to bring, it begins again, and finds kept what still holds; unless what was asked about is then no longer there. Nothing where there is no such spec.
   */
  private async steadily<T>(
    uri: string,
    steps: (view: View) => Steps<T>,
    course: Course = {},
    stillHolds: () => boolean = () => true,
  ): Promise<T | undefined> {
    for (let start = 1; ; start++) {
      await this.reading(uri, course);
      const view = await this.workspace.ready(uri);
      if (course.token?.isCancellationRequested) throw new GivenUp('cancelled');
      if (!stillHolds()) throw new GivenUp('changed');
      if (!view) return undefined;
      // Somebody types faster than this can be worked out: once in one go.
      if (start === MOST_STARTS) return atOnce(steps(view));
      const { revision } = this.workspace;
      try {
        const answer = await this.turns.through(
          patientlyThrough(() => steps(view)),
          {
            ...course,
            holds: () => this.workspace.revision === revision,
          },
        );
        if (!(await this.workspace.missed())) return answer;
      } catch (error) {
        const isOver = error instanceof GivenUp ? error.why !== 'changed' : !(await this.workspace.missed());
        if (isOver) throw error;
      }
    }
  }

  /** Reads a long text that was opened. Where it changes meanwhile, what has been read of it still counts. */
  private async reading(uri: string, { token }: Course): Promise<void> {
    const { workspace } = this;
    for (;;) {
      const version = workspace.version(uri);
      const holds = () => workspace.version(uri) === version;
      try {
        return await this.turns.through(workspace.reading(uri), token ? { token, holds } : { holds });
      } catch (error) {
        if (!(error instanceof GivenUp) || error.why !== 'changed') throw error;
      }
    }
  }

  /** The same for what looks at many specs. */
  private async throughAll<T>(steps: () => Steps<T>, course: Course): Promise<T> {
    for (let start = 1; start < MOST_STARTS; start++) {
      const { revision } = this.workspace;
      try {
        return await this.turns.through(patientlyThrough(steps), {
          ...course,
          holds: () => this.workspace.revision === revision,
        });
      } catch (error) {
        if (!(error instanceof GivenUp) || error.why !== 'changed') throw error;
      }
    }
    return atOnce(steps());
  }

  /** The same for what looks at every spec of the open folders: all are fetched before. */
  private async throughSpecs<T>(
    steps: (server: this, specs: readonly string[]) => Steps<T>,
    course: { readonly token: CancellationToken; readonly told: Told },
  ): Promise<T> {
    const specs = await this.workspace.specs();
    for (const [done, uri] of specs.entries()) {
      await this.turns.pass(course.token);
      await this.workspace.ready(uri);
      course.told(done / specs.length, shortNameOf(uri));
    }
    return this.throughAll(() => steps(this, specs), course);
  }

  private withProgress<T>(
    asked: ProgressAsk,
    token: CancellationToken,
    work: (token: CancellationToken, told: Told) => Promise<T>,
  ): Promise<T> {
    return withProgress(this.connection, { ...asked, creates: this.client.createsProgress }, token, work);
  }

  private reporterOf({ workDoneToken }: WorkDoneProgressParams): WorkDoneProgressReporter | undefined {
    return workDoneToken === undefined ? undefined : this.connection.window.attachWorkDoneProgress(workDoneToken);
  }

  /** As {@link attempt}, where the protocol library wants an error of its own kind. */
  private plainly<T>(answer: Promise<T | ResponseError<void>>): Promise<T> {
    return answer as Promise<T>;
  }

  private async attempt<T>(
    what: string,
    token: CancellationToken,
    empty: T,
    ask: () => T | Promise<T>,
  ): Promise<T | ResponseError<void>> {
    if (token.isCancellationRequested) return cancelled();
    this.turns.heard();
    this.connection.tracer.log(`Asked: ${what}.`);
    try {
      const answer = await ask();
      return token.isCancellationRequested ? cancelled() : answer;
    } catch (error) {
      // Whatever went wrong in work that nobody wants any more.
      if (token.isCancellationRequested) return cancelled();
      if (error instanceof GivenUp)
        return error.why === 'cancelled'
          ? cancelled()
          : new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed meanwhile.');
      if (error instanceof ResponseError) return error;
      if (error instanceof RenameRefused) return new ResponseError(LSPErrorCodes.RequestFailed, error.message);
      this.log(what, error);
      return empty;
    }
  }

  private guard(what: string, run: () => void): void {
    this.turns.heard();
    try {
      run();
    } catch (error) {
      this.log(what, error);
    }
  }

  private quietly(promise: Promise<unknown>): void {
    promise.catch((error: unknown) => this.log('the editor', error));
  }

  private log(what: string, error: unknown): void {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    this.connection.console.error(`${what}: ${text}`);
  }
}

/** What a question about a text brings, as far as it matters to all of them. */
type Asked = { readonly textDocument?: { readonly uri?: unknown } | null } | null | undefined;

interface AnswerOptions {
  /** It asks what is wrong with the spec, which is worked out before: that may take long. */
  readonly judged?: boolean;
  /** It may read every spec there is, and this is what the editor is told then. */
  readonly title?: string;
  readonly reporter?: WorkDoneProgressReporter;
}

interface PaperAsk extends WorkDoneProgressParams {
  readonly uri: string;
  readonly to: string;
}

/** What is cut may be moved half the kerf into the waste. */
interface CutAsk extends PaperAsk {
  readonly kerf?: unknown;
}

/** Whether anything is asked along or not, the token comes last. */
const tokenOf = (given: readonly unknown[]): CancellationToken => given[given.length - 1] as CancellationToken;

const hasPlace = (asked: unknown): boolean =>
  typeof asked === 'object' && asked !== null && PLACES.some((place) => place in asked);
const PLACES = ['position', 'positions', 'range', 'ranges'] as const;

function isSteps<T>(answer: T | Steps<T>): answer is Steps<T> {
  return typeof answer === 'object' && answer !== null && Symbol.iterator in answer && 'next' in answer;
}

const cancelled = (): ResponseError<void> => new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');

/** What is told while every spec of the open folders is read. */
const READING = 'Reading the specs';
const NEVER = CancellationToken.None;
/** So often something is begun again before it is worked out in one go. */
const MOST_STARTS = 20;

const shortNameOf = (uri: string): string => uri.slice(uri.lastIndexOf('/') + 1);

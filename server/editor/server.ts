import {
  type CancellationToken,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  TextDocumentContentRequest,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import type {
  CompletionItem,
  Diagnostic,
  Location,
  LocationLink,
  SymbolInformation,
} from 'vscode-languageserver-types';
import { isLibrary } from '../model/library.ts';
import { explain } from '../output/explain.ts';
import type { Fonts } from '../output/writers.ts';
import { starter, starters } from '../starters.ts';
import { ClientFiles } from './client-files.ts';
import { CODE_ACTION_KINDS, codeActionsIn } from './code-actions.ts';
import { completionsAt } from './completion.ts';
import { definitionAt, highlightsAt, referencesAt } from './definition.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { docsText, TEXT_SCHEMES } from './docs.ts';
import { documentLinksOf } from './document-links.ts';
import { foldingRangesOf } from './folding.ts';
import { formattingOf } from './formatting.ts';
import { hoverAt } from './hover.ts';
import { inlayHintsIn } from './inlay-hints.ts';
import { withoutMarkup } from './markdown.ts';
import { cutListFileOf, isFormat } from './papers.ts';
import { prepareRenameAt, RenameRefused, renameAt } from './rename.ts';
import { selectionRangesAt } from './selection-range.ts';
import { semanticTokensOf, TOKEN_MODIFIERS, TOKEN_TYPES } from './semantic-tokens.ts';
import { DEFAULT_SETTINGS, readSettings, type Settings } from './settings.ts';
import { signatureHelpAt } from './signature-help.ts';
import { summaryOf } from './summary.ts';
import { documentSymbolsOf, workspaceSymbolsOf } from './symbols.ts';
import { type FileHost, sameUri, type View, Workspace } from './workspace.ts';

/** What the program around the server gives it: the server itself knows no file system and no clock. */
export interface Surroundings {
  /** Files as this program reaches them. `roots` are the folders that may be read. */
  files(roots: () => readonly string[], client: ClientFiles): FileHost;
  fonts: Fonts;
  /** `2027-03-01` */
  today(): string;
  version?: string;
  /** Hears the options that the editor starts the server with. */
  begin?(options: unknown): void;
}

/** Long enough to take a burst of keys as one, short enough not to be felt. */
const SETTLE_MS = 15;

/** A server on a connection, ready to be asked. */
export function startServer(connection: Connection, surroundings: Surroundings): void {
  new Server(connection, surroundings).listen();
}

class Server {
  private readonly workspace: Workspace;
  private readonly settings = new Map<string, Settings>();
  private pushedSettings: Settings = DEFAULT_SETTINGS;
  private folders: string[] = [];
  private client: ClientAbilities = abilitiesOf(undefined);
  private readonly published = new Map<string, string>();
  private readonly dirty = new Set<string>();
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly surroundings: Surroundings,
  ) {
    const files = surroundings.files(() => this.roots(), new ClientFiles((uri) => this.fetch(uri)));
    this.workspace = new Workspace(files, (uri) => this.settingsOf(uri).checks);
  }

  listen(): void {
    this.listenToLife();
    this.listenToTexts();
    this.answerReading();
    this.answerWriting();
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
            watchers: [{ globPattern: '**/*.planish' }],
          }),
        );
      if (this.client.folders)
        connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) =>
          this.guard('workspace folders', () => {
            const gone = new Set(removed.map(({ uri }) => sameUri(uri)));
            this.folders = [...this.folders.filter((uri) => !gone.has(sameUri(uri))), ...added.map(({ uri }) => uri)];
            this.workspace.changed();
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
        this.schedule(uris.flatMap((uri) => this.workspace.affectedBy(uri)));
      }),
    );
  }

  private initialize(params: InitializeParams): InitializeResult {
    this.client = abilitiesOf(params);
    this.surroundings.begin?.(params.initializationOptions);
    this.folders = params.workspaceFolders?.map(({ uri }) => uri) ?? (params.rootUri ? [params.rootUri] : []);
    return {
      serverInfo: {
        name: 'Planish',
        ...(this.surroundings.version ? { version: this.surroundings.version } : {}),
      },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        hoverProvider: true,
        completionProvider: { triggerCharacters: ['.', '"', '/', ' ', ','] },
        signatureHelpProvider: { triggerCharacters: [','] },
        definitionProvider: true,
        referencesProvider: true,
        documentHighlightProvider: true,
        documentSymbolProvider: true,
        workspaceSymbolProvider: true,
        codeActionProvider: { codeActionKinds: [...CODE_ACTION_KINDS] },
        documentFormattingProvider: true,
        documentRangeFormattingProvider: true,
        renameProvider: this.client.preparesRename ? { prepareProvider: true } : true,
        foldingRangeProvider: true,
        selectionRangeProvider: true,
        documentLinkProvider: {},
        semanticTokensProvider: {
          legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
          full: true,
          range: true,
        },
        inlayHintProvider: true,
        workspace: {
          workspaceFolders: { supported: true, changeNotifications: true },
          ...(this.client.textContent ? { textDocumentContent: { schemes: [...TEXT_SCHEMES] } } : {}),
        },
      },
    };
  }

  /** The open folders; and for a spec that lies in none of them, its own. */
  private roots(): readonly string[] {
    const alone = this.workspace
      .openUris()
      .filter(
        (uri) => !this.folders.some((folder) => sameUri(uri).startsWith(`${sameUri(folder).replace(/\/+$/, '')}/`)),
      )
      .map((uri) => sameUri(uri).replace(/\/[^/]*$/, ''))
      .filter((folder) => /^[a-z][a-z0-9+.-]*:\/\/.*\/./i.test(folder));
    return [...this.folders, ...alone];
  }

  private async fetch(uri: string): Promise<string | null> {
    if (!this.client.readsFiles) return null;
    const answer = await this.connection.sendRequest<{ text: string } | null>('planish/readFile', { uri });
    return typeof answer?.text === 'string' ? answer.text : null;
  }

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
    const uris = this.workspace.openUris();
    await Promise.all(uris.map((uri) => this.loadSettings(uri)));
    this.schedule(uris);
    if (this.client.refreshesHints) this.quietly(this.connection.languages.inlayHint.refresh());
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
        this.published.delete(textDocument.uri);
        this.quietly(connection.sendDiagnostics({ uri: textDocument.uri, diagnostics: [] }));
        this.schedule(others);
      }),
    );
  }

  private schedule(uris: readonly string[], delay = SETTLE_MS): void {
    for (const uri of uris) this.dirty.add(uri);
    if (!this.dirty.size) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.publishDirty(), delay);
  }

  private async publishDirty(): Promise<void> {
    const uris = [...this.dirty];
    this.dirty.clear();
    const others = new Set<string>();
    for (const uri of uris) {
      try {
        await this.publish(uri);
        for (const other of this.workspace.affectedBy(uri)) if (!uris.includes(other)) others.add(other);
      } catch (error) {
        this.log('diagnostics', error);
      }
    }
    for (const uri of others) {
      // Keys typed meanwhile go first.
      await new Promise((next) => setTimeout(next));
      try {
        await this.publish(uri);
      } catch (error) {
        this.log('diagnostics', error);
      }
    }
  }

  private async publish(uri: string): Promise<void> {
    const view = await this.workspace.ready(uri);
    const version = this.workspace.version(uri);
    // Nobody mends what comes with Planish.
    if (!view || version === undefined || isLibrary(uri)) return;
    const diagnostics = diagnosticsOf(view, { linksToDocs: this.client.textContent });
    // A text that changed while its files were fetched will be looked at again.
    if (this.workspace.version(uri) !== version) return;
    const told = `${version} ${JSON.stringify(diagnostics)}`;
    if (this.published.get(uri) === told) return;
    this.published.set(uri, told);
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
        params.textDocument.uri,
        token,
        null,
        (view) =>
          hoverAt(view, params.position, { markdown: this.client.markdownHover, pictures: this.client.pictures }) ??
          null,
      ),
    );
    connection.onCompletion((params, token) =>
      this.answer('completion', params.textDocument.uri, token, [], (view) =>
        this.completionItems(
          completionsAt(view, params.position, {
            snippets: this.client.snippets,
            trigger: params.context?.triggerCharacter,
          }),
        ),
      ),
    );
    connection.onSignatureHelp((params, token) =>
      this.answer(
        'signature help',
        params.textDocument.uri,
        token,
        null,
        (view) => signatureHelpAt(view, params.position) ?? null,
      ),
    );
    connection.onDefinition((params, token) =>
      this.answer('definition', params.textDocument.uri, token, [], (view): LocationLink[] | Location[] => {
        const links = definitionAt(view, params.position).filter(({ targetUri }) => this.canShow(targetUri));
        return this.client.links
          ? links
          : links.map((link) => ({ uri: link.targetUri, range: link.targetSelectionRange }));
      }),
    );
    connection.onReferences((params, token) =>
      this.answer('references', params.textDocument.uri, token, [], (view) =>
        referencesAt(view, params.position, params.context.includeDeclaration).filter(({ uri }) => this.canShow(uri)),
      ),
    );
    connection.onDocumentHighlight((params, token) =>
      this.answer('highlight', params.textDocument.uri, token, [], (view) => highlightsAt(view, params.position)),
    );
    connection.onDocumentSymbol((params, token) =>
      this.answer('outline', params.textDocument.uri, token, [], (view) => {
        const symbols = documentSymbolsOf(view);
        if (this.client.nestedSymbols) return symbols;
        return symbols.map(
          ({ name, kind, range }): SymbolInformation => ({ name, kind, location: { uri: view.uri, range } }),
        );
      }),
    );
    connection.onWorkspaceSymbol((params, token) =>
      this.attempt('workspace symbols', token, [], () => workspaceSymbolsOf(this.workspace, params.query)),
    );
    connection.onFoldingRanges((params, token) =>
      this.answer('folding', params.textDocument.uri, token, [], (view) => foldingRangesOf(view)),
    );
    connection.onSelectionRanges((params, token) =>
      this.answer('selection', params.textDocument.uri, token, [], (view) => selectionRangesAt(view, params.positions)),
    );
    connection.onDocumentLinks((params, token) =>
      this.answer('links', params.textDocument.uri, token, [], (view) =>
        documentLinksOf(view).filter(({ target }) => target !== undefined && this.canShow(target)),
      ),
    );
    connection.languages.semanticTokens.on((params, token) =>
      this.answer('semantic tokens', params.textDocument.uri, token, { data: [] }, (view) => semanticTokensOf(view)),
    );
    connection.languages.semanticTokens.onRange((params, token) =>
      this.answer('semantic tokens', params.textDocument.uri, token, { data: [] }, (view) =>
        semanticTokensOf(view, params.range),
      ),
    );
    connection.languages.inlayHint.on((params, token) =>
      this.answer('inlay hints', params.textDocument.uri, token, [], (view) =>
        inlayHintsIn(view, params.range, this.settingsOf(view.uri).hints),
      ),
    );
    if (TextDocumentContentRequest)
      connection.onRequest(TextDocumentContentRequest.type, (params, token) =>
        this.attempt('documentation', token, { text: '' }, () => ({ text: docsText(params.uri) ?? '' })),
      );
  }

  private answerWriting(): void {
    const { connection } = this;
    connection.onDocumentFormatting((params, token) =>
      this.answer('formatting', params.textDocument.uri, token, [], (view) => formattingOf(view)),
    );
    connection.onDocumentRangeFormatting((params, token) =>
      this.answer('formatting', params.textDocument.uri, token, [], (view) => formattingOf(view, params.range)),
    );
    connection.onCodeAction((params, token) =>
      this.answer('code actions', params.textDocument.uri, token, [], (view) =>
        codeActionsIn(view, params.range, params.context.diagnostics, params.context.only),
      ),
    );
    connection.onPrepareRename((params, token) =>
      this.answer('rename', params.textDocument.uri, token, null, (view) => prepareRenameAt(view, params.position)),
    );
    connection.onRenameRequest((params, token) =>
      this.answer('rename', params.textDocument.uri, token, null, (view) =>
        renameAt(view, params.position, params.newName),
      ),
    );
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
    connection.onRequest('planish/summary', (params: { uri: string }, token: CancellationToken) =>
      this.answer('summary', params.uri, token, null, (view) => summaryOf(view)),
    );
    connection.onRequest('planish/explain', (params: { uri: string; name?: string }, token: CancellationToken) =>
      this.answer('explain', params.uri, token, null, (view) =>
        explain(view.model, {
          file: view.uri,
          problems: view.problems(),
          ...(params.name === undefined ? {} : { names: [params.name] }),
        }),
      ),
    );
    connection.onRequest('planish/starters', () => starters());
    connection.onRequest('planish/newBuild', (params: { from?: unknown } | null) => {
      const files = typeof params?.from === 'string' ? starter(params.from) : undefined;
      return files
        ? { files }
        : new ResponseError(ErrorCodes.InvalidParams, `There is no starter build “${String(params?.from)}”.`);
    });
    connection.onRequest('planish/cutList', async (params: { uri: string; to: string }, token: CancellationToken) => {
      const { to } = params;
      if (!isFormat(to)) return new ResponseError(ErrorCodes.InvalidParams, `A cut list cannot be written as “${to}”.`);
      const made = await this.answer('cut list', params.uri, token, null, (view) =>
        cutListFileOf(view, to, this.surroundings.today(), this.surroundings.fonts),
      );
      return made ?? new ResponseError(LSPErrorCodes.RequestFailed, 'This spec could not be read.');
    });
  }

  /** The stock that comes with Planish is no file: only an editor that takes texts from a server can open it. */
  private canShow(uri: string): boolean {
    return this.client.textContent || !isLibrary(uri);
  }

  // ---- no question brings the server down --------------------------------------------------------------------------

  private async answer<T>(
    what: string,
    uri: string,
    token: CancellationToken,
    empty: T,
    ask: (view: View) => T | Promise<T>,
  ): Promise<T | ResponseError<void>> {
    return this.attempt(what, token, empty, async () => {
      const view = await this.workspace.ready(uri);
      return view && !token.isCancellationRequested ? ask(view) : empty;
    });
  }

  private async attempt<T>(
    what: string,
    token: CancellationToken,
    empty: T,
    ask: () => T | Promise<T>,
  ): Promise<T | ResponseError<void>> {
    try {
      const answer = await ask();
      return token.isCancellationRequested ? new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled') : answer;
    } catch (error) {
      if (error instanceof RenameRefused) return new ResponseError(LSPErrorCodes.RequestFailed, error.message);
      this.log(what, error);
      return empty;
    }
  }

  private guard(what: string, run: () => void): void {
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

/** What the editor at the other end can do. */
interface ClientAbilities {
  readonly readsFiles: boolean;
  readonly configuration: boolean;
  readonly registersConfiguration: boolean;
  readonly registersWatchers: boolean;
  readonly folders: boolean;
  readonly textContent: boolean;
  readonly markdownHover: boolean;
  /** No ability of the protocol says it, so an editor says it when it starts the server. */
  readonly pictures: boolean;
  readonly markdownCompletion: boolean;
  readonly snippets: boolean;
  readonly links: boolean;
  readonly nestedSymbols: boolean;
  readonly preparesRename: boolean;
  readonly relatedInformation: boolean;
  readonly refreshesHints: boolean;
}

function abilitiesOf(params: InitializeParams | undefined): ClientAbilities {
  const text = params?.capabilities.textDocument;
  const workspace = params?.capabilities.workspace;
  const options = params?.initializationOptions as { readsFiles?: unknown; pictures?: unknown } | undefined;
  const item = text?.completion?.completionItem;
  return {
    readsFiles: options?.readsFiles === true,
    configuration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatchers: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    folders: workspace?.workspaceFolders === true,
    textContent: workspace?.textDocumentContent !== undefined,
    pictures: options?.pictures === true,
    markdownHover: text?.hover?.contentFormat?.includes('markdown') ?? true,
    markdownCompletion: item?.documentationFormat?.includes('markdown') ?? true,
    snippets: item?.snippetSupport === true,
    links: text?.definition?.linkSupport === true,
    nestedSymbols: text?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    preparesRename: text?.rename?.prepareSupport === true,
    relatedInformation: text?.publishDiagnostics?.relatedInformation !== false,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
  };
}

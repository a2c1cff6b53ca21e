import {
  type CancellationToken,
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
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type {
  CompletionItem,
  Diagnostic,
  Location,
  LocationLink,
  SemanticTokens,
  SemanticTokensDelta,
  SymbolInformation,
  WorkspaceEdit,
} from 'vscode-languageserver-types';
import { isLibrary } from '../model/library.ts';
import { sameList } from '../model/memo.ts';
import { explain } from '../output/explain.ts';
import type { Fonts } from '../output/writers.ts';
import { starter, starters } from '../starters.ts';
import { abilitiesOf, type ClientAbilities, capabilitiesFor } from './abilities.ts';
import { ClientFiles } from './client-files.ts';
import { codeActionsIn } from './code-actions.ts';
import { codeLensesOf, lensUri, resolveCodeLens } from './code-lens.ts';
import { coloursOf, presentationsOf } from './colours.ts';
import { completionsAt, completionUri, resolveCompletion } from './completion.ts';
import { definitionAt, highlightsAt, referencesAt } from './definition.ts';
import { diagnosticsOf } from './diagnostics.ts';
import { docsText } from './docs.ts';
import { documentLinksOf } from './document-links.ts';
import { foldingRangesOf } from './folding.ts';
import { formattingOf } from './formatting.ts';
import { madeFrom, prepareHierarchyAt, usersOf } from './hierarchy.ts';
import { hoverAt } from './hover.ts';
import { hintUri, inlayHintsIn, resolveHint } from './inlay-hints.ts';
import { implementationsAt, typeDefinitionAt } from './kin.ts';
import { linkedEditingAt } from './linked-editing.ts';
import { withoutMarkup } from './markdown.ts';
import { editsForMoves } from './move-files.ts';
import { onTypeFormattingAt, rangesFormattingOf } from './on-type.ts';
import { cutListFileOf, isFormat, isPaper, isPatternFormat, patternsFileOf } from './papers.ts';
import { documentReport, reportWorkspace } from './pulled-diagnostics.ts';
import { prepareRenameAt, RenameRefused, renameAt } from './rename.ts';
import { selectionRangesAt } from './selection-range.ts';
import { semanticTokensOf } from './semantic-tokens.ts';
import { DEFAULT_SETTINGS, readSettings, type Settings } from './settings.ts';
import { signatureHelpAt } from './signature-help.ts';
import { summaryOf } from './summary.ts';
import { documentSymbolsOf, workspaceSymbolsOf } from './symbols.ts';
import { TokenDeltas } from './token-deltas.ts';
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
  private readonly tokens = new TokenDeltas();
  private readonly settings = new Map<string, Settings>();
  private pushedSettings: Settings = DEFAULT_SETTINGS;
  private folders: string[] = [];
  private client: ClientAbilities = abilitiesOf(undefined);
  private readonly published = new Map<string, { readonly version: number; readonly diagnostics: Diagnostic[] }>();
  /** How long the last round of diagnostics took, ms. */
  private lastRound = 0;
  private readonly dirty = new Set<string>();
  /** Something else than a key changed what is known: a file, a setting, a folder. */
  private outside = false;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly connection: Connection,
    private readonly surroundings: Surroundings,
  ) {
    this.files = surroundings.files(() => this.roots(), new ClientFiles((uri) => this.fetch(uri)));
    this.workspace = new Workspace(this.files, (uri) => this.settingsOf(uri).checks);
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

  private initialize(params: InitializeParams): InitializeResult {
    this.client = abilitiesOf(params);
    this.workspace.encoding = this.client.encoding;
    this.surroundings.begin?.(params.initializationOptions);
    this.folders = params.workspaceFolders?.map(({ uri }) => uri) ?? (params.rootUri ? [params.rootUri] : []);
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

  private async publishDirty(): Promise<void> {
    const uris = [...this.dirty];
    this.dirty.clear();
    if (this.client.pullsDiagnostics) {
      this.askToPull(uris);
      return;
    }
    const others = new Set<string>();
    const started = performance.now();
    for (const uri of uris) {
      try {
        await this.publish(uri);
        this.lastRound = performance.now() - started;
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

  /** The editor asks again about what it changed itself; of what else that reaches it has to be told. */
  private askToPull(uris: readonly string[]): void {
    const reaches = this.outside || uris.length > 1 || uris.some((uri) => this.workspace.affectedBy(uri).length > 1);
    this.outside = false;
    if (reaches && this.client.refreshesDiagnostics) this.quietly(this.connection.languages.diagnostics.refresh());
  }

  private async publish(uri: string): Promise<void> {
    const view = await this.workspace.ready(uri);
    const version = this.workspace.version(uri);
    // Nobody mends what comes with Planish, and an editor that asks is not told unasked.
    if (!view || version === undefined || isLibrary(uri) || this.client.pullsDiagnostics) return;
    const diagnostics = diagnosticsOf(view, { linksToDocs: this.client.textContent });
    // A text that changed while its files were fetched will be looked at again.
    if (this.workspace.version(uri) !== version) return;
    const told = this.published.get(uri);
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
        return this.linksTo(definitionAt(view, params.position));
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
      this.answer('semantic tokens', params.textDocument.uri, token, { data: [] }, (view) =>
        this.tokens.whole(view.uri, semanticTokensOf(view)),
      ),
    );
    connection.languages.semanticTokens.onDelta((params, token) =>
      this.answer<SemanticTokens | SemanticTokensDelta>(
        'semantic tokens',
        params.textDocument.uri,
        token,
        { data: [] },
        (view) => this.tokens.since(view.uri, params.previousResultId, semanticTokensOf(view)),
      ),
    );
    connection.languages.semanticTokens.onRange((params, token) =>
      this.answer('semantic tokens', params.textDocument.uri, token, { data: [] }, (view) =>
        semanticTokensOf(view, params.range),
      ),
    );
    connection.languages.inlayHint.on((params, token) =>
      this.answer('inlay hints', params.textDocument.uri, token, [], (view) =>
        inlayHintsIn(view, params.range, this.settingsOf(view.uri).hints, { lazily: this.client.resolvesHints }),
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
      this.answer('declaration', params.textDocument.uri, token, [], (view) =>
        this.linksTo(definitionAt(view, params.position)),
      ),
    );
    connection.onTypeDefinition((params, token) =>
      this.answer('type definition', params.textDocument.uri, token, [], (view) =>
        this.linksTo(typeDefinitionAt(view, params.position)),
      ),
    );
    connection.onImplementation((params, token) =>
      this.answer('implementation', params.textDocument.uri, token, [], (view) =>
        this.linksTo(implementationsAt(view, params.position)),
      ),
    );
    const { callHierarchy } = connection.languages;
    callHierarchy.onPrepare((params, token) =>
      this.answer('hierarchy', params.textDocument.uri, token, null, (view) =>
        prepareHierarchyAt(view, params.position),
      ),
    );
    callHierarchy.onIncomingCalls(({ item }, token) =>
      this.answer('hierarchy', item.uri, token, [], (view) =>
        usersOf(view, item).filter(({ from }) => this.canShow(from.uri)),
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
      this.answer('lenses', params.textDocument.uri, token, [], (view) =>
        this.settingsOf(view.uri).lenses ? codeLensesOf(view) : [],
      ),
    );
    connection.onCodeLensResolve((lens, token) =>
      this.answer('lens', lensUri(lens), token, lens, (view) => resolveCodeLens(view, lens, this.client)),
    );
    connection.onDocumentColor((params, token) =>
      this.answer('colours', params.textDocument.uri, token, [], (view) => coloursOf(view)),
    );
    connection.onColorPresentation((params) => presentationsOf(params.range, params.color));
    connection.languages.onLinkedEditingRange((params, token) =>
      this.answer('linked editing', params.textDocument.uri, token, null, (view) =>
        linkedEditingAt(view, params.position),
      ),
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
        codeActionsIn(view, params.range, params.context.diagnostics, params.context.only, this.client),
      ),
    );
    connection.onDocumentOnTypeFormatting((params, token) =>
      this.answer('formatting', params.textDocument.uri, token, [], (view) =>
        onTypeFormattingAt(view, params.position),
      ),
    );
    connection.onRequest(DocumentRangesFormattingRequest.type, (params, token) =>
      this.answer('formatting', params.textDocument.uri, token, [], (view) => rangesFormattingOf(view, params.ranges)),
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

  /** Files that are about to move: the `use` lines that lead to them move along. */
  private answerMoves(): void {
    this.connection.workspace.onWillRenameFiles((params, token) =>
      this.plainly<WorkspaceEdit | null>(
        this.attempt('moved files', token, null, async () => {
          const specs = this.specs();
          for (const uri of specs) await this.workspace.ready(uri);
          return editsForMoves(this.workspace, specs, params.files);
        }),
      ),
    );
  }

  /** Every spec that is open or lies in the open folders. */
  private specs(): string[] {
    return [...this.workspace.openUris(), ...(this.files.specs?.() ?? [])];
  }

  private answerPulls(): void {
    const { diagnostics } = this.connection.languages;
    diagnostics.on((params, token) =>
      this.plainly(
        this.answer<DocumentDiagnosticReport>(
          'diagnostics',
          params.textDocument.uri,
          token,
          { kind: 'full', items: [] },
          async (view) => {
            await this.loadSettings(view.uri);
            const now = this.workspace.view(view.uri) ?? view;
            return documentReport(this.diagnosticsFor(now), params.previousResultId);
          },
        ),
      ),
    );
    diagnostics.onWorkspace((params, token, progress, results) =>
      this.plainly(
        this.attempt<WorkspaceDiagnosticReport>('diagnostics', token, { items: [] }, async () => {
          const items: WorkspaceDocumentDiagnosticReport[] = [];
          progress.begin('Planish', 0, undefined, true);
          await reportWorkspace({
            workspace: this.workspace,
            specs: this.specs(),
            previous: new Map(params.previousResultIds.map(({ uri, value }) => [sameUri(uri), value])),
            token,
            diagnosticsOf: (view) => this.diagnosticsFor(view),
            heard: (report, done, of) => {
              progress.report(Math.round((100 * done) / of), shortNameOf(report.uri));
              if (results) results.report({ items: [report] });
              else items.push(report);
            },
          });
          progress.done();
          return { items };
        }),
      ),
    );
  }

  private diagnosticsFor(view: View): Diagnostic[] {
    return isLibrary(view.uri) ? [] : this.forClient(diagnosticsOf(view, { linksToDocs: this.client.textContent }));
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
    connection.onRequest(
      'planish/patterns',
      async (params: { uri: string; to: string; paper?: string }, token: CancellationToken) => {
        const { to, paper } = params;
        if (!isPatternFormat(to))
          return new ResponseError(ErrorCodes.InvalidParams, `Patterns cannot be written as “${to}”.`);
        if (paper !== undefined && !isPaper(paper))
          return new ResponseError(ErrorCodes.InvalidParams, `Patterns cannot be set on “${paper}”.`);
        const made = await this.answer('patterns', params.uri, token, null, (view) =>
          patternsFileOf(
            view,
            { to, ...(paper === undefined ? {} : { paper }) },
            this.surroundings.today(),
            this.surroundings.fonts,
          ),
        );
        return made ?? new ResponseError(LSPErrorCodes.RequestFailed, 'This spec could not be read.');
      },
    );
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

const shortNameOf = (uri: string): string => uri.slice(uri.lastIndexOf('/') + 1);

import type { InitializeParams } from 'vscode-languageserver';
import type { Encoding } from '../workspace/encoding.ts';

/** What the editor at the other end can do. */
export interface ClientAbilities {
  readonly readsFiles: boolean;
  /** It finds the specs of its folders where the server cannot. */
  readonly findsSpecs: boolean;
  /** It says what lies in a folder where the server cannot look itself. */
  readonly listsFolders: boolean;
  /** It has the commands that our lenses call. */
  readonly commands: boolean;
  readonly configuration: boolean;
  readonly registersConfiguration: boolean;
  readonly registersWatchers: boolean;
  readonly watchesOneFolder: boolean;
  readonly folders: boolean;
  readonly textContent: boolean;
  readonly markdownHover: boolean;
  /** No ability of the protocol says it, so an editor says it when it starts the server. */
  readonly pictures: boolean;
  readonly markdownCompletion: boolean;
  readonly snippets: boolean;
  readonly replaces: boolean;
  readonly links: boolean;
  readonly nestedSymbols: boolean;
  readonly preparesRename: boolean;
  readonly relatedInformation: boolean;
  readonly resolvesHints: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  /** It asks for diagnostics itself, and does not wait to be told them. */
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly createsFiles: boolean;
  readonly snippetEdits: boolean;
  /** It shows an edit before it makes it, where that is asked for. */
  readonly confirmsEdits: boolean;
  readonly renamesFiles: boolean;
  /** It shows how far the server has come with work that nobody asked to be told of. */
  readonly createsProgress: boolean;
  readonly encoding: Encoding;
}

export function abilitiesOf(params: InitializeParams | undefined): ClientAbilities {
  const text = params?.capabilities.textDocument;
  const workspace = params?.capabilities.workspace;
  const options = params?.initializationOptions as Readonly<Record<string, unknown>> | undefined;
  const item = text?.completion?.completionItem;
  return {
    readsFiles: options?.['readsFiles'] === true,
    findsSpecs: options?.['findsSpecs'] === true,
    listsFolders: options?.['listsFolders'] === true,
    commands: options?.['commands'] === true,
    configuration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatchers: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    watchesOneFolder: workspace?.didChangeWatchedFiles?.relativePatternSupport === true,
    folders: workspace?.workspaceFolders === true,
    textContent: workspace?.textDocumentContent !== undefined,
    pictures: options?.['pictures'] === true,
    markdownHover: text?.hover?.contentFormat?.includes('markdown') ?? true,
    markdownCompletion: item?.documentationFormat?.includes('markdown') ?? true,
    snippets: item?.snippetSupport === true,
    replaces: item?.insertReplaceSupport === true,
    links: text?.definition?.linkSupport === true,
    nestedSymbols: text?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    preparesRename: text?.rename?.prepareSupport === true,
    relatedInformation: text?.publishDiagnostics?.relatedInformation !== false,
    resolvesHints: text?.inlayHint?.resolveSupport?.properties.includes('tooltip') === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    // Our own client is told: the server knows best which other specs a change reaches.
    pullsDiagnostics: text?.diagnostic !== undefined && options?.['diagnostics'] !== 'push',
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    createsFiles:
      workspace?.workspaceEdit?.documentChanges === true &&
      (workspace.workspaceEdit.resourceOperations?.includes('create') ?? false),
    snippetEdits:
      workspace?.workspaceEdit?.documentChanges === true && workspace.workspaceEdit.snippetEditSupport === true,
    confirmsEdits:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.changeAnnotationSupport !== undefined,
    renamesFiles: workspace?.fileOperations?.willRename === true,
    createsProgress: params?.capabilities.window?.workDoneProgress === true,
    encoding: encodingOf(params?.capabilities.general?.positionEncodings),
  };
}

/** The first that we both know, as the editor ranks them. */
const encodingOf = (offered: readonly string[] = []): Encoding =>
  offered.find((each): each is Encoding => ENCODINGS.has(each)) ?? 'utf-16';

const ENCODINGS = new Set<string>(['utf-8', 'utf-16', 'utf-32']);

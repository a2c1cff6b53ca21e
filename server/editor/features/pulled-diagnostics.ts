import type { DocumentDiagnosticReport } from 'vscode-languageserver';
import {
  type CancellationToken,
  DocumentDiagnosticRequest,
  WorkspaceDiagnosticRequest,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';
import type { Steps } from '../../incremental/steps.ts';
import { type Answering, type Feature, plain } from '../protocol/feature.ts';
import { sameUri, shortNameOf } from '../workspace/workspace.ts';
import { diagnosticsFor } from './diagnostics.ts';

export const feature: Feature = {
  capability: ({ pullsDiagnostics }) =>
    pullsDiagnostics
      ? {
          diagnosticProvider: {
            identifier: 'planish',
            interFileDependencies: true,
            workspaceDiagnostics: true,
            workDoneProgress: true,
          },
        }
      : {},
  requests: [
    plain(DocumentDiagnosticRequest.type, {
      what: 'diagnostics',
      empty: { kind: 'full', items: [] },
      async answer({ textDocument: { uri }, previousResultId }, server, token) {
        await server.loadSettings(uri);
        const items = await server.steadily(uri, (view) => diagnosticsFor(view, server.client), { token });
        return documentReport(items ?? [], previousResultId);
      },
    }),
    plain(WorkspaceDiagnosticRequest.type, {
      what: 'diagnostics',
      empty: { items: [] },
      async answer(params, server, token) {
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        const { partialResultToken } = params;
        const heard = (report: WorkspaceDocumentDiagnosticReport) =>
          partialResultToken === undefined
            ? items.push(report)
            : void server.connection.sendProgress(WorkspaceDiagnosticRequest.partialResult, partialResultToken, {
                items: [report],
              });
        const asked = { title: 'Looking through the specs', reporter: server.reporterOf(params) };
        await server.withProgress(asked, token, async (cancelled, told) => {
          const previous = new Map(params.previousResultIds.map(({ uri, value }) => [sameUri(uri), value]));
          const uris = [...new Map((await server.workspace.specs()).map((uri) => [sameUri(uri), uri])).values()];
          for (const [done, uri] of uris.entries()) {
            await server.turns.pass(cancelled);
            const report = await reportOn(server, uri, previous, cancelled);
            if (report) heard(report);
            told((done + 1) / uris.length, shortNameOf(uri));
          }
        });
        return { items };
      },
    }),
  ],
};

function reportOn(
  server: Answering,
  uri: string,
  previous: ReadonlyMap<string, string>,
  token: CancellationToken,
): Promise<WorkspaceDocumentDiagnosticReport | undefined> {
  const { workspace, client } = server;
  return server.steadily(
    uri,
    function* (view): Steps<WorkspaceDocumentDiagnosticReport> {
      const report = documentReport(yield* diagnosticsFor(view, client), previous.get(sameUri(view.uri)));
      const version = workspace.version(uri) ?? null;
      return { ...report, uri: view.uri, version } as WorkspaceDocumentDiagnosticReport;
    },
    { token },
  );
}

/*
 * Diagnostics for an editor that asks for them, of one spec or of every spec in the open folders. What it has already
 * is not sent again.
 */

/** A name for a set of diagnostics: the same set, the same name. FNV-1a over their texts, in base 36. */
function resultIdOf(diagnostics: readonly Diagnostic[]): string {
  const hash = diagnostics.reduce((hash, each) => Math.imul(hash ^ hashOf(each), PRIME), SEED);
  return `${(hash >>> 0).toString(36)}-${diagnostics.length.toString(36)}`;
}

const SEED = 0x811c9dc5;
const PRIME = 0x01000193;
/** Diagnostics that stand as they stood are the same objects. */
const hashes = new WeakMap<Diagnostic, number>();

function hashOf(diagnostic: Diagnostic): number {
  let hash = hashes.get(diagnostic);
  if (hash === undefined) {
    const text = JSON.stringify(diagnostic);
    hash = SEED;
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), PRIME);
    hashes.set(diagnostic, hash);
  }
  return hash;
}

function documentReport(items: Diagnostic[], previous: string | undefined): DocumentDiagnosticReport {
  const resultId = resultIdOf(items);
  return previous === resultId ? { kind: 'unchanged', resultId } : { kind: 'full', resultId, items };
}

import type { DocumentDiagnosticReport } from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';

/*
 * Diagnostics for an editor that asks for them, of one spec or of every spec in the open folders. What it has already
 * is not sent again.
 */

/** A name for a set of diagnostics: the same set, the same name. FNV-1a over their texts, in base 36. */
export function resultIdOf(diagnostics: readonly Diagnostic[]): string {
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

export function documentReport(items: Diagnostic[], previous: string | undefined): DocumentDiagnosticReport {
  const resultId = resultIdOf(items);
  return previous === resultId ? { kind: 'unchanged', resultId } : { kind: 'full', resultId, items };
}

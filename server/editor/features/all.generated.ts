// Made by npm run generate from the files of this folder. Do not edit.
import type { Feature } from '../protocol/feature.ts';
import { feature as alive } from './alive.ts';
import { feature as assembly } from './assembly.ts';
import { feature as codeActions } from './code-actions.ts';
import { feature as codeLens } from './code-lens.ts';
import { feature as colours } from './colours.ts';
import { feature as completion } from './completion.ts';
import { feature as definition } from './definition.ts';
import { feature as docs } from './docs.ts';
import { feature as documentLinks } from './document-links.ts';
import { feature as explain } from './explain.ts';
import { feature as exports } from './exports.ts';
import { feature as folding } from './folding.ts';
import { feature as formatting } from './formatting.ts';
import { feature as hierarchy } from './hierarchy.ts';
import { feature as hover } from './hover.ts';
import { feature as inlayHints } from './inlay-hints.ts';
import { feature as kin } from './kin.ts';
import { feature as linkedEditing } from './linked-editing.ts';
import { feature as moveFiles } from './move-files.ts';
import { feature as onType } from './on-type.ts';
import { feature as pulledDiagnostics } from './pulled-diagnostics.ts';
import { feature as rename } from './rename.ts';
import { feature as selectionRange } from './selection-range.ts';
import { feature as semanticTokens } from './semantic-tokens.ts';
import { feature as signatureHelp } from './signature-help.ts';
import { feature as starters } from './starters.ts';
import { feature as summary } from './summary.ts';
import { feature as symbols } from './symbols.ts';

export const features: readonly Feature[] = [
  alive,
  assembly,
  codeActions,
  codeLens,
  colours,
  completion,
  definition,
  docs,
  documentLinks,
  explain,
  exports,
  folding,
  formatting,
  hierarchy,
  hover,
  inlayHints,
  kin,
  linkedEditing,
  moveFiles,
  onType,
  pulledDiagnostics,
  rename,
  selectionRange,
  semanticTokens,
  signatureHelp,
  starters,
  summary,
  symbols,
];

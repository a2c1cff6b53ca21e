// Every export from end to end: what is asked for, the paper from the server, a place for it.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { LayoutFiles, PaperFile } from '../server/requests.ts';
import { askForPaper, settle } from './ask-for-paper.ts';
import { offers } from './exports.generated.ts';
import type { ExportRequest, Offer } from './offer.ts';
import { savePaper } from './save-paper.ts';
import { saveParts } from './save-parts.ts';

/** The commands of all exports. */
export const exportCommands = (client: BaseLanguageClient): vscode.Disposable[] =>
  offers().map((offer) =>
    vscode.commands.registerCommand(offer.command, (request: ExportRequest | vscode.Uri = {}) =>
      run(client, offer, request),
    ),
  );

/**
 * Gives the place of the written file, or undefined where nothing was written; of an export that is several files the places
 * of all of them, or none.
 */
async function run(
  client: BaseLanguageClient,
  offer: Offer,
  request: ExportRequest | vscode.Uri,
): Promise<vscode.Uri | vscode.Uri[] | undefined> {
  const settled = await settle(request, offer);
  if (!settled) return offer.parts ? [] : undefined;
  const { spec, to, paper, kerf } = settled;
  const asked = {
    to,
    ...(paper ? { paper } : {}),
    ...(offer.kerf ? { kerf: kerf ?? (to !== 'pdf' && wantsKerf(spec)) } : {}),
  };
  return offer.parts
    ? saveParts(await askForPaper<LayoutFiles>(client, offer, spec, asked), settled, offer.title, offer.parts)
    : savePaper(await askForPaper<PaperFile>(client, offer, spec, asked), settled, offer.title, offer.written!);
}

/** A cutter that allows for the kerf itself must not be given it twice: so it is the shop's to set. */
const wantsKerf = (spec: vscode.Uri): boolean =>
  vscode.workspace.getConfiguration('planish', spec).get('export.kerf', false);

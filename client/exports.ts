// Every export from end to end: shown, or what is asked for, the paper from the server, a place for it.
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { LayoutFiles, PaperFile } from '../server/requests.ts';
import { askForPaper, optionsOf, settle, specOf } from './ask-for-paper.ts';
import { offers } from './exports.generated.ts';
import type { ExportRequest, Offer } from './offer.ts';
import type { Papers } from './papers/panel.ts';
import { savePaper } from './save-paper.ts';
import { saveParts } from './save-parts.ts';

/** The commands of all exports. */
export const exportCommands = (client: BaseLanguageClient, papers: Papers): vscode.Disposable[] =>
  offers().flatMap((offer) => [
    vscode.commands.registerCommand(offer.command, (request: ExportRequest | vscode.Uri = {}) =>
      run(client, offer, request),
    ),
    vscode.commands.registerCommand(offer.show, (request: ExportRequest | vscode.Uri = {}) => {
      const spec = specOf(request);
      if (spec) papers.show(offer, spec);
    }),
  ]);

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
  const asked = { ...optionsOf(offer, spec, to, kerf), ...(paper ? { paper } : {}) };
  return offer.parts
    ? saveParts(await askForPaper<LayoutFiles>(client, offer, spec, asked), settled, offer)
    : savePaper(await askForPaper<PaperFile>(client, offer, spec, asked), settled, offer);
}

// The extension in a browser: the same server as a web worker.
import * as vscode from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { activate as activateShared, type Planish } from './extension.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const programs = vscode.Uri.joinPath(context.extensionUri, 'dist/');
  const script = vscode.Uri.joinPath(programs, 'server-web.js').toString(true);
  return activateShared(context, (options) => {
    // A worker runs from a copy of its script and cannot see where the PDF writer and its typefaces lie.
    const initializationOptions = { ...options.initializationOptions, programs: programs.toString(true) };
    return new LanguageClient('planish', 'Planish', startsAnew(script), { ...options, initializationOptions });
  });
}

/** Every start of the server is a worker of its own: who restarts one that is stuck wants to be rid of it. */
function startsAnew(script: string) {
  let worker: Worker | undefined;
  return async () => {
    worker?.terminate();
    worker = new Worker(script);
    // By reader and writer: the library does not know a worker for one where the editor puts its own in place of the class.
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
}

// The extension in a browser: the same server as a web worker.
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { activate as activateShared, type Planish } from './extension.ts';

export function activate(context: vscode.ExtensionContext): Promise<Planish> {
  const programs = vscode.Uri.joinPath(context.extensionUri, 'dist/');
  const script = vscode.Uri.joinPath(programs, 'server-web.js').toString(true);
  return activateShared(context, (options) => {
    // A worker runs from a copy of its script and cannot see where the PDF writer and its typefaces lie.
    const initializationOptions = { ...options.initializationOptions, programs: programs.toString(true) };
    return new LanguageClient('planish', 'Planish', new Worker(script), { ...options, initializationOptions });
  });
}

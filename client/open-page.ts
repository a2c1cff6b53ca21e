// What the panels of our own share: a page with one script of ours, under a policy that lets nothing else run or be fetched.
import * as vscode from 'vscode';

export interface Page {
  /** The kind of the panel, `planish.figures`. */
  readonly type: string;
  readonly title: string;
  /** In `dist`, where the programs lie. */
  readonly script: string;
  readonly style: string;
  /** Its words, in the language of the editor: the page reads them from its body. */
  readonly words: Readonly<Record<string, string>>;
  /** Of the policy, what it shows besides: `img-src blob:`. */
  readonly policy?: string;
}

/** Opens a panel beside what is written, which keeps the keyboard. */
export function openPage(
  programs: vscode.Uri,
  { type, title, script, style, words, policy }: Page,
): vscode.WebviewPanel {
  const panel = vscode.window.createWebviewPanel(
    type,
    title,
    { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
    { enableScripts: true, localResourceRoots: [programs] },
  );
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16)).join('');
  const allowed = [`style-src 'nonce-${nonce}'`, `script-src 'nonce-${nonce}'`, ...(policy ? [policy] : [])].join('; ');
  const data = Object.entries(words).map(([name, text]) => ` data-${name}="${escaped(text)}"`);
  panel.webview.html = `<!DOCTYPE html>
<html lang="${vscode.env.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; ${allowed}">
<title>${escaped(title)}</title>
<style nonce="${nonce}">${STYLE}${style}</style>
</head>
<body${data.join('')}>
<main></main>
<script nonce="${nonce}" src="${panel.webview.asWebviewUri(vscode.Uri.joinPath(programs, script))}"></script>
</body>
</html>`;
  return panel;
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');

const STYLE = `
body { color: var(--vscode-foreground); font: var(--vscode-font-size) var(--vscode-font-family); }
header { display: flex; align-items: baseline; gap: 1em; position: sticky; top: 0; z-index: 1; background: var(--vscode-editor-background); }
button { font: inherit; color: var(--vscode-button-secondaryForeground); background: var(--vscode-button-secondaryBackground); border: 1px solid var(--vscode-button-border, var(--vscode-contrastBorder, transparent)); padding: 0.2em 0.8em; cursor: pointer; }
button[aria-pressed=true] { outline: 2px solid var(--vscode-focusBorder); }
button:hover { background: var(--vscode-button-secondaryHoverBackground); }
button:focus-visible, a:focus-visible, main:focus-visible { outline: 1px solid var(--vscode-focusBorder); }
`;

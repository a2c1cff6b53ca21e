/** The browser that shows the workbench to tests and screenshots; CHROMIUM may name another. */
export function findBrowser(): string | undefined;
/** Where a program of one of these names lies on the PATH. */
export function findProgram(...names: string[]): string | undefined;
/** The .vsix of this version, wherever it is packed to. */
export function packagePath(): string;

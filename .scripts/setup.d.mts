/** The browser that shows the workbench to tests and screenshots; CHROMIUM may name another. */
export function findBrowser(): string | undefined;

/** The files of a zip archive, by their paths in it. Folders are left out. */
export function readZip(archive: Uint8Array): Map<string, Uint8Array>;
/** The same archive, compressed as tightly as deflate can. */
export function tightened(archive: Buffer): Buffer;
/** Unpacks a .vsix as an editor would: the extension is its folder of that name. */
export function unpackExtension(vsix: string, folder: string): void;

// Just enough of a zip reader to look into a .vsix and to unpack it: a bare machine has no unzip.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { inflateRawSync } from 'node:zlib';

export function readZip(archive) {
  const bytes = Buffer.from(archive.buffer, archive.byteOffset, archive.byteLength);
  // The end record is 22 bytes and, without a comment, the very last thing.
  let end = bytes.length - 22;
  while (end >= 0 && bytes.readUInt32LE(end) !== 0x06054b50) end -= 1;
  if (end < 0) throw new Error('not a zip archive');
  const files = new Map();
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left -= 1) {
    const method = bytes.readUInt16LE(at + 10);
    const size = bytes.readUInt32LE(at + 20);
    const nameLength = bytes.readUInt16LE(at + 28);
    const name = bytes.toString('utf8', at + 46, at + 46 + nameLength);
    const header = bytes.readUInt32LE(at + 42);
    const start = header + 30 + bytes.readUInt16LE(header + 26) + bytes.readUInt16LE(header + 28);
    const content = bytes.subarray(start, start + size);
    if (!name.endsWith('/')) files.set(name, method === 0 ? content : inflateRawSync(content));
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return files;
}

export function unpackExtension(vsix, folder) {
  for (const [name, content] of readZip(readFileSync(vsix))) {
    if (!name.startsWith('extension/')) continue;
    const file = path.join(folder, name.slice('extension/'.length));
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, content);
  }
}

// Just enough of a zip reader to look into a .vsix, to unpack it and to pack it tighter: a bare machine has no unzip.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { deflateRawSync, inflateRawSync } from 'node:zlib';

export function readZip(archive) {
  const bytes = Buffer.from(archive.buffer, archive.byteOffset, archive.byteLength);
  const end = endOf(bytes);
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

/** The same archive with every file compressed as tightly as deflate can: packers spare themselves the time. */
export function tightened(bytes) {
  const end = endOf(bytes);
  const locals = [];
  const entries = [];
  let offset = 0;
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left -= 1) {
    const next = at + 46 + bytes.readUInt16LE(at + 28) + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
    const entry = Buffer.from(bytes.subarray(at, next));
    at = next;
    const from = entry.readUInt32LE(42);
    const name = entry.subarray(46, 46 + entry.readUInt16LE(28));
    const start = from + 30 + bytes.readUInt16LE(from + 26) + bytes.readUInt16LE(from + 28);
    let data = bytes.subarray(start, start + entry.readUInt32LE(20));
    if (entry.readUInt16LE(10) === 8) {
      const plain = inflateRawSync(data);
      // Which size of table comes out smallest hangs on the file.
      for (const memLevel of [6, 7, 8]) {
        const tight = deflateRawSync(plain, { level: 9, memLevel });
        if (tight.length < data.length) data = tight;
      }
    }
    // The sizes stand in the header, and nothing is said after the data.
    entry.writeUInt16LE(entry.readUInt16LE(8) & ~8, 8);
    entry.writeUInt32LE(data.length, 20);
    entry.writeUInt32LE(offset, 42);
    const local = Buffer.alloc(30);
    local.writeUInt32LE(0x04034b50, 0);
    entry.copy(local, 4, 6, 30);
    local.writeUInt16LE(0, 28);
    locals.push(local, name, data);
    offset += local.length + name.length + data.length;
    entries.push(entry);
  }
  const directory = Buffer.concat(entries);
  const tail = Buffer.from(bytes.subarray(end));
  tail.writeUInt32LE(directory.length, 12);
  tail.writeUInt32LE(offset, 16);
  return Buffer.concat([...locals, directory, tail]);
}

/** Where the end record begins: it is 22 bytes and, without a comment, the very last thing. */
function endOf(bytes) {
  let end = bytes.length - 22;
  while (end >= 0 && bytes.readUInt32LE(end) !== 0x06054b50) end -= 1;
  if (end < 0) throw new Error('not a zip archive');
  return end;
}

export function unpackExtension(vsix, folder) {
  for (const [name, content] of readZip(readFileSync(vsix))) {
    if (!name.startsWith('extension/')) continue;
    const file = path.join(folder, name.slice('extension/'.length));
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, content);
  }
}

import { existsSync, readFileSync, realpathSync } from 'node:fs';
import path from 'node:path';
import { shortened, type Texts } from '../l10n/say.ts';

/** What is told in another language, where we have it: beside the packed program, or above it in the sources. */
export function textsOnDisk(language: string): Texts | undefined {
  const name = `${language}.json`;
  let folder = path.dirname(realpathSync(process.argv[1]!));
  const packed = path.join(folder, name);
  if (existsSync(packed)) return textsIn(packed);
  for (; folder !== path.dirname(folder); folder = path.dirname(folder)) {
    const written = path.join(folder, 'l10n', name);
    if (existsSync(written)) return shortened(textsIn(written));
  }
  return undefined;
}

const textsIn = (file: string): Texts => JSON.parse(readFileSync(file, 'utf8'));

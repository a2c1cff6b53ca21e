import { readFileSync, realpathSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { FontBytes } from './output/writers/papers.ts';

const FACES = {
  regular: ['NotoSans-Regular.ttf', '@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf'],
  bold: ['NotoSans-Bold.ttf', '@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf'],
} as const;

/** The typeface of printed papers: beside the packed program, or among the packages where it is run from source. */
export function fontsOnDisk(): FontBytes {
  const program = realpathSync(process.argv[1]!);
  const read = ([beside, packed]: readonly [string, string]): Uint8Array => {
    try {
      return readFileSync(path.join(path.dirname(program), beside));
    } catch {
      return readFileSync(createRequire(program).resolve(packed));
    }
  };
  return { regular: read(FACES.regular), bold: read(FACES.bold) };
}

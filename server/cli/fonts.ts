import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FontBytes } from '../output/writers.ts';

const FACES = {
  regular: '@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf',
  bold: '@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf',
};

/** The typeface of the PDF: inside the bundle, or beside the source while Planish itself is worked on. */
export async function fonts(): Promise<FontBytes> {
  try {
    const [regular, bold] = await Promise.all([
      import('@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf'),
      import('@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf'),
    ]);
    return { regular: regular.default, bold: bold.default };
  } catch {
    const { resolve } = createRequire(process.argv[1]!);
    return { regular: readFileSync(resolve(FACES.regular)), bold: readFileSync(resolve(FACES.bold)) };
  }
}

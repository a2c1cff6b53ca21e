import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { loadFonts } from '../fonts.ts';
import type { FontBytes } from '../output/writers.ts';

/** The typeface of the PDF: inside the bundle, or among the packages while Planish is run from source. */
export const fonts = (): Promise<FontBytes> => loadFonts().catch(fromPackages);

function fromPackages(): FontBytes {
  const { resolve } = createRequire(process.argv[1]!);
  const face = (file: string) => readFileSync(resolve(`@expo-google-fonts/noto-sans/${file}`));
  return { regular: face('400Regular/NotoSans_400Regular.ttf'), bold: face('700Bold/NotoSans_700Bold.ttf') };
}

import type { FontBytes } from './output/writers.ts';

/** The typeface of printed papers. The bundler puts its bytes into the program; they are unpacked when first needed. */
export async function loadFonts(): Promise<FontBytes> {
  const [regular, bold] = await Promise.all([
    import('@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf'),
    import('@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf'),
  ]);
  return { regular: regular.default, bold: bold.default };
}

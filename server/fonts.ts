import type { FontBytes } from './output/writers.ts';

/** The typeface of printed papers. The bundler puts its bytes into the program; they are unpacked when first needed. */
export async function loadFonts(): Promise<FontBytes> {
  // By way of a module of ours: importing the bytes themselves on demand would copy them property by property, for seconds.
  const { regular, bold } = await import('./font-bytes.ts');
  return { regular, bold };
}

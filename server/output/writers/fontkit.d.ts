/** fontkit ships no types; the PDF library says what it needs of it. */
declare module 'fontkit' {
  import type { Fontkit } from '@cantoo/pdf-lib';
  export const create: Fontkit['create'];
}

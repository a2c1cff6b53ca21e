/** The packer's ES module build stands at a path its own types do not name; this gives that path the same types. */
declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  export * from 'maxrects-packer/dist/index';
}

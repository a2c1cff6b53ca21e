// The extension host has no terminal: its tests write to a file, which is shown here while it grows.
import { existsSync, readFileSync } from 'node:fs';

export function followFile(file) {
  let shown = 0;
  const show = () => {
    if (!existsSync(file)) return;
    const bytes = readFileSync(file);
    process.stdout.write(bytes.subarray(shown));
    shown = bytes.length;
  };
  const timer = setInterval(show, 250);
  return {
    stop() {
      clearInterval(timer);
      show();
    },
    wrote: () => shown > 0,
  };
}

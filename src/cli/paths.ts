/** Files that ship with the program, found from the source tree and from the build alike. */
import { fileURLToPath } from 'node:url';

/** @param path relative to the package root, e.g. `fixtures/demo/ossarly.json` */
export function shipped(path: string): string {
  return fileURLToPath(new URL(`../../${path}`, import.meta.url));
}

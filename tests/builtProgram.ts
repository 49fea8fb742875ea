/**
 * Builds the program once before the tests that start it as a process, unless what is built is newer than every source:
 * the process is then the one that ships, and starts in a fraction of the time.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Arguments of `node` that start the built program. */
export const PROGRAM = [join(import.meta.dirname, '..', 'dist/cli/main.js')] as const;

const SOURCES = ['src', 'config/rules', 'templates', 'scripts', 'package.json', 'package-lock.json'];

function newestMs(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map((name) => newestMs(join(path, name))));
}

export default function build(): void {
  const last = 'dist/mail.json';
  // Written last, so that a build that was cut off counts as none.
  const builtMs = existsSync(last) ? statSync(last).mtimeMs : 0;
  if (SOURCES.some((path) => newestMs(path) > builtMs))
    execFileSync(process.execPath, ['scripts/build.mjs'], { stdio: 'inherit' });
}

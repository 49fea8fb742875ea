/**
 * The shipped rules as they were read and checked when the program was built. Reading 150 kB of YAML takes longer than
 * all the rest of a short command, so what the build wrote is taken while the files are letter for letter the same.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { RuleBook } from './rules.ts';

export interface BuiltRules {
  readonly digest: string;
  readonly book: RuleBook;
}

/** Beside the chunks of the build; the source tree has no such file, and reads its rules. */
const BUILT = fileURLToPath(new URL('../rules.json', import.meta.url));

/** Fingerprint of the names and letters of a folder's rules files. */
export function rulesDigest(folder: string): string {
  const hash = createHash('sha256');
  for (const name of readdirSync(folder)
    .filter((file) => file.endsWith('.yaml'))
    .sort()) {
    hash.update(`${name}\n`);
    hash.update(readFileSync(join(folder, name)));
  }
  return hash.digest('hex');
}

/** What the build read from files that are the same as the folder's; null where there is no such thing. */
export function builtRules(folder: string): RuleBook | null {
  if (!existsSync(BUILT) || !existsSync(folder)) return null;
  // Written by the build from a book that the schemas had checked.
  const built = JSON.parse(readFileSync(BUILT, 'utf8')) as BuiltRules;
  return built.digest === rulesDigest(folder) ? built.book : null;
}

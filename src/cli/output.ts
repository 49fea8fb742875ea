/** Writing so that a reader never finds half a file, and talking so that a pipe stays quiet. */
import { randomBytes } from 'node:crypto';
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { ThawlineError } from '../units/index.ts';

/** Whole or not at all: the bytes go to a neighbour file, which then takes the name. @throws ThawlineError `usage` */
export function writeWhole(path: string, content: string | Buffer): void {
  const draft = `${path}.${randomBytes(4).toString('hex')}.part`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(draft, content);
    renameSync(draft, path);
  } catch (cause) {
    rmSync(draft, { force: true });
    throw new ThawlineError(
      'usage',
      `${path}: cannot be written. Name another folder with --out, or make room and set its rights.`,
      { cause },
    );
  }
}

/** Progress lines on a terminal, on the error channel; nothing in a pipe. */
export function progress(): ((line: string) => void) | undefined {
  if (!process.stderr.isTTY) return undefined;
  return (line) => process.stderr.write(`${line}\n`);
}

export function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** Writing so that a reader never finds half a file, and talking so that a pipe stays quiet. */
import { randomBytes } from 'node:crypto';
import {
  fstatSync,
  lstatSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
  type Stats,
} from 'node:fs';
import { dirname, resolve } from 'node:path';
import { makeFolder } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';

/** Wait before a full pipe is tried again. */
const FULL_PIPE_MS = 5;

/**
 * Whole or not at all: the bytes go to a neighbour file, which then takes the name. Links are followed, and what is no
 * regular file (a device, a pipe) is written into and never replaced.
 *
 * @param whose `private`: it holds addresses or what readers told, so that its owner alone may read it
 * @throws ThawlineError `usage`
 */
export function writeWhole(
  path: string,
  content: string | Buffer,
  whose: 'private' | 'plain' = 'plain',
): void {
  try {
    makeFolder(dirname(path));
    const found = statSync(path, { throwIfNoEntry: false });
    // A new file in the place of our own output would leave in the old one, unseen, what is printed next.
    const own = [1, 2].find((descriptor) => found !== undefined && isOpenAs(descriptor, found));
    if (own !== undefined) writeThrough(own, Buffer.from(content));
    else if (found === undefined) replace(linkedTo(path), content, whose === 'private' ? 0o600 : 0o666);
    else if (found.isFile())
      replace(realpathSync(path), content, whose === 'private' ? 0o600 : found.mode & 0o777);
    else writeFileSync(path, content);
  } catch (cause) {
    throw new ThawlineError(
      'usage',
      `${path}: cannot be written. Name another folder with --out, or make room and set its rights.`,
      { cause },
    );
  }
}

function replace(path: string, content: string | Buffer, mode: number): void {
  const draft = `${path}.${randomBytes(4).toString('hex')}.part`;
  try {
    writeFileSync(draft, content, { mode });
    renameSync(draft, path);
  } catch (cause) {
    rmSync(draft, { force: true });
    throw cause;
  }
}

/** Where a link to nothing yet points to; the path itself where there is no link. */
function linkedTo(path: string): string {
  const isLink = lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true;
  return isLink ? linkedTo(resolve(realpathSync(dirname(path)), readlinkSync(path))) : path;
}

function isOpenAs(descriptor: number, file: Stats): boolean {
  try {
    const { dev, ino } = fstatSync(descriptor);
    return dev === file.dev && ino === file.ino;
  } catch {
    return false; // closed by whoever started the program
  }
}

function writeThrough(descriptor: number, bytes: Buffer): void {
  let done = 0;
  while (done < bytes.length) {
    try {
      done += writeSync(descriptor, bytes, done);
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EAGAIN')) throw error;
      // The reader at the other end is slower than we are.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, FULL_PIPE_MS);
    }
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

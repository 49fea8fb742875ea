/** Text files as people save them: UTF-8, with or without a mark at the beginning. */
import { readFileSync } from 'node:fs';
import { ThawlineError, type ErrorCode } from '../units/index.ts';

/**
 * Text of a file.
 *
 * @throws ThawlineError `config` when it cannot be read, or is not UTF-8: with line and column of the first letter that
 *   is not
 */
export function readText(file: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch (cause) {
    throw new ThawlineError(
      'config',
      `${file}: cannot be read. Create it, or name another file with --config.`,
      { cause },
    );
  }
  return textIn(bytes, file, 'config');
}

/**
 * The text that bytes hold.
 *
 * @param file where they come from, for the complaint
 * @throws ThawlineError of that code, with line and column of the first letter that is not UTF-8
 */
export function textIn(bytes: Buffer, file: string, code: ErrorCode): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    const [before = ''] = bytes.toString('utf8').split('\uFFFD', 1);
    const lines = before.split('\n');
    const column = (lines.at(-1) ?? '').length + 1;
    throw new ThawlineError(
      code,
      `${file}:${lines.length}:${column}: a letter here is not UTF-8; the file was saved as Latin-1, Windows-1252 or UTF-16. Save it as UTF-8.`,
      { cause },
    );
  }
}

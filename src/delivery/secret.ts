/** The secret links are signed with: from the environment, else from a file beside the record that is made once. */
import { randomBytes } from 'node:crypto';
import { linkSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Config } from '../config/index.ts';
import { isServerRecord, makeFolder } from '../record/index.ts';
import { ThawlineError } from '../units/index.ts';

const MIN_CHARACTERS = 32;

type Env = Readonly<Record<string, string | undefined>>;
type Settings = Pick<Config, 'recordPath' | 'web'>;

/**
 * Secret for signed links; mail and web of one installation must share it.
 *
 * @param how `look`: none is made where there is none yet, and null given
 * @throws ThawlineError `config` when the variable is set but shorter than 32 characters, or the file cannot be used
 */
export function linkSecret(config: Settings, env: Env): string;
export function linkSecret(config: Settings, env: Env, how: 'look'): string | null;
export function linkSecret(config: Settings, env: Env, how?: 'look'): string | null {
  const name = config.web.secretEnv;
  const given = env[name]?.trim();
  if (given !== undefined && given !== '') return longEnough(given, `The environment variable ${name}`);
  if (config.recordPath === ':memory:') return randomBytes(32).toString('hex');
  if (isServerRecord(config.recordPath))
    throw new ThawlineError(
      'config',
      `Many machines share this record and must sign links alike: set the environment variable ${name} to the same 32 or more random characters on each (e.g. from \`openssl rand -hex 32\`).`,
    );
  const path = `${config.recordPath}.secret`;
  try {
    const made = existing(path) ?? (how === 'look' ? null : make(path));
    return made === null ? null : longEnough(made, `The file ${path}`);
  } catch (cause) {
    if (cause instanceof ThawlineError) throw cause;
    const mend = `Make ${path} readable and its folder writable, or set the environment variable ${name}.`;
    throw new ThawlineError('config', `The secret for links cannot be read: ${mend}`, { cause });
  }
}

function longEnough(secret: string, where: string): string {
  if (secret.length >= MIN_CHARACTERS) return secret;
  throw new ThawlineError(
    'config',
    `${where} must hold at least 32 random characters (e.g. from \`openssl rand -hex 32\`): links in mails are signed with it.`,
  );
}

function existing(path: string): string | null {
  try {
    return readFileSync(path, 'utf8').trim();
  } catch (error) {
    if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR'))
      return null;
    throw error;
  }
}

function make(path: string): string {
  makeFolder(dirname(path));
  const draft = `${path}.${randomBytes(4).toString('hex')}.part`;
  writeFileSync(draft, `${randomBytes(32).toString('hex')}\n`, { mode: 0o600 });
  try {
    // A link, unlike a rename, never replaces: of two processes that start together one secret wins for both.
    linkSync(draft, path);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
  } finally {
    rmSync(draft, { force: true });
  }
  return readFileSync(path, 'utf8').trim();
}

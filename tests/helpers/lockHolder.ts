import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

const SCRIPT = fileURLToPath(new URL('lockHolder.mjs', import.meta.url));

export interface LockHolder {
  readonly child: ChildProcess;
  /** Resolves when the plan is done. */
  readonly done: Promise<void>;
}

/**
 * Another process that holds the write lock of a record, as a backup program or a database browser does.
 *
 * @param plan pause before and length of each hold, ms
 * @returns when it holds the lock for the first time
 */
export async function holdWriteLock(
  path: string,
  plan: readonly (readonly [pauseMs: number, holdMs: number])[],
): Promise<LockHolder> {
  const child = spawn(process.execPath, [SCRIPT, path, JSON.stringify(plan)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const done = once(child, 'exit').then(([code]) => {
    if (code !== 0) throw new Error(`the lock holder ended with ${String(code)}`);
  });
  await once(child.stdout, 'data');
  return { child, done };
}

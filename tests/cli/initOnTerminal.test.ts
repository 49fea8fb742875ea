/** `init` at a terminal, as the built program: `script` (Debian's bsdutils, always there) gives it one. */
import { PROGRAM } from '../builtProgram.ts';
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';

it('asks its first question at a terminal, and leaves nothing behind when it is stopped there', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'terminal-'));
  const config = join(folder, 'thawline.yaml');
  // A terminal of no width would show one letter a line.
  const command = `stty cols 80 rows 24; ${process.execPath} ${PROGRAM[0]} --config ${config} init`;
  const child = spawn('script', ['-qec', command, '/dev/null'], { stdio: ['pipe', 'pipe', 'inherit'] });
  let shown = '';
  let stopped = false;
  child.stdout.on('data', (chunk: Buffer) => {
    shown += chunk.toString();
    if (stopped || !/name/i.test(shown)) return;
    // Ctrl-C, once it waits for an answer.
    stopped = true;
    child.stdin.write('\u0003');
  });
  await new Promise((resolve) => child.once('exit', resolve));
  expect(shown).not.toMatch(/fault of the program|SyntaxError/);
  expect(shown).toMatch(/name/i);
  expect(existsSync(config)).toBe(false);
  rmSync(folder, { recursive: true });
});

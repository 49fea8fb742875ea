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

it('asks again at once where an answer cannot be taken, and goes on with what was answered before', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'terminal-'));
  const config = join(folder, 'thawline.yaml');
  const given = '--name Tarn --lat 35.9 --lon -86.4 --zone America/Chicago --fetch 1mi --no-look-up';
  const command = `stty cols 80 rows 24; ${process.execPath} ${PROGRAM[0]} --config ${config} init ${given}`;
  const child = spawn('script', ['-qec', command, '/dev/null'], { stdio: ['pipe', 'pipe', 'inherit'] });
  let shown = '';
  const says: [RegExp, string][] = [
    [/services can reach you/, 'me at home\r'],
    [/neither a mail nor a web address/, '\u0015me@example.org\r'],
    [/mean depth with unit/, '42\r'],
    [/unit[^]*42 ft[^]*\n[^]*unit/, '\u0003'],
  ];
  child.stdout.on('data', (chunk: Buffer) => {
    shown += chunk.toString();
    const [next] = says;
    if (next === undefined || !next[0].test(shown)) return;
    says.shift();
    shown = '';
    child.stdin.write(next[1]);
  });
  await new Promise((resolve) => child.once('exit', resolve));
  expect(says).toEqual([]);
  expect(existsSync(config)).toBe(false);
  rmSync(folder, { recursive: true });
});

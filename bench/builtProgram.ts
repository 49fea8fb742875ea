/** The built program as a process of its own, measured from inside. */
import { spawnSync } from 'node:child_process';

const TELL =
  "process.on('exit', () => { const { user, system } = process.cpuUsage(); process.stderr.write(`cpu ${(user + system) / 1000}`); })";

/** Processor time of a command of the built program, threads and all, ms. @throws Error when the command fails */
export function commandMs(words: readonly string[]): number {
  const { stderr, status } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(TELL)}`, 'dist/cli/main.js', ...words],
    { encoding: 'utf8', maxBuffer: 1 << 30 },
  );
  const found = /cpu ([\d.]+)$/.exec(stderr)?.[1];
  if (status !== 0 || found === undefined) throw new Error(`${words.join(' ')}: ${stderr.slice(0, 400)}`);
  return Number(found);
}

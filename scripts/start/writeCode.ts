/** For the build: runs a command of the built program, and keeps the code of what it ran beside the scripts. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { codeOf, start } from './load.ts';

const loaded: Parameters<typeof start>[1] = new Map();
process.on('exit', (status) => {
  if (status !== 0) return;
  for (const [path, { script }] of loaded) writeFileSync(codeOf(path), script.createCachedData());
});
start(join(__dirname, 'program.js'), loaded);

import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const ROOT = new URL('../../', import.meta.url).pathname;

/**
 * Compiles the writer once, so that starting it fifty times is quick.
 *
 * @returns the script to run
 */
export async function compileWriter(folder: string): Promise<string> {
  const outfile = join(folder, 'writer.mjs');
  await build({
    absWorkingDir: ROOT,
    entryPoints: ['tests/record/writer.ts'],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    external: ['@photostructure/sqlite'],
    logLevel: 'error',
  });
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  return outfile;
}

/** Child processes of the tests: bundled once, for starting one from its sources takes two seconds of processor time each. */
import { basename, join } from 'node:path';
import { build } from 'rolldown';

const ROOT = new URL('../../', import.meta.url).pathname;

/**
 * Bundles a child's script with the program's modules it uses.
 *
 * @param source from the root of the project
 * @returns the script to run
 */
export async function builtChild(source: string): Promise<string> {
  const outfile = join(ROOT, 'node_modules/.cache/children', `${basename(source, '.ts')}.mjs`);
  await build({
    cwd: ROOT,
    input: source,
    platform: 'node',
    external: ['@photostructure/sqlite', '@resvg/resvg-js', 'mjml', 'pino', /^nodemailer/],
    output: { file: outfile, format: 'esm', codeSplitting: false },
    logLevel: 'warn',
  });
  return outfile;
}

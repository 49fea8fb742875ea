// Builds dist/: the program in few files, so that a command starts without looking for hundreds of them, and the shipped
// rules and templates as they were read. What is native, starts threads or is large and seldom needed stays a package of its own.
import { execFileSync } from 'node:child_process';
import { chmodSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { build, transform } from 'esbuild';

const root = new URL('..', import.meta.url).pathname;
const shared = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  external: ['@photostructure/sqlite', '@resvg/resvg-js', 'mjml', 'pino', 'undici', 'nodemailer'],
  // Packages written for CommonJS ask for Node's own modules with `require`, which a module does not have by itself.
  // The name is one that no bundled package, minified ones least of all, has at its top.
  banner: {
    js: "import{createRequire as builtRequireOf}from'node:module';globalThis.require??=builtRequireOf(import.meta.url);",
  },
  logLevel: 'warning',
};

rmSync(`${root}dist`, { recursive: true, force: true });
await build({
  ...shared,
  entryPoints: { 'cli/main': 'src/cli/main.ts' },
  outdir: 'dist',
  chunkNames: 'chunks/[name]-[hash]',
  splitting: true,
  legalComments: 'linked',
});
chmodSync(`${root}dist/cli/main.js`, 0o755);

const most = 64 * 1024 * 1024;
for (const [script, kept] of [
  ['builtRules', 'rules'],
  ['builtMail', 'mail'],
]) {
  const writer = `${root}dist/chunks/${script}.mjs`;
  await build({ ...shared, entryPoints: [`scripts/${script}.ts`], outfile: writer });
  writeFileSync(
    `${root}dist/${kept}.json`,
    execFileSync(process.execPath, [writer], { cwd: root, maxBuffer: most }),
  );
  rmSync(writer);
}

// A chunk that is seldom loaded would show a fault of its syntax, such as a name that stands twice, to its first user only.
for (const chunk of readdirSync(`${root}dist/chunks`).filter((name) => name.endsWith('.js')))
  await transform(readFileSync(`${root}dist/chunks/${chunk}`, 'utf8'), { format: 'esm', sourcefile: chunk });

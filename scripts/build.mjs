// Builds dist/: the program in few scripts, so that a command starts without looking for hundreds of files, the code that
// the engine makes of them, and the shipped rules and templates as they were read. What is native, starts threads or is
// large and seldom needed stays a package of its own.
// Who asks a room through its index gets what it named, not all that the index holds: the bundler looks through it.
import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'rolldown';
import { parseAst } from 'rolldown/parseAst';

const root = new URL('..', import.meta.url).pathname;
const shared = {
  cwd: root,
  platform: 'node',
  external: ['@photostructure/sqlite', '@resvg/resvg-js', 'mjml', 'pino', /^nodemailer/],
  logLevel: 'warn',
};
const comments = { legal: true, annotation: true, jsdoc: false };
const inOne = { comments, codeSplitting: false };
// Scripts, not modules: Node 20 takes kept code for scripts only.
const asScripts = { comments, format: 'cjs', dynamicImportInCjs: false };

rmSync(`${root}dist`, { recursive: true, force: true });
await build({
  ...shared,
  input: { program: 'src/cli/main.ts' },
  output: {
    ...asScripts,
    dir: 'dist/chunks',
    entryFileNames: '[name].js',
    chunkFileNames: '[name]-[hash].js',
  },
});
for (const [script, file] of [
  ['main', 'cli/main.js'],
  ['writeCode', 'chunks/writeCode.cjs'],
])
  await build({
    ...shared,
    input: `scripts/start/${script}.ts`,
    output: { ...inOne, format: 'cjs', file: `dist/${file}` },
  });
writeFileSync(`${root}dist/cli/package.json`, '{ "type": "commonjs" }\n');
chmodSync(`${root}dist/cli/main.js`, 0o755);

const most = 64 * 1024 * 1024;
for (const [script, kept] of [
  ['builtRules', 'rules'],
  ['builtMail', 'mail'],
]) {
  const writer = `${root}dist/chunks/${script}.mjs`;
  await build({
    ...shared,
    input: `scripts/${script}.ts`,
    output: { ...inOne, format: 'esm', file: writer },
  });
  writeFileSync(
    `${root}dist/${kept}.json`,
    execFileSync(process.execPath, [writer], { cwd: root, maxBuffer: most }),
  );
  rmSync(writer);
}

// A chunk that is seldom loaded would show a fault of its syntax, such as a name that stands twice, to its first user only.
for (const chunk of readdirSync(`${root}dist/chunks`).filter((name) => name.endsWith('.js')))
  parseAst(readFileSync(`${root}dist/chunks/${chunk}`, 'utf8'));

// Each takes what was kept before and adds what it runs.
const scratch = mkdtempSync(join(tmpdir(), 'thawline-build-'));
const conditions = join(scratch, 'conditions.yaml');
writeFileSync(conditions, 'date: 2026-03-06\nwater: { main: 47 F }\n');
const writeCode = `${root}dist/chunks/writeCode.cjs`;
for (const words of [['--help'], ['what-if', conditions], ['demo', '--out', join(scratch, 'out')]])
  execFileSync(process.execPath, [writeCode, ...words], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
rmSync(writeCode);
rmSync(scratch, { recursive: true });

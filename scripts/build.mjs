// Builds dist/: the program in few files, so that a command starts without looking for hundreds of them, and the shipped
// rules and templates as they were read. What is native, starts threads or is large and seldom needed stays a package of its own.
// Who asks a room through its index gets what it named, not all that the index holds: the bundler looks through it.
import { execFileSync } from 'node:child_process';
import { chmodSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { parseAst } from 'rolldown/parseAst';
import { build } from 'rolldown';

const root = new URL('..', import.meta.url).pathname;
const shared = {
  cwd: root,
  platform: 'node',
  external: ['@photostructure/sqlite', '@resvg/resvg-js', 'mjml', 'pino', 'undici', /^nodemailer/],
  logLevel: 'warn',
};
const output = { format: 'esm', comments: { legal: true, annotation: true, jsdoc: false } };

rmSync(`${root}dist`, { recursive: true, force: true });
await build({
  ...shared,
  input: { 'cli/main': 'src/cli/main.ts' },
  output: { ...output, dir: 'dist', entryFileNames: '[name].js', chunkFileNames: 'chunks/[name]-[hash].js' },
});
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
    output: { ...output, file: writer, codeSplitting: false },
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

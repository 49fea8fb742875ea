import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

const ROOT = new URL('../../', import.meta.url).pathname;
const PARTS = [
  'src/units',
  'src/record',
  'tests/record/writer.ts',
  'tests/record/batch.ts',
  'tests/record/rows.ts',
];

function sources(part: string): string[] {
  if (part.endsWith('.ts')) return [part];
  return readdirSync(join(ROOT, part), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(part, name));
}

/**
 * Compiles the writer once, so that starting it fifty times is quick.
 *
 * @returns the script to run
 */
export function compileWriter(folder: string): string {
  for (const source of PARTS.flatMap(sources)) {
    const target = join(folder, source.replace(/\.ts$/, '.js'));
    const { outputText } = ts.transpileModule(readFileSync(join(ROOT, source), 'utf8'), {
      compilerOptions: {
        target: ts.ScriptTarget.ES2022,
        module: ts.ModuleKind.ESNext,
        verbatimModuleSyntax: true,
        rewriteRelativeImportExtensions: true,
      },
    });
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, outputText);
  }
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  return join(folder, 'tests/record/writer.js');
}

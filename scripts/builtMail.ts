/** Prints the compiled templates for the build to keep: see `src/render/compiled.ts`. */
import { compileTemplates, templatesDigest } from '../src/render/compiled.ts';

const page = await compileTemplates();
if (page === null) throw new Error('The templates cannot be cut where their words go.');
process.stdout.write(JSON.stringify({ digest: templatesDigest(), page }));

import { readFileSync } from 'node:fs';

/** The example configuration with its lake on the invented outline, as it lies beside it. */
export const outlined = (): string =>
  readFileSync('config/thawline.example.yaml', 'utf8').replace('    # outline:', '    outline:');

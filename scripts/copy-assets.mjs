// The compiled program reads its templates and data files from the package root; nothing is copied but the mode bit.
import { chmodSync, existsSync } from 'node:fs';

const entry = new URL('../dist/cli/main.js', import.meta.url);
if (existsSync(entry)) chmodSync(entry, 0o755);

#!/usr/bin/env node
/** `dist/cli/main.js`: the built program. */
import { join } from 'node:path';
import { start } from './load.ts';

start(join(__dirname, '../chunks/program.js'));

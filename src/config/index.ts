export type * from './types.ts';
export { DEFAULT_CONFIG, lakeById, loadConfig } from './load.ts';
export { configSchema } from './schema.ts';
export { nearest, parseYaml, readYaml } from './yaml.ts';

export type * from './types.ts';
export { DEFAULT_CONFIG, lakeById, loadConfig } from './load.ts';
export { configSchema } from './schema.ts';
export { FIELD_WORDS } from './fieldWords.ts';
export { jsonSchemaOf } from './jsonSchema.ts';
export { nearest } from './nearest.ts';
export { parseYaml, readYaml } from './yaml.ts';

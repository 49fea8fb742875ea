// Loader hook: 'vitest' is what collects tests.
const OURS = new URL('./vitest.mjs', import.meta.url).href;

export const resolve = (name, context, next) =>
  name === 'vitest' ? { url: OURS, format: 'module', shortCircuit: true } : next(name, context);

export { createWebApp } from './app.ts';
export { startWebServer, type WebServer } from './server.ts';
export type { WebDeps } from './deps.ts';

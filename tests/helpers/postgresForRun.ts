/** Starts one PostgreSQL server for the whole run of the tests that need one, with the tables made once, or says loudly that there is none. */
import type { TestProject } from 'vitest/node';
import { makeTablesOnly, serverPrograms, startServer } from './postgresServer.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Empty where no server is installed. */
    postgresAddress: string;
  }
}

export default async function setup(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  const programs = serverPrograms();
  if (programs === null) {
    const how = 'no PostgreSQL server is installed here (Debian: apt-get install postgresql)';
    if (process.env['THAWLINE_NEEDS_POSTGRES'] === '1')
      throw new Error(`The tests on a real server cannot run: ${how}.`);
    process.stderr.write(`\nNOT TESTED on a real PostgreSQL: ${how}.\n\n`);
    project.provide('postgresAddress', '');
    return undefined;
  }
  const server = await startServer(programs);
  await makeTablesOnly(server.address);
  project.provide('postgresAddress', server.address);
  return () => server.stop();
}

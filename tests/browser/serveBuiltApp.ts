/** Once before all browser tests: find a browser, build the app as it is published, serve the build. */
import { build, preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { FOUND_VARIABLE, findBrowser } from './findBrowser';
import type { FoundBrowser } from './findBrowser';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the built app, ending in a slash. */
    address: string;
    browser: FoundBrowser;
  }
}

export default async function serveBuiltApp(project: TestProject): Promise<() => Promise<void>> {
  const found = process.env[FOUND_VARIABLE];
  project.provide('browser', found ? (JSON.parse(found) as FoundBrowser) : await findBrowser());
  // the test runner says NODE_ENV=test, which would build React for development
  const before = process.env['NODE_ENV'];
  process.env['NODE_ENV'] = 'production';
  try {
    await build({ mode: 'production', logLevel: 'warn' });
  } finally {
    if (before === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = before;
  }
  const server = await preview({ preview: { port: 0, host: '127.0.0.1', open: false }, logLevel: 'warn' });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error('The built app is served nowhere.');
  project.provide('address', address);
  return () => server.close();
}

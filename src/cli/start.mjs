/**
 * `npm start`: install what is missing, serve the bench, open it.
 * Plain Node, so that it runs before anything is installed. Options: --port N, --host [NAME], --no-open.
 */
import { parseArgs } from 'node:util';
import { ROOT, installIfNeeded } from './install.mjs';

const USAGE = 'npm start -- [--port N] [--host [NAME]] [--no-open]';

function refuse(what) {
  console.error(`${what}\n${USAGE}`);
  process.exit(2);
}

function readOptions() {
  // a bare --host means every address, as it does for the server itself
  const args = process.argv.slice(2).flatMap((arg, i, all) => {
    const isBare = arg === '--host' && (all[i + 1] === undefined || all[i + 1].startsWith('-'));
    return isBare ? ['--host', '0.0.0.0'] : [arg];
  });
  const options = { port: { type: 'string' }, host: { type: 'string' }, 'no-open': { type: 'boolean' } };
  try {
    const { values } = parseArgs({ args, options });
    const port = values.port === undefined ? undefined : Number(values.port);
    if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port <= 65535))
      refuse(`--port ${values.port} is not a port.`);
    return { port, host: values.host, open: !values['no-open'] && hasDisplay() };
  } catch (error) {
    return refuse(error.message);
  }
}

/** A browser is only opened where somebody can see it. */
function hasDisplay() {
  if (process.env['CI'] || process.env['SSH_CONNECTION']) return false;
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env['DISPLAY'] || process.env['WAYLAND_DISPLAY']);
}

const options = readOptions();
installIfNeeded();
const { createServer } = await import('vite');
const server = await createServer({
  root: ROOT,
  configFile: `${ROOT}/vite.config.ts`,
  clearScreen: false,
  server: {
    ...(options.port === undefined ? {} : { port: options.port, strictPort: true }),
    host: options.host,
    open: options.open,
  },
});
try {
  await server.listen();
} catch (error) {
  console.error(`The bench cannot be served: ${error.message}. Choose another port with --port N.`);
  process.exit(1);
}
console.log('\nPanelwright is ready. Open this address in a browser; stop with Ctrl+C.');
server.printUrls();

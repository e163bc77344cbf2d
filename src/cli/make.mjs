/**
 * `npm run -s make -- FILE … --out FOLDER`: install what is missing, then run the command.
 * Plain Node, so that it runs before anything is installed. Standard output belongs to the command alone.
 */
import { installIfNeeded } from './install.mjs';

installIfNeeded({ quiet: true });
const { register } = await import('tsx/esm/api');
register();
const { make } = await import('./make.ts');
// npm runs scripts in the package's folder; paths are meant from where the user stands.
const startedFrom = process.env['npm_lifecycle_event'] === 'make' ? process.env['INIT_CWD'] : undefined;
process.exitCode = await make(process.argv.slice(2), {
  folder: startedFrom ?? process.cwd(),
  say: (line) => process.stdout.write(`${line}\n`),
  complain: (line) => process.stderr.write(`${line}\n`),
});

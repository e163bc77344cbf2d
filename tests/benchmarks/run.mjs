/**
 * `npm run benchmarks [-- NAME …]`: run every *.bench.ts here in order of name, or those whose name holds a NAME.
 * A benchmark exports a default function that prints its own findings; it is given the arguments that hold a `/` or a `=`
 * (`-- lay FOLDER/ seconds=1,10`). They report; nothing passes or fails by time.
 */
import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { installIfNeeded } from '../../src/cli/install.mjs';

installIfNeeded();
const { build } = await import('vite');

const folder = dirname(fileURLToPath(import.meta.url));
const root = join(folder, '../..');
const built = join(root, 'node_modules/.cache/panelwright/benchmarks');
process.chdir(root);
/**
 * Bundle a benchmark as the app is bundled: what people run is measured, not modules transformed one by one on loading.
 * Libraries stay outside the bundle. @returns the bundle's path
 */
async function bundled(file) {
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    resolve: { alias: { canvg: nothing, html2canvas: nothing, dompurify: nothing } },
    build: { ssr: join(folder, file), outDir: built, emptyOutDir: false, target: 'node20', minify: false },
    ssr: { noExternal: /^jsts/ },
  });
  return join(built, file.replace(/\.ts$/, '.js'));
}

const nothing = join(root, 'src/paper/emptyModule.ts');
const isOption = (word) => word.includes('/') || word.includes('=');
const wanted = process.argv.slice(2).filter((word) => !isOption(word));
const options = process.argv.slice(2).filter(isOption);
const all = readdirSync(folder)
  .filter((file) => file.endsWith('.bench.ts'))
  .sort();
const chosen = all.filter((file) => wanted.length === 0 || wanted.some((name) => file.includes(name)));
if (chosen.length === 0) {
  console.error(`No benchmark is called ${wanted.join(' or ')}. There are: ${all.join(', ') || 'none'}.`);
  process.exit(2);
}
console.log(`Node ${process.versions.node}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`);
for (const file of chosen) {
  console.log(`\n# ${file.replace('.bench.ts', '')}`);
  const { default: bench } = await import(pathToFileURL(await bundled(file)).href);
  if (typeof bench !== 'function') throw new TypeError(`${file} exports no default function`);
  await bench(options);
}

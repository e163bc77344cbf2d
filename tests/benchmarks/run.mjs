/**
 * `npm run benchmarks [-- NAME …]`: run every *.bench.ts here in order of name, or those whose name holds a NAME.
 * A benchmark exports a default function that prints its own findings. They report; nothing passes or fails by time.
 */
import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { installIfNeeded } from '../../src/cli/install.mjs';

installIfNeeded();
const { register } = await import('tsx/esm/api');
register();

const folder = dirname(fileURLToPath(import.meta.url));
const wanted = process.argv.slice(2);
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
  const { default: bench } = await import(new URL(file, import.meta.url).href);
  if (typeof bench !== 'function') throw new TypeError(`${file} exports no default function`);
  await bench();
}

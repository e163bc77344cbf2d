/**
 * Draft the demo tracings anew: `npx tsx demo-data/draft.ts`. No randomness, no clock: the same bytes every time.
 * See README.md beside this file for what is measured, what is leaned on and what is invented.
 */
import { writeFileSync } from 'node:fs';
import { readTracing, saveDesign } from '../src/files';
import { bodice } from './drafting/bodice';
import { sheath } from './drafting/sheath';
import { sheathDesign } from './drafting/sheathDesign';
import { tshirt } from './drafting/tshirt';
import { writeTracing } from './drafting/tracing';

for (const [name, draft] of Object.entries({ sheath, tshirt, bodice })) {
  writeFileSync(new URL(`${name}.svg`, import.meta.url), writeTracing(draft()));
}

/**
 * The design that the bench opens with is the sheath as our reader reads it, with a zip so that it can be put on, saved: opening it needs far less script than reading
 * the tracing.
 */
const read = readTracing(writeTracing(sheath()), 'sheath.svg');
if (!read.ok) throw new Error(read.problems.map((p) => p.code).join(', '));
writeFileSync(new URL('sheath.json', import.meta.url), saveDesign(sheathDesign(read.value)));

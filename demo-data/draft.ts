/**
 * Draft the demo tracings anew: `npx tsx demo-data/draft.ts`. No randomness, no clock: the same bytes every time.
 * See README.md beside this file for what is measured, what is leaned on and what is invented.
 */
import { writeFileSync } from 'node:fs';
import { bodice } from './drafting/bodice';
import { sheath } from './drafting/sheath';
import { tshirt } from './drafting/tshirt';
import { writeTracing } from './drafting/tracing';

for (const [name, draft] of Object.entries({ sheath, tshirt, bodice })) {
  writeFileSync(new URL(`${name}.svg`, import.meta.url), writeTracing(draft()));
}

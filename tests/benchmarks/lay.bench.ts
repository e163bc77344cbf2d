/**
 * How fast and how dense cut pieces are laid. Garment-like jobs always; published strip-packing instances too where the
 * environment names a folder of them:  STRIP_PACKING=folder [LAY_SECONDS=1,10] [LAY_SEEDS=2] npm run benchmarks -- lay
 * (one JSON per instance: name, strip_height, items[{ demand, allowed_orientations, shape.data }]; a README.md table beside
 * them may hold the best known densities).
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Pt } from '../../src/geometry';
import { checkLay, planLay, startLay } from '../../src/fabric';
import type { ClothPiece, LayJob } from '../../src/fabric';
import { garmentPieces, jobOf, pieceOf } from '../fabric/madeUpPieces';
import { median } from './timing';

const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

function garments(): void {
  console.log(
    'garment-like jobs, 1400 mm, gap 2 mm: first plan, then 2 nominal seconds, against 20 s with another seed',
  );
  const firsts: number[] = [];
  const losses: number[] = [];
  for (const count of [2, 4, 6, 8, 12, 16, 20]) {
    const job = jobOf(garmentPieces(100 + count, count), { gap: 2 });
    const begun = performance.now();
    const first = startLay(job).best;
    const firstTime = performance.now() - begun;
    const planBegun = performance.now();
    const plan = planLay({ ...job, seconds: 2 });
    const planTime = performance.now() - planBegun;
    const long = Math.min(plan.length, planLay({ ...job, seconds: 20, seed: 2 }).length);
    firsts.push(firstTime);
    losses.push(plan.length / long - 1);
    console.log(
      `${String(count).padStart(3)} pieces: first ${firstTime.toFixed(0)} ms ${percent(first.density)}; after 2 s ${percent(plan.density)}` +
        ` (took ${(planTime / 1000).toFixed(1)} s), ${percent(plan.length / long - 1)} longer than the 20 s plan`,
    );
  }
  console.log(
    `first plan: slowest ${Math.max(...firsts).toFixed(0)} ms; 2 s plan: median ${percent(median(losses))} longer`,
  );
}

interface Instance {
  readonly name: string;
  readonly strip_height: number;
  readonly items: readonly {
    readonly demand: number;
    readonly allowed_orientations: readonly number[];
    readonly shape: { readonly data: readonly Pt[] };
  }[];
}

/** An instance as a lay job, scaled to cloth 1500 mm wide. */
function jobFrom({ strip_height, items }: Instance): LayJob {
  const k = 1500 / strip_height;
  const pieces = items.flatMap(({ demand, allowed_orientations, shape }, number): ClothPiece[] => {
    const cutting = shape.data.slice(0, -1).map(([x, y]): Pt => [x * k, y * k]);
    return Array.from({ length: demand }, (_, c) =>
      pieceOf(number, cutting, { copy: c + 1, turns: allowed_orientations }),
    );
  });
  return jobOf(pieces, { width: 1500 });
}

/** Best known densities from a README's table: | `name` | length | density % | … */
function bestKnown(folder: string): ReadonlyMap<string, number> {
  const readme = join(folder, 'README.md');
  if (!existsSync(readme)) return new Map();
  const rows = [...readFileSync(readme, 'utf8').matchAll(/^\| `(\w+)` \| [\d.]+ \| ([\d.]+) % \|/gm)];
  return new Map(rows.map(([, name, density]) => [name!, Number(density) / 100]));
}

function published(folder: string): void {
  const seconds = (process.env['LAY_SECONDS'] ?? '1,10').split(',').map(Number);
  const seeds = Number(process.env['LAY_SEEDS'] ?? 2);
  const best = bestKnown(folder);
  for (const file of readdirSync(folder)
    .filter((f) => f.endsWith('.json'))
    .sort()) {
    const instance = JSON.parse(readFileSync(join(folder, file), 'utf8')) as Instance;
    const job = jobFrom(instance);
    for (const budget of seconds) {
      const densities: number[] = [];
      const begun = performance.now();
      for (let seed = 1; seed <= seeds; seed += 1) {
        const plan = planLay({ ...job, seconds: budget, seed });
        if (checkLay(job, plan.placed).length > 0) throw new Error(`${file}: a plan failed its check`);
        densities.push(plan.density);
      }
      const took = (performance.now() - begun) / 1000 / seeds;
      const known = best.get(instance.name);
      const gap =
        known === undefined ? '' : `, ${percent(known / mean(densities) - 1)} longer than the best known`;
      console.log(
        `${instance.name}: ${budget} s nominal (${took.toFixed(1)} s): ${percent(mean(densities))} mean of ${seeds}${gap}`,
      );
    }
  }
}

export default function lay(): void {
  garments();
  const folder = process.env['STRIP_PACKING'];
  if (folder) published(folder);
  else console.log('published instances: none (name their folder in STRIP_PACKING)');
}

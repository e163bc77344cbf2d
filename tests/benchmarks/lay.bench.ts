/**
 * How fast and how dense cut pieces are laid. Garment-like jobs always; published strip-packing instances too where a folder of them
 * is named:  npm run benchmarks -- lay FOLDER/ [seconds=1,10,60] [seeds=5] [names=swim,dagli] [long=20]
 * (one JSON per instance: name, strip_height, items[{ demand, allowed_orientations, shape.data }]; a README.md table beside
 * them may hold the best known densities). `long`: seconds of each of the 8 runs that a garment's 2 s plan is compared with.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Pt } from '../../src/geometry';
import { checkLay, planLay, startLay } from '../../src/fabric';
import type { ClothPiece, LayJob, LayPlan } from '../../src/fabric';
import { garmentPieces, jobOf, pieceOf } from '../fabric/madeUpPieces';
import { median } from './timing';

const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** Processor seconds of this process so far. */
const processorSeconds = (): number => (process.cpuUsage().user + process.cpuUsage().system) / 1e6;

async function garments(long: number): Promise<void> {
  console.log(
    `garment-like jobs, 1400 mm, gap 2 mm: first plan, 2 nominal seconds, against the best of 8 seeds of ${long} s`,
  );
  const firsts: number[] = [];
  const losses: number[] = [];
  for (const count of [2, 4, 6, 8, 12, 16, 20]) {
    const job = jobOf(garmentPieces(100 + count, count), { gap: 2 });
    const begun = performance.now();
    const first = startLay(job).best;
    const firstTime = performance.now() - begun;
    const planBegun = processorSeconds();
    const plan = planLay({ ...job, seconds: 2 });
    const took = processorSeconds() - planBegun;
    const seeds = [2, 3, 4, 5, 6, 7, 8, 9];
    const others = await plansOf(seeds.map((seed) => ({ ...job, seconds: long, seed })));
    const best = Math.min(plan.length, ...others.map((other) => other.length));
    firsts.push(firstTime);
    losses.push(plan.length / best - 1);
    console.log(
      `${String(count).padStart(3)} pieces: first ${firstTime.toFixed(0)} ms ${percent(first.density)}; after 2 s ${percent(plan.density)}` +
        ` (${took.toFixed(1)} processor s), ${percent(plan.length / best - 1)} longer than the best`,
    );
  }
  console.log(
    `first plan: slowest ${Math.max(...firsts).toFixed(0)} ms; 2 s plan: median ${percent(median(losses))} longer`,
  );
}

/** One worker's plans, one after another. */
function inWorker(jobs: readonly LayJob[]): Promise<LayPlan[]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(fileURLToPath(import.meta.url), { workerData: jobs });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}

/** The plans of jobs shared out among all cores. */
async function plansOf(jobs: readonly LayJob[]): Promise<LayPlan[]> {
  const shares = cpus().map((_, core) => jobs.filter((__, k) => k % cpus().length === core));
  return (await Promise.all(shares.filter((s) => s.length > 0).map(inWorker))).flat();
}

if (!isMainThread) parentPort!.postMessage((workerData as LayJob[]).map((job) => planLay(job)));

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

interface Options {
  readonly seconds: readonly number[];
  readonly seeds: number;
  readonly names: readonly string[];
}

/** How much longer than the best known, for an instance that has one. */
const gapTo = (known: number | undefined, density: number): string =>
  known === undefined ? '' : `, ${percent(known / density - 1)} longer than the best known`;

/** One worker, mean over the seeds; then all cores, each with a seed of its own, the best of them, mean over as many tries. */
async function runInstance(
  name: string,
  job: LayJob,
  known: number | undefined,
  options: Options,
): Promise<void> {
  const sound = (plan: LayPlan, own: LayJob): LayPlan => {
    if (checkLay(own, plan.placed).length > 0) throw new Error(`${name}: a plan failed its check`);
    return plan;
  };
  const cores = cpus().length;
  for (const seconds of options.seconds) {
    const [alone, together]: [number[], number[]] = [[], []];
    const begun = processorSeconds();
    for (let seed = 1; seed <= options.seeds; seed += 1) {
      const own = { ...job, seconds, seed };
      alone.push(sound(planLay(own), own).density);
    }
    const took = (processorSeconds() - begun) / options.seeds;
    const clock = performance.now();
    for (let turn = 0; turn < options.seeds; turn += 1) {
      const jobs = cpus().map((_, core) => ({ ...job, seconds, seed: 1 + turn * cores + core }));
      const plans = await plansOf(jobs);
      together.push(Math.max(...plans.map((plan) => sound(plan, job).density)));
    }
    const real = (performance.now() - clock) / 1000 / options.seeds;
    console.log(
      `${name}: ${seconds} s nominal, mean of ${options.seeds}: one worker ${percent(mean(alone))} (${took.toFixed(1)} processor s)` +
        `${gapTo(known, mean(alone))}; ${cores} cores ${percent(mean(together))} (${real.toFixed(1)} s by the clock)${gapTo(known, mean(together))}`,
    );
  }
}

async function published(folder: string, options: Options): Promise<void> {
  const best = bestKnown(folder);
  for (const file of readdirSync(folder)
    .filter((f) => f.endsWith('.json'))
    .sort()) {
    const instance = JSON.parse(readFileSync(join(folder, file), 'utf8')) as Instance;
    if (options.names.length > 0 && !options.names.includes(instance.name)) continue;
    await runInstance(instance.name, jobFrom(instance), best.get(instance.name), options);
  }
}

/** @param words a folder, and name=value */
export default async function lay(words: readonly string[] = []): Promise<void> {
  const value = (name: string): string | undefined =>
    words.find((word) => word.startsWith(`${name}=`))?.slice(name.length + 1);
  const folder = words.find((word) => !word.includes('='));
  if (folder)
    await published(folder, {
      seconds: (value('seconds') ?? '1,10,60').split(',').map(Number),
      seeds: Number(value('seeds') ?? 5),
      names: value('names')?.split(',') ?? [],
    });
  else console.log('published instances: none (name their folder: npm run benchmarks -- lay FOLDER/)');
  await garments(Number(value('long') ?? 20));
}

/** Lay plans of every mode judged by libraries that share no code with the planner; see judgeLay.ts. */
import { expect, test } from 'vitest';
import { checkLay, lengthToBuy, planLay } from '../../src/fabric';
import type { LayFault, LayJob, LayPlan, Placement } from '../../src/fabric';
import { seededRandom } from '../../src/fabric/search/random';
import { jobOf } from '../fabric/madeUpPieces';
import { randomLayJob } from '../fabric/randomLayJobs';
import { type Verdict, areaOf, judgeLay, placedAt } from './judgeLay';

/** How many random jobs: a few by default, thousands when LAY_JOBS says so. */
const JOBS = Number(process.env['LAY_JOBS'] ?? 90);
const FIRST_SEED = Number(process.env['LAY_SEED'] ?? 1);

/** Everything about a plan that can be read off its job and its placements, worked out again. */
function expectPlanAsTold(job: LayJob, plan: LayPlan): void {
  expect(plan.placed.map((p) => [p.panel, p.copy, p.flipped])).toEqual(
    job.pieces.map((p) => [p.panel, p.copy, p.flipped]),
  );
  const outlines = job.pieces.map((p, i) => p.cutting.map(placedAt(plan.placed[i]!)));
  const end = Math.max(...outlines.flat().map((p) => p[0]));
  expect(Math.abs(plan.length - end)).toBeLessThan(1e-6);
  if (!job.within) expect(plan.buy).toBe(lengthToBuy(plan.length, job));
  outlines.forEach((o, i) => {
    const own = areaOf(job.pieces[i]!.cutting);
    expect(Math.abs(areaOf(o) / own - 1)).toBeLessThan(1e-9);
  });
  for (const p of plan.placed.filter((q) => q.flipped))
    expect(plan.placed.some((q) => q.panel === p.panel && !q.flipped)).toBe(true);
}

/** Least width a piece takes across the cloth in one layer in any of its turns, its own turning written out. */
function leastAcross(job: LayJob, i: number): number {
  const piece = job.pieces[i]!;
  const grain = piece.flipped ? 180 - piece.grainAngle : piece.grainAngle;
  return Math.min(
    ...(piece.turns ?? [0]).map((turn) => {
      const { panel, copy, flipped } = piece;
      const move = placedAt({ panel, copy, x: 0, y: 0, flipped, rotation: turn - grain });
      const ys = piece.cutting.map((p) => move(p)[1]);
      return Math.max(...ys) - Math.min(...ys);
    }),
  );
}

function expectRefusalIsRight(job: LayJob, plan: LayPlan): void {
  expect([plan.length, plan.buy, plan.placed.length]).toEqual([0, 0, 0]);
  if (job.within) return;
  expect(plan.problems.map((p) => p.code)).toContain('panel-wider-than-cloth');
  if (job.repeat.across > 0) return;
  const usable = job.width - 2 * job.margin;
  const widest = Math.max(...job.pieces.map((_, i) => leastAcross(job, i)));
  expect(job.layering === 'folded' ? 2 * widest + job.gap : widest).toBeGreaterThan(usable - 1e-6);
}

test('independent libraries find nothing wrong with any plan of random jobs of every mode', () => {
  const laid = { jobs: 0, plans: 0, refused: 0, folded: 0, own: 0, printed: 0 };
  for (let seed = FIRST_SEED; seed < FIRST_SEED + JOBS; seed += 1) {
    const job = randomLayJob(seed);
    const plan = planLay(job);
    laid.jobs += 1;
    if (plan.placed.length === 0) {
      expectRefusalIsRight(job, plan);
      laid.refused += 1;
      continue;
    }
    expect({ seed, wrong: judgeLay(job, plan.placed) }).toEqual({ seed, wrong: [] });
    expectPlanAsTold(job, plan);
    laid.plans += 1;
    if (job.layering === 'folded') laid.folded += 1;
    if (job.within) laid.own += 1;
    if (job.repeat.along + job.repeat.across > 0) laid.printed += 1;
  }
  if (process.env['LAY_JOBS']) console.log(JSON.stringify(laid));
  // most jobs can be laid, and all modes are among them
  expect(laid.plans).toBeGreaterThan(laid.jobs / 2);
  expect(Math.min(laid.folded, laid.own, laid.printed)).toBeGreaterThan(laid.jobs / 30);
}, 7_200_000);

/** One placement changed in some way that a planner could get wrong. */
function spoiled(job: LayJob, placed: readonly Placement[], random: () => number): Placement[] {
  const i = Math.floor(random() * placed.length);
  const by = (size: number): number => (random() * 2 - 1) * size;
  const size = [0.05, 1, 20, 300][Math.floor(random() * 4)]!;
  const changed: ((p: Placement) => Placement[])[] = [
    (p) => [{ ...p, x: p.x + by(size) }],
    (p) => [{ ...p, y: p.y + by(size) }],
    (p) => [{ ...p, x: p.x + by(size), y: p.y + by(size) }],
    (p) => [{ ...p, rotation: p.rotation + by(size) }],
    (p) => [{ ...p, rotation: p.rotation + 180 }],
    (p) => [{ ...p, flipped: !p.flipped }],
    (p) => [{ ...p, x: p.x, y: job.width - p.y }],
    () => [],
    (p) => [p, { ...p, x: p.x + 2000 }],
    (p) => [{ ...p, copy: 9 }],
  ];
  const how = changed[Math.floor(random() * changed.length)]!;
  return placed.flatMap((p, k) => (k === i ? how(p) : [p]));
}

const kindsOf = (faults: readonly (LayFault | Verdict)[]): Set<string> => new Set(faults.map((f) => f.kind));

/** Faults too large to be a matter of rounding on either side. */
const isPlain = ({ kind, by }: LayFault | Verdict): boolean =>
  by > (kind === 'wrong-turn' || kind === 'off-the-repeat' ? 1e-5 : 0.05) ||
  ['wrong-side-up', 'missing', 'laid-twice', 'unknown-piece'].includes(kind);

/** What the gate calls a fault that is so slight that the library sees no area of it: the next worse one. */
const WORSE: Partial<Record<LayFault['kind'], LayFault['kind']>> = {
  'in-the-margin': 'off-the-cloth',
  'too-close': 'overlap',
};

test('the gate and the independent judge agree on plans that were spoiled, kind by kind', () => {
  const seen = new Map<string, number>();
  const random = seededRandom(4711);
  for (let seed = FIRST_SEED; seed < FIRST_SEED + JOBS / 2; seed += 1) {
    const job = { ...randomLayJob(seed), seconds: 0 };
    const { placed } = planLay(job);
    if (placed.length === 0) continue;
    for (let k = 0; k < 8; k += 1) {
      const wrong = spoiled(job, placed, random);
      const [gate, judge] = [checkLay(job, wrong), judgeLay(job, wrong)];
      for (const { kind } of judge.filter(isPlain)) {
        const found = gate.some((f) => f.kind === kind || f.kind === WORSE[kind]);
        expect({ seed, k, kind, found }).toEqual({ seed, k, kind, found: true });
      }
      // a fault of some depth has an area the library sees
      if (gate.some((f) => isPlain(f) && f.by > 0.5))
        expect({ seed, k, judge }).not.toEqual({ seed, k, judge: [] });
      for (const kind of kindsOf(judge)) seen.set(kind, (seen.get(kind) ?? 0) + 1);
    }
  }
  if (process.env['LAY_JOBS']) console.log(JSON.stringify([...seen]));
  const kinds: LayFault['kind'][] = [
    'overlap',
    'too-close',
    'off-the-cloth',
    'in-the-margin',
    'wrong-turn',
    'wrong-side-up',
    'off-the-repeat',
    'not-mirrored',
    'across-the-fold',
    'other-layer-taken',
    'missing',
    'unknown-piece',
    'laid-twice',
  ];
  expect(kinds.filter((kind) => !seen.has(kind))).toEqual([]);
}, 7_200_000);

test('a job without pieces is laid on nothing', () => {
  expect(judgeLay(jobOf([]), planLay(jobOf([])).placed)).toEqual([]);
});

import type { ClothPlan } from '../layPlan';
import type { LayWork } from './laySeat';

/** A search that is wanted: nominal seconds, from a seed. */
interface Wanted {
  readonly seconds: number;
  readonly seed: number;
}

/** How far one task has come. */
export interface Task extends LayWork {
  readonly key: string;
  readonly isAside: boolean;
  best: ClothPlan | null;
  failed: string | null;
  /** Searches still to be begun. */
  readonly waiting: Wanted[];
  lastSeed: number;
  /** Shifts under way. */
  atWork: number;
  /** The one under way that is not help. */
  own: Shift | null;
}

/** One search in one seat. first: no more than a first plan; own: what was asked for; help: the same from another seed. */
export interface Shift extends Wanted {
  readonly task: Task;
  readonly kind: 'first' | 'own' | 'help';
  /** Nominal seconds still to go. */
  left: number;
}

/** Nominal seconds spent on a first plan while others wait for theirs. */
const FIRST_SECONDS = 0.2;
/** Nominal seconds below which help is not worth starting. */
const LEAST_HELP = 1;

/** Whether a plan lays nothing at all. */
export const emptyCloth = ({ own, bought }: ClothPlan): boolean =>
  own.length === 0 && bought.placed.length === 0;

/** Cloth that lies empty in the best plan, mm²: where most of it does, most can be won. Without a plan: everything. */
function emptyArea({ best }: Task): number {
  if (!best) return Infinity;
  return [...best.own, best.bought].reduce((sum, p) => sum + p.length * p.width * (1 - p.density), 0);
}

const most = (tasks: readonly Task[], gain: (task: Task) => number): Task | undefined =>
  tasks.reduce<Task | undefined>((best, task) => (!best || gain(task) > gain(best) ? task : best), undefined);

const shiftOf = (task: Task, kind: Shift['kind'], wanted: Wanted): Shift => ({
  task,
  kind,
  ...wanted,
  left: wanted.seconds,
});

/** The next search wanted of a task, taken off its list. */
const own = (task: Task): Shift => shiftOf(task, 'own', task.waiting.shift()!);

/** Help for the task where most lies empty for each worker that is on it already. */
function help(tasks: readonly Task[]): Shift | null {
  const worthIt = tasks.filter(
    (t) => t.own?.kind === 'own' && !t.isAside && t.own.left >= LEAST_HELP && t.best,
  );
  const task = most(worthIt, (t) => emptyArea(t) / (t.atWork + 1));
  if (!task) return null;
  task.lastSeed += 1;
  return shiftOf(task, 'help', { seconds: task.own!.left, seed: task.lastSeed });
}

/**
 * What a free seat should do next: null when nothing is left.
 * @param tasks in the order in which they came
 * @param free  seats free now, this one counted
 */
export function nextShift(tasks: readonly Task[], free: number): Shift | null {
  const idle = tasks.filter((t) => !t.own && t.waiting.length > 0);
  const hungry = idle.filter((t) => !t.best && !t.isAside);
  const [first] = hungry;
  if (first && hungry.length > free)
    return shiftOf(first, 'first', {
      seconds: Math.min(FIRST_SECONDS, first.waiting[0]!.seconds),
      seed: first.job.seed,
    });
  const next =
    first ??
    most(
      idle.filter((t) => !t.isAside),
      emptyArea,
    ) ??
    idle[0];
  return next ? own(next) : help(tasks);
}

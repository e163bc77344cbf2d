import type { ClothPlan } from '../layPlan';
import { isBetterCloth } from './betterCloth';
import { LaySeat } from './laySeat';
import type { LayWork, WorkEnd, WorkerLike } from './laySeat';
import { emptyCloth, nextShift, type Shift, type Task } from './shifts';

/** What is to be laid, under a key of the asker's. */
export interface TeamTask extends LayWork {
  readonly key: string;
  /** Nominal seconds to search; then it rests. */
  readonly seconds: number;
  /** After everything else, and without help: for comparing. */
  readonly isAside?: boolean;
}

/** What is heard of the tasks, by their keys. */
export interface TeamListener {
  /** Each plan better than the last. */
  readonly onBetter: (key: string, plan: ClothPlan) => void;
  /** Share 0..1 of the seconds asked for. */
  readonly onProgress: (key: string, progress: number) => void;
  /** Whenever a task has come to the end of what was asked for, or was stopped. */
  readonly onRest: (key: string, failed: string | null) => void;
}

interface Place {
  readonly seat: LaySeat;
  shift: Shift | null;
}

/**
 * Workers at one table. Every task gets its first plan before any is searched for long; then each is searched by one worker of its
 * own as long as there are seats, those with most cloth lying empty first, and seats left over try the same pieces from other
 * seeds. Never more workers than seats. The best plan wins, whoever found it.
 */
export class LayTeam {
  private readonly places: readonly Place[];
  private readonly tasks = new Map<string, Task>();
  private readonly listener: TeamListener;

  /** @param seats how many workers there may be at once, at least 1 */
  constructor(listener: TeamListener, seats: number, makeWorker: () => WorkerLike) {
    this.listener = listener;
    this.places = Array.from({ length: Math.max(1, Math.floor(seats)) }, () => ({
      seat: new LaySeat(makeWorker),
      shift: null,
    }));
  }

  /** Begin with some tasks; those of the same keys are given up for them. */
  search(tasks: readonly TeamTask[]): void {
    for (const { key, job, remnants, seconds, isAside = false } of tasks) {
      this.forget(key);
      const waiting = [{ seconds, seed: job.seed }];
      const isNew = { best: null, failed: null, lastSeed: job.seed, atWork: 0, own: null };
      this.tasks.set(key, { key, job, remnants, isAside, waiting, ...isNew });
    }
    this.makeRoom();
    this.seatAll();
  }

  /** Search on for so many nominal seconds, from a seed not tried yet; the best plan so far stays. */
  searchOn(key: string, seconds: number): void {
    const task = this.tasks.get(key);
    if (!task || task.failed) return;
    task.lastSeed += 1;
    task.waiting.push({ seconds, seed: task.lastSeed });
    this.listener.onProgress(key, 0);
    const canWait = ({ shift }: Place): boolean => shift?.kind === 'help' || shift?.task.isAside === true;
    const place = this.places.some(({ shift }) => !shift) ? undefined : this.places.find(canWait);
    if (place && !task.own) this.putOff(place);
    this.seatAll();
  }

  /** Take up a task laid before, with the plan it had and the last seed tried: to be searched on when that is asked for. */
  remember({ key, job, remnants }: Omit<TeamTask, 'seconds'>, best: ClothPlan, lastSeed: number): void {
    this.drop(key);
    const rests = { isAside: false, failed: null, waiting: [], atWork: 0, own: null };
    this.tasks.set(key, { key, job, remnants, best, lastSeed, ...rests });
  }

  /** The last seed that was tried for a task. */
  lastSeedOf(key: string): number {
    return this.tasks.get(key)?.lastSeed ?? 0;
  }

  /** Leave off at once and keep the best plan; it can be searched on. */
  stop(key: string): void {
    const task = this.tasks.get(key);
    if (!task || (task.atWork === 0 && task.waiting.length === 0)) return;
    this.callBack(key);
    this.listener.onRest(key, task.failed);
    this.seatAll();
  }

  /** Leave off at once and forget the task; nothing more is heard of it. */
  drop(key: string): void {
    this.forget(key);
    this.seatAll();
  }

  private forget(key: string): void {
    if (!this.tasks.has(key)) return;
    this.callBack(key);
    this.tasks.delete(key);
  }

  private callBack(key: string): void {
    this.tasks.get(key)!.waiting.length = 0;
    for (const place of this.places) if (place.shift?.task.key === key) this.leaveOff(place);
  }

  private leaveOff(place: Place): Shift {
    const shift = place.shift!;
    place.shift = null;
    place.seat.cancel();
    shift.task.atWork -= 1;
    if (shift.task.own === shift) shift.task.own = null;
    return shift;
  }

  /** Tasks without any plan do not wait for those that have one: help is called off for them, long searches go back to the queue. */
  private makeRoom(): void {
    const hungry = [...this.tasks.values()].filter((t) => !t.best && !t.own && !t.isAside).length;
    let free = this.places.filter(({ shift }) => !shift).length;
    for (; free < hungry; free += 1) {
      const place = this.leastNeeded();
      if (!place) return;
      this.putOff(place);
    }
  }

  /** Leave off; what is left of the work goes back to the queue, unless it was help. */
  private putOff(place: Place): void {
    const { task, kind, left } = this.leaveOff(place);
    if (kind === 'help') return;
    task.lastSeed += 1;
    task.waiting.unshift({ seconds: left, seed: task.lastSeed });
  }

  /** The seat whose work can best be put off: help, then what is only for comparing, then the search with most before it. */
  private leastNeeded(): Place | undefined {
    const rank = ({ shift }: Place): number =>
      shift!.kind === 'help' ? 2e9 : shift!.task.isAside ? 1e9 : shift!.left;
    return this.places
      .filter(({ shift }) => shift?.task.best && shift.kind !== 'first')
      .sort((a, b) => rank(b) - rank(a))[0];
  }

  private seatAll(): void {
    for (const place of this.places) {
      if (place.shift) continue;
      const free = this.places.filter(({ shift }) => !shift).length;
      const shift = nextShift([...this.tasks.values()], free);
      if (!shift) break;
      this.begin(place, shift);
    }
    if (this.places.every(({ shift }) => !shift)) for (const { seat } of this.places) seat.dismiss();
  }

  private begin(place: Place, shift: Shift): void {
    const { task, seconds, seed, kind } = shift;
    place.shift = shift;
    task.atWork += 1;
    if (kind !== 'help') task.own = shift;
    const hear = (progress: number): void => {
      shift.left = seconds * (1 - progress);
      if (kind === 'own') this.listener.onProgress(task.key, progress);
    };
    place.seat.begin(
      { job: { ...task.job, seconds, seed }, remnants: task.remnants },
      {
        onPlan: (plan, progress) => {
          this.offer(task, plan);
          hear(progress);
        },
        onProgress: hear,
        onEnded: (end) => this.ended(place, shift, end),
      },
    );
  }

  private offer(task: Task, plan: ClothPlan): void {
    if (!isBetterCloth(plan, task.best)) return;
    task.best = plan;
    this.listener.onBetter(task.key, plan);
  }

  private ended(place: Place, { task, kind }: Shift, end: WorkEnd): void {
    place.shift = null;
    task.atWork -= 1;
    if (kind !== 'help') task.own = null;
    if (end.because === 'failed' && kind !== 'help') {
      task.failed = end.message;
      task.waiting.length = 0;
    }
    // nothing can be laid: searching longer would say the same again
    if (task.best && emptyCloth(task.best)) task.waiting.length = 0;
    if (task.atWork === 0 && task.waiting.length === 0) this.listener.onRest(task.key, task.failed);
    this.seatAll();
  }

  /** End everything at once. */
  end(): void {
    for (const place of this.places) if (place.shift) this.leaveOff(place);
    this.tasks.clear();
    for (const { seat } of this.places) seat.dismiss();
  }
}

/** Workers that say only what a test lets them say. */
import type { ClothPlan, LayJob, LayPlan } from '../../src/fabric';
import type { FromLay, ToLay } from '../../src/fabric/worker/contract';
import type { WorkerLike } from '../../src/fabric/worker/laySeat';

/** A bought plan of a job: all its pieces placed, on so many mm. */
export function planOf(job: LayJob, length: number): ClothPlan {
  const placed = job.pieces.map(({ panel, copy, flipped }) => ({
    panel,
    copy,
    flipped,
    x: 0,
    y: 0,
    rotation: 0,
  }));
  const bought: LayPlan = {
    colour: job.colour,
    width: job.width,
    layering: job.layering,
    within: null,
    length,
    buy: Math.ceil(length / 100) * 100,
    density: 0.5,
    seconds: job.seconds,
    placed,
    problems: [],
  };
  return { own: [], bought };
}

type Begun = Extract<ToLay, { kind: 'start' }>;

export class FakeWorker implements WorkerLike {
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  isEnded = false;
  readonly asked: Begun[] = [];

  postMessage(message: ToLay): void {
    if (message.kind === 'start') this.asked.push(message);
  }

  terminate(): void {
    this.isEnded = true;
  }

  get job(): LayJob {
    return this.asked.at(-1)!.job;
  }

  private say(message: FromLay): void {
    this.onmessage?.({ data: structuredClone(message) } as MessageEvent<FromLay>);
  }

  private get jobId(): number {
    return this.asked.at(-1)!.jobId;
  }

  better(length: number, progress = 0): void {
    this.say({ kind: 'better', jobId: this.jobId, plan: planOf(this.job, length), progress });
  }

  progress(progress: number): void {
    this.say({ kind: 'progress', jobId: this.jobId, progress });
  }

  finish(length: number): void {
    this.better(length, 1);
    this.say({ kind: 'ended', jobId: this.jobId, because: 'finished', plan: planOf(this.job, length) });
  }

  finishWith(plan: ClothPlan): void {
    this.say({ kind: 'better', jobId: this.jobId, plan, progress: 1 });
    this.say({ kind: 'ended', jobId: this.jobId, because: 'finished', plan });
  }

  fail(message: string): void {
    this.say({ kind: 'failed', jobId: this.jobId, message });
  }

  speakOld(): void {
    this.say({ kind: 'wrong-contract', jobId: this.jobId, workerSpeaks: 1 });
  }

  die(): void {
    this.onerror?.(new Event('error') as ErrorEvent);
  }
}

/** Makes fake workers and remembers them. */
export function fakeWorkers(): {
  readonly all: FakeWorker[];
  readonly make: () => FakeWorker;
  /** Those at work now, by colour. */
  readonly living: () => FakeWorker[];
} {
  const all: FakeWorker[] = [];
  const make = (): FakeWorker => {
    const worker = new FakeWorker();
    all.push(worker);
    return worker;
  };
  return { all, make, living: () => all.filter((w) => !w.isEnded) };
}

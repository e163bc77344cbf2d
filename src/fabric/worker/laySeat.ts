import type { Remnant } from '../../pattern';
import type { ClothPlan, LayJob } from '../layPlan';
import { LAYOUT_CONTRACT } from './contract';
import type { FromLay, ToLay } from './contract';

/** What a seat is asked to lay. */
export interface LayWork {
  readonly job: LayJob;
  /** One's own pieces of that cloth. */
  readonly remnants: readonly Remnant[];
}

/** How a piece of work ended of itself. `failed` carries a sentence for the person. */
export type WorkEnd =
  { readonly because: 'finished' } | { readonly because: 'failed'; readonly message: string };

/** What is heard of one piece of work. */
export interface SeatListener {
  /** Plans as they come; after a restart they begin again with the first. */
  readonly onPlan: (plan: ClothPlan, progress: number) => void;
  readonly onProgress: (progress: number) => void;
  /** Exactly once, unless it was cancelled: then nothing more is heard of it. */
  readonly onEnded: (end: WorkEnd) => void;
}

/** The part of a Worker that is used here. */
export interface WorkerLike {
  postMessage(message: ToLay): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromLay>) => unknown) | null;
  onerror: ((event: ErrorEvent) => unknown) | null;
}

/** Said where a tab still holds a worker of an older version, and where workers keep dying. */
export const OLD_WORKER = 'The lay planner in this tab is from an older version. Reload the page.';
export const NO_WORKER = 'The lay planner stopped working. Reload the page; your design is kept.';

interface Running extends LayWork {
  readonly jobId: number;
  readonly listener: SeatListener;
  restarts: number;
}

let lastJob = 0;

/**
 * A place for one worker at the table: it does one piece of work after another, in the same worker as long as that lives. A worker
 * that dies is started once more for the same work; its second death is reported.
 */
export class LaySeat {
  private worker: WorkerLike | null = null;
  private running: Running | null = null;
  private readonly makeWorker: () => WorkerLike;

  constructor(makeWorker: () => WorkerLike) {
    this.makeWorker = makeWorker;
  }

  get isFree(): boolean {
    return this.running === null;
  }

  /** @throws RangeError while it is at work */
  begin(work: LayWork, listener: SeatListener): void {
    if (this.running) throw new RangeError('this seat is taken');
    lastJob += 1;
    this.running = { ...work, jobId: lastJob, listener, restarts: 1 };
    this.send();
  }

  private send(): void {
    const { job, remnants, jobId } = this.running!;
    this.worker ??= this.newWorker();
    this.worker.postMessage({ kind: 'start', contract: LAYOUT_CONTRACT, jobId, job, remnants });
  }

  private newWorker(): WorkerLike {
    const worker = this.makeWorker();
    worker.onmessage = (event) => this.hear(event.data);
    worker.onerror = () => this.died(worker);
    return worker;
  }

  private died(worker: WorkerLike): void {
    if (worker !== this.worker) return;
    this.dismiss();
    if (!this.running) return;
    if (this.running.restarts === 0) return this.end({ because: 'failed', message: NO_WORKER });
    this.running.restarts -= 1;
    this.send();
  }

  private hear(message: FromLay): void {
    const { running } = this;
    if (!running || message.jobId !== running.jobId) return;
    if (message.kind === 'better') running.listener.onPlan(message.plan, message.progress);
    else if (message.kind === 'progress') running.listener.onProgress(message.progress);
    else if (message.kind === 'ended') this.end({ because: 'finished' });
    else if (message.kind === 'failed') this.end({ because: 'failed', message: message.message });
    else this.end({ because: 'failed', message: OLD_WORKER });
  }

  private end(end: WorkEnd): void {
    const { listener } = this.running!;
    this.running = null;
    listener.onEnded(end);
  }

  /** Leave off at once, whatever the worker is doing: it is ended. */
  cancel(): void {
    if (!this.running) return;
    this.running = null;
    this.dismiss();
  }

  /** Let the worker go; the next piece of work gets a new one. */
  dismiss(): void {
    this.worker?.terminate();
    this.worker = null;
  }
}

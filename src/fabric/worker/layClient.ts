import type { LayJob, LayPlan } from '../layPlan';
import { LAYOUT_CONTRACT } from './contract';
import type { FromLay, ToLay } from './contract';

/** How a job ended. `failed` carries a sentence for the person. */
export type LayEnd =
  | { readonly because: 'finished' | 'cancelled'; readonly plan: LayPlan | null }
  | { readonly because: 'failed'; readonly message: string; readonly plan: LayPlan | null };

export interface LayListener {
  /** Each plan shorter than the last; the first comes at once. */
  readonly onBetter?: (plan: LayPlan, progress: number) => void;
  readonly onProgress?: (progress: number) => void;
  /** Exactly once. */
  readonly onEnded?: (end: LayEnd) => void;
}

/** The part of a Worker that is used here. */
export interface WorkerLike {
  postMessage(message: ToLay): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromLay>) => unknown) | null;
  onerror: ((event: ErrorEvent) => unknown) | null;
}

const layWorker = (): WorkerLike =>
  new Worker(new URL('./layWorker.ts', import.meta.url), { type: 'module' });

const OLD_WORKER = 'The lay planner in this tab is from an older version. Reload the page.';
const NO_WORKER = 'The lay planner stopped working. Reload the page; your design is kept.';

/** One job in one worker of its own. A worker that dies is started once more; the second death is reported. */
class RunningJob {
  private worker: WorkerLike | null = null;
  private best: LayPlan | null = null;
  private restarts = 1;
  private readonly jobId: number;
  private readonly job: LayJob;
  private readonly listener: LayListener;
  private readonly makeWorker: () => WorkerLike;

  constructor(jobId: number, job: LayJob, listener: LayListener, makeWorker: () => WorkerLike) {
    this.jobId = jobId;
    this.job = job;
    this.listener = listener;
    this.makeWorker = makeWorker;
    this.begin();
  }

  private begin(): void {
    const worker = this.makeWorker();
    worker.onmessage = (event) => this.hear(event.data);
    worker.onerror = () => this.restart();
    this.worker = worker;
    worker.postMessage({ kind: 'start', contract: LAYOUT_CONTRACT, jobId: this.jobId, job: this.job });
  }

  private restart(): void {
    this.worker?.terminate();
    if (this.restarts === 0) return this.end({ because: 'failed', message: NO_WORKER, plan: this.best });
    this.restarts -= 1;
    this.begin();
  }

  private hear(message: FromLay): void {
    if (message.jobId !== this.jobId || !this.worker) return;
    if (message.kind === 'better') this.better(message.plan, message.progress);
    else if (message.kind === 'progress') this.listener.onProgress?.(message.progress);
    else if (message.kind === 'ended')
      this.end({ because: message.because, plan: message.plan ?? this.best });
    else if (message.kind === 'failed')
      this.end({ because: 'failed', message: message.message, plan: this.best });
    else this.end({ because: 'failed', message: OLD_WORKER, plan: this.best });
  }

  private better(plan: LayPlan, progress: number): void {
    if (this.best && plan.length >= this.best.length) return; // a restarted worker begins again
    this.best = plan;
    this.listener.onBetter?.(plan, progress);
  }

  private end(end: LayEnd): void {
    if (!this.worker) return;
    this.worker.terminate();
    this.worker = null;
    this.listener.onEnded?.(end);
  }

  /** Stops at once: the worker is ended, whatever it is doing. */
  cancel(): void {
    this.end({ because: 'cancelled', plan: this.best });
  }
}

let lastJob = 0;

/**
 * Lay a job in a worker.
 * @param makeWorker for tests; the default starts the real worker
 * @returns cancel: ends the job at once, keeping the best plan; without effect once it has ended
 */
export function startLayJob(
  job: LayJob,
  listener: LayListener,
  makeWorker: () => WorkerLike = layWorker,
): { cancel(): void } {
  lastJob += 1;
  const running = new RunningJob(lastJob, job, listener, makeWorker);
  return { cancel: () => running.cancel() };
}

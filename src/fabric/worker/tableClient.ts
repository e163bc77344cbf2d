import type { LayJob, LayPlan } from '../layPlan';
import type { WidthRow } from '../shopping/widthTable';
import { TABLE_CONTRACT } from './tableContract';
import type { FromTable, ToTable } from './tableContract';

/** How a table ended. `failed` carries a sentence for the person. */
export type TableEnd =
  { readonly because: 'finished' | 'cancelled' } | { readonly because: 'failed'; readonly message: string };

/** What is heard of a table. */
export interface TableListener {
  /** With every entry that is found; the first, with the plan shown alone, comes at once. */
  readonly onRows?: (rows: readonly WidthRow[], progress: number) => void;
  /** A shorter plan for the job itself than the one that is shown. */
  readonly onBetter?: (plan: LayPlan) => void;
  /** Exactly once. */
  readonly onEnded?: (end: TableEnd) => void;
}

/** The part of a Worker that is used here. */
export interface TableWorkerLike {
  postMessage(message: ToTable): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromTable>) => unknown) | null;
  onerror: ((event: ErrorEvent) => unknown) | null;
}

/** What a table is made of: the job, the plan that is shown, and the width of its cloth as it is sold, mm. */
export interface TableOrder {
  readonly job: LayJob;
  readonly shown: LayPlan;
  readonly width: number;
}

const tableWorker = (): TableWorkerLike =>
  new Worker(new URL('./tableWorker.ts', import.meta.url), { type: 'module' });

const OLD_WORKER = 'The lay planner in this tab is from an older version. Reload the page.';
const NO_WORKER = 'The table of widths could not be finished. Reload the page; your design is kept.';

/** One table in one worker of its own. A worker that dies is started once more; the second death is reported. */
class RunningTable {
  private worker: TableWorkerLike | null = null;
  private progress = -1;
  private better: LayPlan | null = null;
  private restarts = 1;
  private readonly jobId: number;
  private readonly order: TableOrder;
  private readonly listener: TableListener;
  private readonly makeWorker: () => TableWorkerLike;

  constructor(jobId: number, order: TableOrder, listener: TableListener, makeWorker: () => TableWorkerLike) {
    this.jobId = jobId;
    this.order = order;
    this.listener = listener;
    this.makeWorker = makeWorker;
    this.begin();
  }

  private begin(): void {
    const worker = this.makeWorker();
    worker.onmessage = (event) => this.hear(event.data);
    worker.onerror = () => this.restart();
    this.worker = worker;
    worker.postMessage({ kind: 'start', contract: TABLE_CONTRACT, jobId: this.jobId, ...this.order });
  }

  private restart(): void {
    this.worker?.terminate();
    if (this.restarts === 0) return this.end({ because: 'failed', message: NO_WORKER });
    this.restarts -= 1;
    this.begin();
  }

  private hear(message: FromTable): void {
    if (message.jobId !== this.jobId || !this.worker) return;
    if (message.kind === 'rows') this.rows(message);
    else if (message.kind === 'ended') this.end({ because: message.because });
    else if (message.kind === 'failed') this.end({ because: 'failed', message: message.message });
    else this.end({ because: 'failed', message: OLD_WORKER });
  }

  private rows({ rows, better, progress }: Extract<FromTable, { kind: 'rows' }>): void {
    if (progress <= this.progress) return; // a restarted worker begins again
    this.progress = progress;
    this.listener.onRows?.(rows, progress);
    if (better === null || this.better !== null) return;
    this.better = better;
    this.listener.onBetter?.(better);
  }

  private end(end: TableEnd): void {
    if (!this.worker) return;
    this.worker.terminate();
    this.worker = null;
    this.listener.onEnded?.(end);
  }

  /** Stops at once: the worker is ended, whatever it is doing. */
  cancel(): void {
    this.end({ because: 'cancelled' });
  }
}

let lastJob = 0;

/**
 * Fill a table of widths in a worker.
 * @param makeWorker for tests; the default starts the real worker
 * @returns cancel: ends it at once; without effect once it has ended
 */
export function startTable(
  order: TableOrder,
  listener: TableListener,
  makeWorker: () => TableWorkerLike = tableWorker,
): { cancel(): void } {
  lastJob += 1;
  const running = new RunningTable(lastJob, order, listener, makeWorker);
  return { cancel: () => running.cancel() };
}

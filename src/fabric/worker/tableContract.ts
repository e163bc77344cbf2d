import type { LayJob, LayPlan } from '../layPlan';
import type { WidthRow } from '../shopping/widthTable';

/** Raise on any change of the messages or of LayJob, LayPlan and WidthRow: a tab may still hold an old worker. */
export const TABLE_CONTRACT = 1;

/** To the worker. */
export type ToTable =
  | {
      readonly kind: 'start';
      readonly contract: number;
      readonly jobId: number;
      readonly job: LayJob;
      /** The plan that is shown for the job. */
      readonly shown: LayPlan;
      /** Width of the job's cloth as it is sold, mm. */
      readonly width: number;
    }
  | { readonly kind: 'cancel'; readonly jobId: number };

/** From the worker, for each job by its number. */
export type FromTable =
  /** Any number, each with more entries than the last; the first comes at once. */
  | {
      readonly kind: 'rows';
      readonly jobId: number;
      readonly rows: readonly WidthRow[];
      /** A shorter plan for the job itself than the one shown, if one was found. */
      readonly better: LayPlan | null;
      readonly progress: number;
    }
  /** Then exactly one of these three. */
  | { readonly kind: 'ended'; readonly jobId: number; readonly because: 'finished' | 'cancelled' }
  | { readonly kind: 'failed'; readonly jobId: number; readonly message: string }
  | { readonly kind: 'wrong-contract'; readonly jobId: number; readonly workerSpeaks: number };

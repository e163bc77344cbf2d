import type { Remnant } from '../../pattern';
import type { ClothPlan, LayJob } from '../layPlan';

/** Raise on any change of the messages or of LayJob, ClothPlan and LayPlan: a tab may still hold an old worker. */
export const LAYOUT_CONTRACT = 2;

/** To the worker. */
export type ToLay =
  | {
      readonly kind: 'start';
      readonly contract: number;
      readonly jobId: number;
      readonly job: LayJob;
      /** One's own pieces of cloth, laid on first. */
      readonly remnants: readonly Remnant[];
    }
  | { readonly kind: 'cancel'; readonly jobId: number };

/** From the worker, for each job by its number. */
export type FromLay =
  /** Any number, each better than the last; the first comes at once. */
  | { readonly kind: 'better'; readonly jobId: number; readonly plan: ClothPlan; readonly progress: number }
  | { readonly kind: 'progress'; readonly jobId: number; readonly progress: number }
  /** Then exactly one of these three. The plan is the best one found; null only if cancelled before the first. */
  | {
      readonly kind: 'ended';
      readonly jobId: number;
      readonly because: 'finished' | 'cancelled';
      readonly plan: ClothPlan | null;
    }
  | { readonly kind: 'failed'; readonly jobId: number; readonly message: string }
  | { readonly kind: 'wrong-contract'; readonly jobId: number; readonly workerSpeaks: number };

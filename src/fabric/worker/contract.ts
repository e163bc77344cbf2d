import type { LayJob, LayPlan } from '../layPlan';

/** Raise on any change of the messages or of LayJob and LayPlan: a tab may still hold an old worker. */
export const LAYOUT_CONTRACT = 1;

export type ToLay =
  | { readonly kind: 'start'; readonly contract: number; readonly jobId: number; readonly job: LayJob }
  | { readonly kind: 'cancel'; readonly jobId: number };

export type FromLay =
  /** Any number, each shorter than the last; the first comes at once. */
  | { readonly kind: 'better'; readonly jobId: number; readonly plan: LayPlan; readonly progress: number }
  | { readonly kind: 'progress'; readonly jobId: number; readonly progress: number }
  /** Then exactly one of these three. The plan is the best one found; null only if cancelled before the first. */
  | {
      readonly kind: 'ended';
      readonly jobId: number;
      readonly because: 'finished' | 'cancelled';
      readonly plan: LayPlan | null;
    }
  | { readonly kind: 'failed'; readonly jobId: number; readonly message: string }
  | { readonly kind: 'wrong-contract'; readonly jobId: number; readonly workerSpeaks: number };

/**
 * The lay planner in a worker: for the workbench only (the command line calls planLay). Promises that a job ends exactly
 * once, and at once when it is cancelled.
 */
export { startLayJob } from './layClient';
export type { LayEnd, LayListener } from './layClient';

import type { WorkerLike } from './laySeat';

/** The real worker, in a file of its own. */
export const newLayWorker = (): WorkerLike =>
  new Worker(new URL('./layWorker.ts', import.meta.url), { type: 'module' });

/** How many workers may run at once here: one for each core the browser tells of. */
export const seatsHere = (): number => Math.max(1, navigator.hardwareConcurrency || 1);

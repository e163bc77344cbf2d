import { startCloth } from '../remnants/startCloth';
import type { ClothSearch } from '../remnants/startCloth';
import { WORK_PER_SECOND } from '../search/startLay';
import { LAYOUT_CONTRACT } from './contract';
import type { FromLay, ToLay } from './contract';

/** Work between two looks at the post: about 20 ms, so that a cancel is heard in time. */
const SLICE = WORK_PER_SECOND / 50;
/** Slices between two progress messages. */
const PROGRESS_EVERY = 5;

/**
 * The worker's whole behaviour without a Worker: takes messages, answers with `post`, one job after another, each ended
 * exactly once. `pause` lets messages in between slices.
 */
export function answerLay(
  post: (message: FromLay) => void,
  pause: () => Promise<void>,
): (message: ToLay) => Promise<void> {
  const cancelled = new Set<number>();

  async function search(jobId: number, running: ClothSearch): Promise<void> {
    post({ kind: 'better', jobId, plan: running.best, progress: running.progress });
    for (let slice = 1; !running.done; slice += 1) {
      await pause();
      if (cancelled.has(jobId))
        return post({ kind: 'ended', jobId, because: 'cancelled', plan: running.best });
      if (running.step(SLICE))
        post({ kind: 'better', jobId, plan: running.best, progress: running.progress });
      else if (slice % PROGRESS_EVERY === 0) post({ kind: 'progress', jobId, progress: running.progress });
    }
    post({ kind: 'ended', jobId, because: 'finished', plan: running.best });
  }

  return async (message) => {
    const { jobId } = message;
    if (message.kind === 'cancel') {
      cancelled.add(jobId);
      return;
    }
    if (message.contract !== LAYOUT_CONTRACT)
      return post({ kind: 'wrong-contract', jobId, workerSpeaks: LAYOUT_CONTRACT });
    try {
      await pause();
      if (cancelled.has(jobId)) post({ kind: 'ended', jobId, because: 'cancelled', plan: null });
      else await search(jobId, startCloth(message.job, message.remnants));
    } catch (error) {
      post({ kind: 'failed', jobId, message: error instanceof Error ? error.message : String(error) });
    } finally {
      cancelled.delete(jobId);
    }
  };
}

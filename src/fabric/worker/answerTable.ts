import { WORK_PER_SECOND } from '../search/startLay';
import { type WidthTable, startWidthTable } from '../shopping/widthTable';
import { TABLE_CONTRACT } from './tableContract';
import type { FromTable, ToTable } from './tableContract';

/** Work between two looks at the post: about 20 ms, so that a cancel is heard in time. */
const SLICE = WORK_PER_SECOND / 50;

/**
 * The table worker's whole behaviour without a Worker: takes messages, answers with `post`, each job ended exactly once. `pause` lets
 * messages in between slices.
 */
export function answerTable(
  post: (message: FromTable) => void,
  pause: () => Promise<void>,
): (message: ToTable) => Promise<void> {
  const cancelled = new Set<number>();

  const tell = (jobId: number, { rows, better, progress }: WidthTable): void =>
    post({ kind: 'rows', jobId, rows, better, progress });

  async function fill(jobId: number, table: WidthTable): Promise<void> {
    tell(jobId, table);
    while (!table.done) {
      await pause();
      if (cancelled.has(jobId)) return post({ kind: 'ended', jobId, because: 'cancelled' });
      if (table.step(SLICE)) tell(jobId, table);
    }
    post({ kind: 'ended', jobId, because: 'finished' });
  }

  return async (message) => {
    const { jobId } = message;
    if (message.kind === 'cancel') {
      cancelled.add(jobId);
      return;
    }
    if (message.contract !== TABLE_CONTRACT)
      return post({ kind: 'wrong-contract', jobId, workerSpeaks: TABLE_CONTRACT });
    try {
      await pause();
      if (cancelled.has(jobId)) post({ kind: 'ended', jobId, because: 'cancelled' });
      else await fill(jobId, startWidthTable(message.job, message.shown, { width: message.width }));
    } catch (error) {
      post({ kind: 'failed', jobId, message: error instanceof Error ? error.message : String(error) });
    } finally {
      cancelled.delete(jobId);
    }
  };
}

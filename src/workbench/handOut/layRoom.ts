import type { LayJob, LayPlan } from '../../fabric';
import type { Garment } from '../../garment';
import type { ColourId } from '../../pattern';

/** How far the lay plan of one cloth has come. */
export interface LayState {
  readonly colour: ColourId;
  readonly job: LayJob;
  /** Best so far; null until the first. */
  readonly plan: LayPlan | null;
  /** 0 to 1. */
  readonly progress: number;
  readonly done: boolean;
  readonly failed: string | null;
}

type Listener = (lays: readonly LayState[]) => void;
type FabricRoom = typeof import('../../fabric');
type LayClient = typeof import('../../fabric/worker/layClient');

/** What the room needs of the lay planner; loaded when first needed. */
export interface LayPlanner {
  layJobs: FabricRoom['layJobs'];
  startLayJob: LayClient['startLayJob'];
}

const loadPlanner = async (): Promise<LayPlanner> => {
  const [{ layJobs }, { startLayJob }] = await Promise.all([
    import('../../fabric'),
    import('../../fabric/worker/layClient'),
  ]);
  return { layJobs, startLayJob };
};

/**
 * Lays cloths in workers, one garment at a time; a change of what is cut ends the work under way and begins anew.
 * Finished plans are kept as long as the same pieces are laid.
 */
export class LayRoom {
  private lays: readonly LayState[] = [];
  private laid = '';
  private wanted = 0;
  private running: { cancel(): void }[] = [];
  private readonly listeners = new Set<Listener>();
  private readonly load: () => Promise<LayPlanner>;

  constructor(load: () => Promise<LayPlanner> = loadPlanner) {
    this.load = load;
  }

  now(): readonly LayState[] {
    return this.lays;
  }

  listen(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private tell(): void {
    for (const listener of this.listeners) listener(this.lays);
  }

  private put(colour: ColourId, patch: Partial<LayState>): void {
    this.lays = this.lays.map((lay) => (lay.colour === colour ? { ...lay, ...patch } : lay));
    this.tell();
  }

  /** See to it that this garment is being laid. */
  async lay(garment: Garment): Promise<void> {
    this.wanted += 1;
    const turn = this.wanted;
    const { layJobs, startLayJob } = await this.load();
    if (turn !== this.wanted) return;
    const jobs = layJobs(garment);
    const signature = JSON.stringify(jobs);
    if (signature === this.laid && !this.lays.some(({ failed }) => failed)) return;
    this.stop();
    this.laid = signature;
    this.lays = jobs.map((job) => ({
      colour: job.colour,
      job,
      plan: null,
      progress: 0,
      done: false,
      failed: null,
    }));
    this.tell();
    this.running = jobs.map((job) =>
      startLayJob(job, {
        onBetter: (plan, progress) => this.put(job.colour, { plan, progress }),
        onProgress: (progress) => this.put(job.colour, { progress }),
        onEnded: (end) => {
          if (end.because === 'cancelled') return;
          this.put(job.colour, {
            plan: end.plan,
            progress: 1,
            done: true,
            failed: end.because === 'failed' ? end.message : null,
          });
        },
      }),
    );
  }

  /** End what is under way; the best plans so far stay to be seen. */
  stop(): void {
    for (const job of this.running) job.cancel();
    this.running = [];
    this.laid = '';
  }

  /** The finished plans of a garment, in the order of its colours. @throws Error saying why a cloth could not be laid */
  async finished(garment: Garment): Promise<LayPlan[]> {
    await this.lay(garment);
    return new Promise((resolve, reject) => {
      const check = (lays: readonly LayState[]): void => {
        const failed = lays.find((lay) => lay.failed);
        if (failed?.failed) return settle(() => reject(new Error(failed.failed!)));
        if (lays.every((lay) => lay.done)) settle(() => resolve(lays.flatMap((lay) => lay.plan ?? [])));
      };
      const unlisten = this.listen(check);
      const settle = (end: () => void): void => {
        unlisten();
        end();
      };
      check(this.lays);
    });
  }
}

import type { ClothPlan, LayJob, LayPlan } from '../../fabric';
import type { LayTeam, TeamListener } from '../../fabric/worker';
import type { Garment } from '../../garment';
import type { ColourId, Remnant } from '../../pattern';
import { LayMemory, type LengthAt } from './layMemory';
import { otherWay } from './otherWay';

/** How far the lay plan of one cloth has come. */
export interface LayState {
  readonly colour: ColourId;
  readonly job: LayJob;
  /** Best so far; null until the first. */
  readonly plan: ClothPlan | null;
  /** Share 0..1 of the search asked for. */
  readonly progress: number;
  /** At rest: as much was searched as was asked for, or it was stopped. */
  readonly done: boolean;
  readonly failed: string | null;
  /** How the length came down. */
  readonly history: readonly LengthAt[];
  /** Seconds searched until the last word from the planner. */
  readonly searched: number;
  /** The same pieces laid the other way, folded instead of in one layer or the reverse; null until it is known or where it makes no odds. */
  readonly other: ClothPlan | null;
}

type Listener = (lays: readonly LayState[]) => void;

type Team = Pick<LayTeam, 'search' | 'searchOn' | 'remember' | 'stop' | 'drop' | 'lastSeedOf'>;

/** What the room needs of the lay planner; loaded when first needed. */
export interface LayPlanner {
  readonly layJobs: (garment: Garment, settings: { seconds: number }) => LayJob[];
  readonly makeTeam: (listener: TeamListener) => Team;
}

const loadPlanner = async (): Promise<LayPlanner> => {
  const [{ layJobs }, worker] = await Promise.all([import('../../fabric'), import('../../fabric/worker')]);
  return {
    layJobs,
    makeTeam: (listener) => new worker.LayTeam(listener, worker.seatsHere(), worker.newLayWorker),
  };
};

/** Nominal seconds a cloth is searched without being asked. */
export const USUAL_SECONDS = 4;

/** Nominal seconds spent on the other layering, to compare. */
const OTHER_SECONDS = 1.5;
const OTHER = ' the other way';

/** What the room keeps of a cloth beside what it shows. */
interface Laid {
  readonly signature: string;
  readonly remnants: readonly Remnant[];
  /** When the stretch of searching under way began, s by the clock; null while it rests. */
  since: number | null;
  /** Seconds searched before that. */
  before: number;
}

/** A cloth to be laid. */
interface Wanted {
  readonly job: LayJob;
  readonly remnants: readonly Remnant[];
  readonly signature: string;
}

const CHANGED = 'The pattern was changed while its cloth was being laid. Ask for it again.';

const plansOf = ({ plan }: LayState): LayPlan[] => (plan ? [...plan.own, plan.bought] : []);

/**
 * Lays cloths with a team of workers. A change of what is cut from a cloth ends the work on that cloth alone and begins anew; plans are kept
 * by what they lay, so that a step taken back has its plan again at once.
 */
export class LayRoom {
  private lays: readonly LayState[] = [];
  private readonly laid = new Map<ColourId, Laid>();
  private readonly memory = new LayMemory();
  private wanted = 0;
  /** The garment last asked for. */
  private asked: Garment | null = null;
  private team: Team | null = null;
  private readonly listeners = new Set<Listener>();
  private readonly load: () => Promise<LayPlanner>;
  private readonly clock: () => number;

  /** @param clock seconds */
  constructor(load: () => Promise<LayPlanner> = loadPlanner, clock = (): number => performance.now() / 1000) {
    this.load = load;
    this.clock = clock;
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

  private of(key: string): LayState | undefined {
    return this.lays.find(({ colour }) => colour === key);
  }

  private put(key: string, patch: Partial<LayState>): void {
    if (!this.of(key)) return;
    this.lays = this.lays.map((lay) => (lay.colour === key ? { ...lay, ...patch } : lay));
    this.tell();
  }

  private searched(key: string): number {
    const laid = this.laid.get(key as ColourId);
    return laid ? laid.before + (laid.since === null ? 0 : this.clock() - laid.since) : 0;
  }

  private readonly hears: TeamListener = {
    onBetter: (key, plan) => {
      if (key.endsWith(OTHER)) return this.put(key.slice(0, -OTHER.length), { other: plan });
      const lay = this.of(key);
      if (!lay) return;
      const searched = this.searched(key);
      const history = [...lay.history, { seconds: searched, length: plan.bought.length }];
      this.put(key, { plan, searched, history });
    },
    onProgress: (key, progress) => this.put(key, { progress, searched: this.searched(key) }),
    onRest: (key, failed) => {
      if (key.endsWith(OTHER)) return this.keep(key.slice(0, -OTHER.length) as ColourId);
      const laid = this.laid.get(key as ColourId);
      if (!laid) return;
      [laid.before, laid.since] = [this.searched(key), null];
      this.put(key, { progress: 1, done: true, failed, searched: laid.before });
      if (!failed) this.keep(key as ColourId);
    },
  };

  /** Put a cloth's plan away under what it lays. */
  private keep(colour: ColourId): void {
    const [lay, laid] = [this.of(colour), this.laid.get(colour)];
    if (!lay?.plan || !laid) return;
    const { plan, history, done, other } = lay;
    const lastSeed = this.team?.lastSeedOf(colour) ?? 0;
    this.memory.put(laid.signature, {
      plan,
      history,
      searched: this.searched(colour),
      lastSeed,
      other,
      isFinished: done,
    });
  }

  private wantedFor(garment: Garment, layJobs: LayPlanner['layJobs']): Wanted[] {
    return layJobs(garment, { seconds: USUAL_SECONDS }).map((job) => {
      const remnants = garment.design.remnants.filter(({ colour }) => colour === job.colour);
      return { job, remnants, signature: JSON.stringify([job, remnants]) };
    });
  }

  private isLaid({ job, signature }: Wanted): boolean {
    return this.laid.get(job.colour)?.signature === signature && !this.of(job.colour)?.failed;
  }

  /** See to it that this garment is being laid. */
  async lay(garment: Garment): Promise<void> {
    this.wanted += 1;
    this.asked = garment;
    const turn = this.wanted;
    const { layJobs, makeTeam } = await this.load();
    if (turn !== this.wanted) return;
    this.team ??= makeTeam(this.hears);
    const wanted = this.wantedFor(garment, layJobs);
    const fresh = wanted.filter((one) => !this.isLaid(one));
    if (fresh.length === 0 && wanted.length === this.lays.length) return;
    const staying = new Set(wanted.filter((one) => this.isLaid(one)).map(({ job }) => job.colour));
    for (const { colour } of this.lays) if (!staying.has(colour)) this.giveUp(colour);
    this.lays = wanted.map((one) =>
      staying.has(one.job.colour) ? this.of(one.job.colour)! : this.begun(one),
    );
    this.tell();
    this.search(fresh, this.team);
  }

  private giveUp(colour: ColourId): void {
    this.keep(colour);
    this.laid.delete(colour);
    this.team?.drop(colour);
    this.team?.drop(colour + OTHER);
  }

  /**
   * Nobody looks at the plans, and what they lay is being changed: leave off. Every plan is kept, and searched on from there when its pieces
   * are asked for again. Does nothing while somebody listens.
   */
  putAway(): void {
    if (this.listeners.size > 0) return;
    // a planner that is still being loaded begins nothing
    this.wanted += 1;
    for (const { colour } of this.lays) this.giveUp(colour);
    this.lays = [];
  }

  /** A cloth as it stands before the planner has said anything: empty, or as it was when it was laid before. */
  private begun({ job, remnants, signature }: Wanted): LayState {
    const known = this.memory.get(signature);
    const isFinished = known?.isFinished ?? false;
    const [since, before] = [isFinished ? null : this.clock(), known?.searched ?? 0];
    this.laid.set(job.colour, { signature, remnants, since, before });
    return {
      colour: job.colour,
      job,
      plan: known?.plan ?? null,
      progress: isFinished ? 1 : 0,
      done: isFinished,
      failed: null,
      history: known?.history ?? [],
      searched: before,
      other: known?.other ?? null,
    };
  }

  private search(fresh: readonly Wanted[], team: Team): void {
    const known = fresh.map((one) => ({
      ...one,
      key: one.job.colour,
      known: this.memory.get(one.signature),
    }));
    for (const { known: lay, ...task } of known) {
      if (!lay) continue;
      team.remember(task, lay.plan, lay.lastSeed);
      if (!lay.isFinished) team.searchOn(task.key, USUAL_SECONDS);
    }
    const wanted = known.filter((one) => !one.known).map((one) => ({ ...one, seconds: USUAL_SECONDS }));
    const aside = known.flatMap(({ key, job, remnants, known: lay }) => {
      const other = lay?.other ? null : otherWay(job);
      return other ? [{ key: key + OTHER, job: other, remnants, seconds: OTHER_SECONDS, isAside: true }] : [];
    });
    team.search([...wanted, ...aside]);
  }

  /** Leave off with a cloth and keep its best plan. */
  stopAndKeep(colour: ColourId): void {
    this.team?.stop(colour);
  }

  /**
   * Take a shorter plan of what is bought for a cloth at rest, found while other widths were looked at; searching on goes on from it.
   * @param instead the plan that was shown then; nothing is done where it is not shown any more
   */
  offer(colour: ColourId, instead: LayPlan, bought: LayPlan): void {
    const [lay, laid] = [this.of(colour), this.laid.get(colour)];
    if (!laid || !this.team || !lay?.done || lay.plan?.bought !== instead || bought.length >= instead.length)
      return;
    const plan = { ...lay.plan, bought };
    this.team.remember(
      { key: colour, job: lay.job, remnants: laid.remnants },
      plan,
      this.team.lastSeedOf(colour),
    );
    const history = [...lay.history, { seconds: lay.searched, length: bought.length }];
    this.put(colour, { plan, history });
    this.keep(colour);
  }

  /** Search on for a cloth, so many nominal seconds; it keeps its plan until there is a better one. */
  searchOn(colour: ColourId, seconds: number): void {
    const laid = this.laid.get(colour);
    if (!laid || !this.team) return;
    laid.since ??= this.clock();
    this.put(colour, { done: false, progress: 0 });
    this.team.searchOn(colour, seconds);
  }

  /**
   * The finished plans of a garment, in the order of its colours, those on one's own cloth first.
   * @throws Error saying why a cloth could not be laid, or that another garment was asked for meanwhile
   */
  async finished(garment: Garment): Promise<LayPlan[]> {
    await this.lay(garment);
    const { layJobs } = await this.load();
    const wanted = this.wantedFor(garment, layJobs);
    return new Promise((resolve, reject) => {
      const check = (lays: readonly LayState[]): void => {
        const failed = lays.find((lay) => lay.failed);
        if (failed?.failed) return settle(() => reject(new Error(failed.failed!)));
        // what is being laid may be another garment's, asked for later
        if (lays.length !== wanted.length || !wanted.every((one) => this.isLaid(one)))
          return this.asked === garment ? undefined : settle(() => reject(new Error(CHANGED)));
        if (lays.every((lay) => lay.done)) settle(() => resolve(lays.flatMap(plansOf)));
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

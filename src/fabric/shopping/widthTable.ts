import { SAME_WIDTH } from '../../geometry';
import { checkLay } from '../check/checkLay';
import type { ClothPiece, LayJob, LayPlan } from '../layPlan';
import { normalAngle } from '../placement';
import { USUAL_WIDTHS } from '../usualWidths';
import { startLay, WORK_PER_SECOND } from '../search/startLay';
import { lengthToBuy } from './counter';

/** Nominal seconds of search for an entry: a table is for choosing a width, the cloth chosen is then laid for longer. */
export const TABLE_SECONDS = 0.4;

/** One entry of the table on a pattern envelope's back. */
export interface WidthEntry {
  /** Of the cloth as it is sold, mm. */
  readonly width: number;
  /** The plan it is read from; null until there is one. Buy 0 and a problem where a piece does not fit: never a length. */
  readonly plan: LayPlan | null;
  /** The cloth that is laid already: its entry is the plan that is shown. */
  readonly isShown: boolean;
}

/** The entries of one way of laying, by width. */
export interface WidthRow {
  /** All pieces the same way up, or either way along the grain. */
  readonly oneWay: boolean;
  readonly entries: readonly WidthEntry[];
}

/** A table that is filled entry by entry. The same job and plan give the same table, however it is sliced. */
export interface WidthTable {
  /** One way first, both ways below. Entries that are there stay as they are. */
  readonly rows: readonly WidthRow[];
  readonly done: boolean;
  /** 0..1 */
  readonly progress: number;
  /** A shorter plan than the one that is shown, found on narrower cloth or all one way; its entry is this one then. Null: none was. */
  readonly better: LayPlan | null;
  /** Search on for about this much work (WORK_PER_SECOND is a second's). @returns whether `rows` have changed */
  step(work: number): boolean;
}

/** Which widths a table has, and how long each is searched. */
export interface TableSettings {
  /** Width of the job's cloth as it is sold, mm, before washing took some of it; default the job's own. */
  readonly width?: number;
  /** As sold, mm; default the usual ones of the job's units. The cloth's own is added. */
  readonly widths?: readonly number[];
  /** Nominal seconds for an entry. */
  readonly seconds?: number;
}

/** Turns for the other way of laying: all one way leaves out those upside down; both ways adds them. */
function turnsFor({ turns, ...piece }: ClothPiece, oneWay: boolean): ClothPiece {
  if (!turns) return piece;
  const upright = turns.filter((t) => Math.abs(normalAngle(t)) <= 90);
  const both = [...upright, ...upright.map((t) => normalAngle(t + 180))];
  return { ...piece, turns: [...new Set(oneWay ? upright : both)] };
}

/** The same pieces on cloth of another width, one way or both ways. */
const jobFor = (job: LayJob, width: number, oneWay: boolean, seconds: number): LayJob => ({
  ...job,
  width,
  seconds,
  nap: oneWay,
  pieces: oneWay === job.nap ? job.pieces : job.pieces.map((p) => turnsFor(p, oneWay)),
});

/**
 * A plan on narrower cloth, or one of the same width with less freedom, as a plan of a job; null where it cannot be cut so. What is
 * counted from the middle of the width (repeats across, the fold) keeps its distance from the middle.
 */
export function carriedPlan(plan: LayPlan, job: LayJob): LayPlan | null {
  if (plan.placed.length === 0) return null;
  const fromMiddle = job.layering === 'folded' || job.repeat.across > 0;
  const shift = fromMiddle ? (job.width - plan.width) / 2 : 0;
  const placed = plan.placed.map((p) => ({ ...p, y: p.y + shift }));
  if (checkLay(job, placed).length > 0) return null;
  return {
    ...plan,
    width: job.width,
    density: (plan.density * plan.width) / job.width,
    seconds: job.seconds,
    buy: lengthToBuy(plan.length, job),
    placed,
  };
}

const shorter = (a: LayPlan | null, b: LayPlan | null): LayPlan | null => {
  if (!a || !b) return a ?? b;
  if (a.placed.length === 0 || b.placed.length === 0) return a.placed.length > 0 ? a : b;
  return b.length < a.length ? b : a;
};

class GrowingTable implements WidthTable {
  rows: readonly WidthRow[];
  done = false;
  better: LayPlan | null = null;
  private readonly job: LayJob;
  private readonly shown: LayPlan;
  private readonly own: number;
  private readonly seconds: number;
  private readonly widths: readonly number[];
  private readonly run: Generator<void>;
  private filled = 0;
  /** What the step under way may do. */
  private work = 0;

  constructor(job: LayJob, shown: LayPlan, settings: TableSettings) {
    const { width = job.width, widths = USUAL_WIDTHS[job.units], seconds = TABLE_SECONDS } = settings;
    const others = widths.filter((w) => Math.abs(w - width) > SAME_WIDTH);
    this.job = job;
    this.shown = shown;
    this.own = width;
    this.seconds = seconds;
    this.widths = [...others, width].sort((a, b) => a - b);
    this.rows = [true, false].map((oneWay) => ({
      oneWay,
      entries: this.widths.map((w) => this.entry(w, oneWay, null)),
    }));
    this.put(this.widths.indexOf(width), job.nap, shown);
    this.run = this.fill();
  }

  private entry(width: number, oneWay: boolean, plan: LayPlan | null): WidthEntry {
    return { width, plan, isShown: width === this.own && oneWay === this.job.nap };
  }

  private put(column: number, oneWay: boolean, plan: LayPlan): void {
    this.rows = this.rows.map((row) =>
      row.oneWay === oneWay
        ? {
            ...row,
            entries: row.entries.map((e, i) => (i === column ? this.entry(e.width, oneWay, plan) : e)),
          }
        : row,
    );
  }

  private planAt(column: number, oneWay: boolean): LayPlan | null {
    return this.rows.find((row) => row.oneWay === oneWay)!.entries[column]?.plan ?? null;
  }

  /** The best of what was found for an entry and of the plans that can be cut there too. */
  private best(job: LayJob, column: number, found: LayPlan): LayPlan {
    const carried = [this.planAt(column - 1, job.nap), ...(job.nap ? [] : [this.planAt(column, true)])].map(
      (plan) => plan && carriedPlan(plan, job),
    );
    return carried.reduce(shorter, found)!;
  }

  /** Entries from narrow to wide, one way before both ways: what comes later never changes what came before. */
  private *fill(): Generator<void> {
    const washed = this.job.width / this.own;
    for (const [column, width] of this.widths.entries())
      for (const oneWay of [true, false]) {
        const isShown = this.entry(width, oneWay, null).isShown;
        const at = isShown ? this.job.width : width * washed;
        const job = jobFor(this.job, at, oneWay, isShown ? this.job.seconds : this.seconds);
        const search = isShown ? null : startLay(job);
        while (search && !search.done) {
          yield;
          search.step(this.work);
        }
        const found = search ? search.best : this.shown;
        const best = this.best(job, column, found);
        if (isShown && best !== this.shown) this.better = best;
        this.put(column, oneWay, best);
        this.filled += 1;
        yield;
      }
  }

  get progress(): number {
    return this.filled / (2 * this.widths.length);
  }

  step(work: number): boolean {
    const before = this.rows;
    this.work = work;
    if (this.run.next().done) this.done = true;
    return this.rows !== before;
  }
}

/**
 * Begin the table of a cloth over the usual widths, one way against both ways, like the one on a pattern envelope's back. Wider cloth never
 * needs more than narrower one and both ways never more than one way, since a plan on narrower cloth is one on wider cloth too.
 * @param shown the plan of the job that is shown: the entry of its own width
 * @throws RangeError for a job that makes no sense (as startLay)
 */
export const startWidthTable = (job: LayJob, shown: LayPlan, settings: TableSettings = {}): WidthTable =>
  new GrowingTable(job, shown, settings);

/** The whole table at once. @throws RangeError as startWidthTable */
export function widthTable(job: LayJob, shown: LayPlan, settings: TableSettings = {}): WidthTable {
  const table = startWidthTable(job, shown, settings);
  while (!table.done) table.step(WORK_PER_SECOND);
  return table;
}

/**
 * The job of what has to be bought of a cloth: without the pieces that lie on one's own.
 * @param own plans on one's own cloth
 */
export function withoutOwn(job: LayJob, own: readonly LayPlan[]): LayJob {
  const laid = new Set(own.flatMap(({ placed }) => placed.map((p) => `${p.panel} ${p.copy}`)));
  return { ...job, pieces: job.pieces.filter((p) => !laid.has(`${p.panel} ${p.copy}`)) };
}

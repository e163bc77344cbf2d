import { type LayJob, type LayPlan, type WidthRow, layJobs, withoutOwn } from '../../fabric';
import { seatsHere, startTable } from '../../fabric/worker';
import type { Garment } from '../../garment';
import type { ColourId } from '../../pattern';

/** A table that takes longer than this is left out of the handout, ms. */
const LONGEST = 15_000;

interface Table {
  readonly rows: readonly WidthRow[];
  readonly better: LayPlan | null;
}

/** One table in a worker of its own; null where it fails or takes too long. */
function tableOf(job: LayJob, shown: LayPlan, width: number): Promise<Table | null> {
  return new Promise((resolve) => {
    let [rows, better]: [readonly WidthRow[], LayPlan | null] = [[], null];
    const running = startTable(
      { job, shown, width },
      {
        onRows: (found) => (rows = found),
        onBetter: (plan) => (better = plan),
        onEnded: ({ because }) => {
          clearTimeout(timer);
          resolve(because === 'finished' ? { rows, better } : null);
        },
      },
    );
    const timer = setTimeout(() => running.cancel(), LONGEST);
  });
}

/** Do one thing after another, so many of them at once. @returns what they gave, in their order */
async function inTurn<T, R>(
  all: readonly T[],
  atOnce: number,
  work: (one: T) => Promise<R>,
): Promise<readonly R[]> {
  const out: R[] = [];
  const rest = all.entries();
  const lane = async (): Promise<void> => {
    for (const [i, one] of rest) out[i] = await work(one);
  };
  await Promise.all(Array.from({ length: atOnce }, lane));
  return out;
}

/** Tables over the usual widths for the plans of a garment, no more at once than there are cores. A shorter plan that a table comes upon is the plan then, so that both say the same. */
export async function withWidthTables(
  garment: Garment,
  plans: readonly LayPlan[],
): Promise<{
  readonly layPlans: readonly LayPlan[];
  readonly widthTables: ReadonlyMap<ColourId, readonly WidthRow[]>;
}> {
  const jobs = new Map(layJobs(garment).map((job) => [job.colour, job]));
  const widthTables = new Map<ColourId, readonly WidthRow[]>();
  const layPlans = await inTurn(plans, seatsHere(), async (plan): Promise<LayPlan> => {
    const job = jobs.get(plan.colour);
    const colour = garment.design.colours.find((c) => c.id === plan.colour);
    if (!job || !colour || plan.within || plan.placed.length === 0) return plan;
    const own = plans.filter((p) => p.colour === plan.colour && p.within);
    const table = await tableOf(withoutOwn(job, own), plan, colour.width);
    if (table) widthTables.set(plan.colour, table.rows);
    return table?.better ?? plan;
  });
  return { layPlans, widthTables };
}

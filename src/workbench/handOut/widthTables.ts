import { type LayJob, type LayPlan, type WidthRow, layJobs, withoutOwn } from '../../fabric';
import { startTable } from '../../fabric/worker';
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

/** Tables over the usual widths for the plans of a garment. A shorter plan that a table comes upon is the plan then, so that both say the same. */
export async function withWidthTables(
  garment: Garment,
  plans: readonly LayPlan[],
): Promise<{
  readonly layPlans: readonly LayPlan[];
  readonly widthTables: ReadonlyMap<ColourId, readonly WidthRow[]>;
}> {
  const jobs = new Map(layJobs(garment).map((job) => [job.colour, job]));
  const widthTables = new Map<ColourId, readonly WidthRow[]>();
  const layPlans = await Promise.all(
    plans.map(async (plan): Promise<LayPlan> => {
      const job = jobs.get(plan.colour);
      const colour = garment.design.colours.find((c) => c.id === plan.colour);
      if (!job || !colour || plan.within || plan.placed.length === 0) return plan;
      const own = plans.filter((p) => p.colour === plan.colour && p.within);
      const table = await tableOf(withoutOwn(job, own), plan, colour.width);
      if (table) widthTables.set(plan.colour, table.rows);
      return table?.better ?? plan;
    }),
  );
  return { layPlans, widthTables };
}

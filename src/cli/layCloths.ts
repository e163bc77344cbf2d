import { type LayPlan, type WidthRow, layJobs, planCloth, widthTable, withoutOwn } from '../fabric';
import type { Garment } from '../garment';
import type { ColourId } from '../pattern';
import type { MakeOptions } from './makeOptions';

/** All lay plans of a garment, those on one's own cloth first within a colour, and tables over the usual widths. */
export interface LaidCloths {
  readonly layPlans: readonly LayPlan[];
  readonly widthTables: ReadonlyMap<ColourId, readonly WidthRow[]>;
}

/** With less time than this (nominal seconds per cloth) there is none for other widths either. */
const LEAST_FOR_TABLES = 1;
/** An entry of a table gets this share of a cloth's time. */
const SHARE_OF_ENTRY = 1 / 100;

/** Lay every cloth. A shorter plan that the table comes upon is the plan then, so that both say the same. */
export function layCloths(garment: Garment, settings: Pick<MakeOptions, 'seconds' | 'seed'>): LaidCloths {
  const { colours, remnants } = garment.design;
  const widthTables = new Map<ColourId, readonly WidthRow[]>();
  const layPlans = layJobs(garment, settings).flatMap((job) => {
    const { own, bought } = planCloth(job, remnants);
    if (job.seconds < LEAST_FOR_TABLES || bought.placed.length === 0) return [...own, bought];
    const width = colours.find((c) => c.id === job.colour)!.width;
    const table = widthTable(withoutOwn(job, own), bought, {
      width,
      seconds: job.seconds * SHARE_OF_ENTRY,
    });
    widthTables.set(job.colour, table.rows);
    return [...own, table.better ?? bought];
  });
  return { layPlans, widthTables };
}

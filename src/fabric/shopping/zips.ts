import { ZIP_LENGTH_STEP } from '../../neighbours';
import type { Units } from '../../pattern';
import type { SewnSource, SewnStep } from './sewnLengths';

/** Zips that are alike. */
export interface ZipToBuy {
  readonly kind: 'hidden' | 'shown';
  readonly count: number;
  /** Of the opening, mm. */
  readonly opening: number;
  /** As it is sold, mm: never shorter than the opening. */
  readonly length: number;
  /** Fill of the thread it is sewn in with; null where the plan has no step for it. */
  readonly fill: string | null;
}

/** An opening this little (mm) over a length that is sold still takes that zip. */
const OPENING_ROUNDING = 0.5;

/** The next length that is sold, mm: a zip can be shortened, not lengthened. */
export const zipAsSold = (opening: number, units: Units): number =>
  Math.max(1, Math.ceil((opening - OPENING_ROUNDING) / ZIP_LENGTH_STEP[units])) * ZIP_LENGTH_STEP[units];

/** The zips of a garment, those that are alike counted together. */
export function zipsToBuy(
  closings: SewnSource['closings'],
  steps: readonly SewnStep[],
  units: Units,
): readonly ZipToBuy[] {
  const found = new Map<string, ZipToBuy>();
  for (const { zip, length: opening } of closings) {
    const fill = steps.find((s) => s.closing === zip.id)?.thread.fill ?? null;
    const length = zipAsSold(opening, units);
    const key = JSON.stringify([zip.kind, length, Math.round(opening), fill]);
    const count = (found.get(key)?.count ?? 0) + 1;
    found.set(key, { kind: zip.kind, count, opening, length, fill });
  }
  return [...found.values()];
}

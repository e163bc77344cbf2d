/**
 * Thread for a length of lockstitch (301, the plain one of a home machine), needle and bobbin together. Thread makers' tables give 2.5 to
 * 2.8 times the seam for light to medium cloth (from memory, not seen); the upper figure is taken, since running out is worse.
 */
export const LOCKSTITCH_THREAD = 2.8;
/** Ends, unpicking, trial seams: 25 % more. The share usual in the trade lies between 10 and 30 % (from memory, not seen). */
export const THREAD_WASTE = 0.25;
/**
 * Thread for a length of three-thread overedge (504), all three cones together: about 14 times the edge (thread makers' tables, from memory,
 * not seen).
 */
export const OVEREDGE_THREAD = 14;

/** Lengths on a spool, mm: 100, 200 and 500 m. Common practice, no source. */
export const SPOOLS: readonly number[] = [100_000, 200_000, 500_000];

/** How many spools of one length. */
export interface SpoolCount {
  /** mm */
  readonly length: number;
  readonly count: number;
}

/** Thread of one colour, mm, and the spools that hold it. */
export interface Spools {
  /** Waste counted in. */
  readonly need: number;
  /** Longest first; together never less than the need. */
  readonly spools: readonly SpoolCount[];
}

/** As few spools as hold a length: the longest ones, and for what is left the shortest that will do. */
function spoolsFor(need: number): SpoolCount[] {
  const longest = SPOOLS.at(-1)!;
  const full = Math.floor(need / longest);
  const rest = need - full * longest;
  const last = rest > 0 ? SPOOLS.find((s) => s >= rest)! : null;
  const whole = full + (last === longest ? 1 : 0);
  return [
    ...(whole > 0 ? [{ length: longest, count: whole }] : []),
    ...(last !== null && last !== longest ? [{ length: last, count: 1 }] : []),
  ];
}

/**
 * Thread for so much stitching.
 * @param sewn mm of lockstitch
 * @throws RangeError for a length that is none
 */
export function threadFor(sewn: number): Spools {
  if (!(sewn >= 0 && sewn < Infinity)) throw new RangeError(`${sewn} mm cannot be sewn`);
  const need = sewn * LOCKSTITCH_THREAD * (1 + THREAD_WASTE);
  return { need, spools: spoolsFor(need) };
}

import type { LaidLine } from '../../panels';
import type { OrderWish } from '../../pattern';
import type { StepKey } from '../plan';
import type { StrandedStretch } from './seamGraph';

/** A wish at the crossings of two lines: what is sewn of `earlier` comes before `later`, which therefore runs through. Names as in `lineName`. */
export interface LineWish {
  readonly earlier: ReadonlySet<string>;
  readonly later: ReadonlySet<string>;
}

/** A laid line as step keys name it: `line-3`, `line-3 mirrored`. */
export const lineName = ({ line, mirrored }: Pick<LaidLine, 'line' | 'mirrored'>): string =>
  mirrored ? `${line} mirrored` : line;

/** The key of a line's k-th seam, k from 1 along the line. */
export const seamKey = (name: string, k: number): StepKey => `seam ${name}${k > 1 ? ` #${k}` : ''}`;

/** The line a seam's key names; null for the key of any other step. */
export const nameInKey = (key: StepKey): string | null => /^seam (.+?)(?: #\d+)?$/.exec(key)?.[1] ?? null;

/** Names of all lines that are sewn as one with a line, because they meet end to end with nothing else there. */
function namesTogether(stretches: readonly StrandedStretch[], name: string): ReadonlySet<string> {
  const strands = new Set(stretches.filter((s) => lineName(s.line) === name).map((s) => s.strand));
  return new Set(stretches.filter((s) => strands.has(s.strand)).map((s) => lineName(s.line)));
}

/** The wishes that are about two different seams of this piece. */
export function lineWishes(
  stretches: readonly StrandedStretch[],
  wishes: readonly OrderWish[],
): readonly LineWish[] {
  return wishes.flatMap((wish): LineWish[] => {
    const [p, q] = [nameInKey(wish.earlier), nameInKey(wish.later)];
    if (p === null || q === null) return [];
    const earlier = namesTogether(stretches, p);
    const later = namesTogether(stretches, q);
    return earlier.size > 0 && later.size > 0 && !earlier.has(q) ? [{ earlier, later }] : [];
  });
}

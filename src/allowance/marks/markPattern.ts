/** Marks that stand together at one place: single, double or triple. */
export type MarkKind = 1 | 2 | 3;

/** One match mark of a seam: how far from the seam's start, mm along the stitching line, and how many marks stand there. */
export interface MarkPlace {
  readonly at: number;
  readonly marks: MarkKind;
}

/** The marks of a seam from its start to its end. */
export type MarkPattern = readonly MarkPlace[];

/**
 * Two patterns that differ by this much somewhere are seen to differ when the edges lie on each other, mm: well over the 1/4 in that
 * counts as a real fault of a seam (fashion-incubator.com, notches pt. 2, 2013).
 */
export const SEEN_APART = 8;

/** Kinds a single mark may have, and those of two. */
const ONE: readonly (readonly MarkKind[])[] = [[2], [1], [3]];
const TWO: readonly (readonly MarkKind[])[] = [
  [1, 2],
  [2, 1],
  [1, 3],
  [3, 1],
  [2, 3],
  [3, 2],
];

const isPalindrome = (word: readonly MarkKind[]): boolean =>
  word.every((k, i) => k === word[word.length - 1 - i]);

/** Single marks but for one or two places: the fewer snips the better. */
function longWords(n: number): readonly (readonly MarkKind[])[] {
  const word = (special: ReadonlyMap<number, MarkKind>): MarkKind[] =>
    Array.from({ length: n }, (_, i) => special.get(i) ?? 1);
  const places = Array.from({ length: n }, (_, i) => i);
  const pairs = places.flatMap((i) => places.slice(i + 1).map((j) => [i, j] as const));
  return [
    ...places.map((i) => word(new Map([[i, 2]]))),
    ...places.map((i) => word(new Map([[i, 3]]))),
    ...pairs.map(([i, j]) =>
      word(
        new Map([
          [i, 2],
          [j, 2],
        ]),
      ),
    ),
    ...pairs.map(([i, j]) =>
      word(
        new Map([
          [i, 2],
          [j, 3],
        ]),
      ),
    ),
  ].filter((w) => !isPalindrome(w));
}

const known = new Map<string, readonly (readonly MarkKind[])[]>();

/**
 * Kinds of n marks in a row, none the same from both ends (but for a lone mark).
 * @param isPlain only those without triple marks, in which one is double
 */
export function markWords(n: number, isPlain: boolean): readonly (readonly MarkKind[])[] {
  const key = `${n} ${isPlain}`;
  const found = known.get(key);
  if (found) return found;
  const all = n === 1 ? ONE : n === 2 ? TWO : longWords(n);
  const words = isPlain ? all.filter((w) => !w.includes(3) && w.filter((k) => k === 2).length === 1) : all;
  known.set(key, words);
  return words;
}

const fraction = (x: number): number => x - Math.floor(x);

/**
 * Shares 0..1 at which n marks divide the room they have: gaps that all differ, and differ from variant to variant. Evenly spread
 * quasi-random numbers (multiples of the plastic number's powers), so that no two variants are alike.
 * @param ends how wide the first and the last gap are, 0..1: in little room the marks stand near its ends
 */
export function unevenShares(n: number, variant: number, ends: number): readonly number[] {
  const gaps = Array.from({ length: n + 1 }, (_, i) => {
    const chance = fraction(0.21 + 0.7548776662 * (i + 1) + 0.5698402909 * variant * (i + 2));
    return i === 0 || i === n ? ends * (0.3 + 1.5 * chance) : 0.8 + 1.1 * chance;
  });
  const all = gaps.reduce((sum, g) => sum + g, 0);
  let at = 0;
  return gaps.slice(0, n).map((g) => (at += g) / all);
}

/** In a room of so many mm places are taken from slots that are seen to be apart, this far from each other at least, mm. */
const SLOT = SEEN_APART + 0.5;

/** How far the middle one of an odd number of slots is from the middle, mm. */
const OFF_MIDDLE_SLOT = 2;

/** How many slots a room has: few steps, so that places do not jump whenever the room grows a little. */
const SLOT_COUNTS = [1, 2, 3, 4, 5, 7, 9, 12, 16, 20] as const;

const slotSets = new Map<string, readonly (readonly number[])[]>();

/** The widest gap of marks in m slots, ends included. */
const widestGap = (so: readonly number[], m: number): number =>
  Math.max(so[0]! + 1, m - so.at(-1)!, ...so.slice(1).map((s, i) => s - so[i]!));

/** All ways to choose n of m slots at least `least` slots from each other: lopsided ones first, well spread ones before others. */
function slotChoices(m: number, n: number, least: number): readonly (readonly number[])[] {
  const key = `${m} ${n} ${least}`;
  const found = slotSets.get(key);
  if (found) return found;
  const grow = (so: readonly number[]): (readonly number[])[] => {
    if (so.length === n) return [so];
    const from = so.length === 0 ? 0 : so.at(-1)! + least;
    return Array.from({ length: Math.max(0, m - from) }, (_, i) => grow([...so, from + i])).flat();
  };
  const isEven = (so: readonly number[]): boolean => so.every((s, i) => s + so[n - 1 - i]! === m - 1);
  const all = grow([]).sort((a, b) => widestGap(a, m) - widestGap(b, m));
  const sets = [...all.filter((so) => !isEven(so)), ...all.filter(isEven)];
  slotSets.set(key, sets);
  return sets;
}

/**
 * Places of n marks in little room, mm from its start; null where n do not fit.
 * @param preferred where to begin among the better half of all choices
 */
export function slotPlaces(
  n: number,
  k: number,
  preferred: number,
  room: number,
  apart: number,
): readonly number[] | null {
  const m = SLOT_COUNTS.findLast((count) => (count - 1) * SLOT <= room) ?? 1;
  const pitch = m > 1 ? room / (m - 1) : 0;
  const sets = slotChoices(m, n, pitch > 0 ? Math.ceil(apart / pitch - 1e-9) : 1);
  if (sets.length === 0) return null;
  const better = Math.ceil(sets.length / 2);
  const choice = k < better ? (k + preferred) % better : k % sets.length;
  const offMiddle = Math.min(OFF_MIDDLE_SLOT, pitch - SEEN_APART);
  return sets[choice]!.map((s) => s * pitch + (s * 2 === m - 1 ? offMiddle : 0));
}

/** The same marks read from the seam's other end. */
export const readBackwards = (pattern: MarkPattern, length: number): MarkPattern =>
  pattern.map(({ at, marks }) => ({ at: length - at, marks })).reverse();

/** By how much two patterns differ where they differ most, mm; without end where their marks are not of the same kinds. */
export function patternDifference(p: MarkPattern, q: MarkPattern): number {
  if (p.length !== q.length) return Infinity;
  let most = 0;
  for (let i = 0; i < p.length; i += 1) {
    if (p[i]!.marks !== q[i]!.marks) return Infinity;
    most = Math.max(most, Math.abs(p[i]!.at - q[i]!.at));
  }
  return most;
}

/** By how much the places alone differ from those read from the other end, mm. */
export function lopsidedness(pattern: MarkPattern, length: number): number {
  const back = readBackwards(pattern, length);
  return pattern.reduce((most, { at }, i) => Math.max(most, Math.abs(at - back[i]!.at)), 0);
}

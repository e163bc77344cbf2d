import Flatbush from 'flatbush';
import { cross, flattenPath, subtract, type Path, type Pt } from '../geometry';
import { LIMITS } from './limits';

type Chord = readonly [a: Pt, b: Pt];

/** Pairs of chords that are looked at before a drawing counts as too tangled. */
const MOST_PAIRS = 20_000_000;

const crosses = ([a, b]: Chord, [c, d]: Chord): boolean => {
  const [ab, cd] = [subtract(b, a), subtract(d, c)];
  return (
    cross(ab, subtract(c, a)) * cross(ab, subtract(d, a)) < 0 &&
    cross(cd, subtract(a, c)) * cross(cd, subtract(b, c)) < 0
  );
};

/**
 * How often panel lines cross each other, counted up to one more than the most allowed. Each crossing makes a panel, and
 * a few hundred lines thrown across each other make more of them than anybody could sew or a computer could lay.
 * Time grows with chords × log chords + pairs whose boxes meet, both bounded.
 */
export function countCrossings(lines: readonly Path[]): number {
  const most = LIMITS.crossings + 1;
  const chords = lines.flatMap((path): Chord[] => {
    const { points } = flattenPath(path);
    return points.slice(1).map((p, i): Chord => [points[i]!, p]);
  });
  if (chords.length === 0) return 0;
  const boxes = chords.map(
    ([a, b]) =>
      [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1])] as const,
  );
  const index = new Flatbush(chords.length);
  for (const box of boxes) index.add(...box);
  index.finish();
  let count = 0;
  let pairs = 0;
  for (const [i, box] of boxes.entries()) {
    for (const j of index.search(...box, (k) => k > i)) {
      if (crosses(chords[i]!, chords[j]!)) count += 1;
      pairs += 1;
      if (count >= most || pairs > MOST_PAIRS) return most;
    }
  }
  return count;
}

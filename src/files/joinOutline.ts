import Flatbush from 'flatbush';
import {
  asOuterRing,
  distance,
  endOf,
  JOIN_GAP,
  pathLength,
  reversePath,
  SAME_POINT,
  signedArea,
  startOf,
  withEnds,
  type Curve,
  type Path,
  type Pt,
  type Ring,
} from '../geometry';
import type { DrawnPath } from './drawnShape';

/** What the paths traced as one outline come to. */
export interface JoinedOutline {
  /** Closed rings, largest first, signedArea > 0, cleaned. */
  readonly rings: readonly Ring[];
  /** Where no ring closes: the widest gap of the longest chain, mm, and the place; null when there is a ring. */
  readonly gap: { readonly length: number; readonly at: Pt } | null;
  /** Open stretches that are part of no ring. */
  readonly leftOver: number;
}

const key = (c: Curve): string => JSON.stringify(c);
const reversed = (c: Curve): Curve => [...c].reverse() as unknown as Curve;

/** Drop stretches that were drawn twice, whichever way round. */
function withoutRepeats(paths: readonly Path[]): Path[] {
  const seen = new Set<string>();
  return paths.filter((path) => {
    const own = path.map(key).join();
    if (seen.has(own)) return false;
    seen.add(own);
    seen.add(reversePath(path).map(key).join());
    return true;
  });
}

/** An open path whose ends are within the joining gap becomes a ring: its last point moves on to its first. */
function closedOver(path: Path): Ring {
  const last = path.length - 1;
  return path.map((c, i) => (i === last ? withEnds(c, c[0], startOf(path)) : c));
}

/** A path with its start moved on to the end of the one before. */
const joinedTo = (at: Pt, [first, ...rest]: Path): Path => [
  withEnds(first!, at, first!.at(-1) as Pt),
  ...rest,
];

/** Chain open paths end to end where their ends are within the joining gap; nearest ends first. */
function chain(paths: readonly Path[]): Path[] {
  if (paths.length === 0) return [];
  const ends = paths.flatMap((p) => [startOf(p), endOf(p)]);
  const index = new Flatbush(ends.length);
  for (const [x, y] of ends) index.add(x, y, x, y);
  index.finish();
  const used = new Set<number>();
  const chains: Path[] = [];
  const nearestEnd = ([x, y]: Pt): number | undefined =>
    index.neighbors(x, y, 1, JOIN_GAP, (e) => !used.has(e >> 1))[0];
  const grow = (from: Path): Path => {
    const stretches: Path[] = [from];
    for (let at = endOf(from); ; at = endOf(stretches.at(-1)!)) {
      const found = nearestEnd(at);
      const closesFirst =
        stretches.length > 1 &&
        distance(at, startOf(from)) <= (found === undefined ? JOIN_GAP : distance(at, ends[found]!));
      if (found === undefined || closesFirst) return stretches.flat();
      used.add(found >> 1);
      const next = paths[found >> 1]!;
      stretches.push(joinedTo(at, found % 2 === 0 ? next : reversePath(next)));
    }
  };
  paths.forEach((path, i) => {
    if (used.has(i)) return;
    used.add(i);
    const forwards = grow(path);
    // The other way from the start, then turned back.
    const both =
      distance(startOf(forwards), endOf(forwards)) < JOIN_GAP
        ? forwards
        : reversePath(grow(reversePath(forwards)));
    chains.push(both);
  });
  return chains;
}

/** Total length of the sides of a curve's control polygon, mm: 0 only for a curve that is a point. */
const reach = (c: Curve): number => c.slice(1).reduce((sum, p, i) => sum + distance(c[i]!, p), 0);

/** Merge stretches shorter than one point into their neighbours, and take out stretches followed by their own way back. */
function cleaned(ring: Ring): Ring {
  const kept: Curve[] = [];
  let start: Pt | null = null;
  for (const c of ring) {
    const own: Curve = start ? withEnds(c, start, c.at(-1) as Pt) : c;
    start = null;
    if (reach(own) < SAME_POINT) start = own[0];
    else if (kept.length > 0 && key(reversed(kept.at(-1)!)) === key(own)) kept.pop();
    else kept.push(own);
  }
  while (kept.length > 2 && key(reversed(kept.at(-1)!)) === key(kept[0]!)) {
    kept.pop();
    kept.shift();
  }
  const [first, last] = [kept[0], kept.at(-1)];
  if (first && last) kept[kept.length - 1] = withEnds(last, last[0], first[0]);
  return kept;
}

/**
 * Make rings of the paths traced as an outline: closed ones as they are, open ones closed where their gap is under
 * JOIN_GAP, stretches joined end to end, repeats dropped.
 */
export function joinOutline(drawn: readonly DrawnPath[]): JoinedOutline {
  const isRing = ({ path, closed }: DrawnPath): boolean =>
    closed ||
    (path.length > 1 && distance(startOf(path), endOf(path)) < JOIN_GAP && pathLength(path) > 2 * JOIN_GAP);
  const whole = withoutRepeats(drawn.filter(isRing).map(({ path }) => path));
  const chains = chain(withoutRepeats(drawn.filter((d) => !isRing(d)).map(({ path }) => path)));
  const closes = (path: Path): boolean => path.length > 1 && distance(startOf(path), endOf(path)) < JOIN_GAP;
  const open = chains.filter((path) => !closes(path));
  const rings = [...whole, ...chains.filter(closes)]
    .map((path) => asOuterRing(cleaned(closedOver(path))))
    .sort((a, b) => Math.abs(signedArea(b)) - Math.abs(signedArea(a)));
  const longest = [...open].sort((a, b) => pathLength(b) - pathLength(a))[0];
  const gap =
    rings.length === 0 && longest
      ? { length: distance(startOf(longest), endOf(longest)), at: endOf(longest) }
      : null;
  return { rings, gap, leftOver: open.length };
}

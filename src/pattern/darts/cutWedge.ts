import {
  JOIN_GAP,
  type Path,
  type Polyline,
  type Pt,
  type Ring,
  type Subdivision,
  SAME_POINT,
  boxesMeet,
  crossStraight,
  distance,
  endOf,
  flattenPath,
  flattenRing,
  isInRing,
  isWellInside,
  length,
  nearestOnPath,
  pathBox,
  pathLength,
  pointAt,
  reversePath,
  samePoint,
  signedArea,
  startOf,
  subPath,
  subdivide,
  subtract,
  unit,
} from '../../geometry';
import type { DartShape } from '../design';
import { withPathEnds } from '../halfToWhole';
import { remember } from '../remember';
import { type SingleDart, dartRing } from './dartShape';

/** A ring with one dart's wedge taken out. */
export interface WedgeCut {
  /** Null where more than one ring is left. */
  readonly ring: Ring | null;
  readonly area: number;
  readonly holes: readonly Ring[];
}

/**
 * Take one dart's wedge out of a ring; null where the dart has no part in it.
 * @param legs the dart's sewn lines, as dartLegs gives them
 */
export function cutWedge(ring: Ring, dart: DartShape, legs: Path): WedgeCut | null {
  if (!boxesMeet(pathBox(ring), pathBox(legs))) return null;
  return plainCut(ring, dart, legs) ?? cutByFaces(ring, dart, legs);
}

/** Whether the legs meet the ring anywhere but where they begin and end. */
function legsMeet(ring: Ring, legs: Path, ends: readonly Pt[]): boolean {
  const chords = flattenPath(legs, JOIN_GAP / 10).points;
  return chords.some((a, i) => {
    const b = chords[i + 1];
    if (!b) return false;
    const along = subtract(b, a);
    const reach = length(along);
    return crossStraight(ring, a, unit(along)).some(
      (c) => c.along >= 0 && c.along <= reach && ends.every((e) => distance(e, c.point) > JOIN_GAP),
    );
  });
}

const cornersOf = remember((ring: Ring): Polyline => flattenRing(ring));

/**
 * The usual dart: wholly inside, or with its mouth on the ring and the rest inside. Its wedge is spliced in without
 * subdividing. Null for every other dart.
 */
function plainCut(ring: Ring, dart: DartShape, legs: Path): WedgeCut | null {
  const ends = dart.kind === 'single' ? [...dart.mouth, dart.point] : dart.points;
  if (legsMeet(ring, legs, ends)) return null;
  const corners = cornersOf(ring);
  if (dart.kind === 'double') {
    const isClear = dart.points.every((p) => isWellInside(p, corners, JOIN_GAP));
    if (!isClear) return null;
    const hole = signedArea(legs) < 0 ? legs : reversePath(legs);
    return { ring, area: Math.abs(signedArea(legs)), holes: [hole] };
  }
  const [p, q] = [nearestOnPath(ring, dart.mouth[0]), nearestOnPath(ring, dart.mouth[1])];
  const isOnRing = p.distance <= SAME_POINT && q.distance <= SAME_POINT;
  if (!isOnRing || !(isWellInside(dart.point, corners, JOIN_GAP) || sharesPoint(ring, dart, legs, corners)))
    return null;
  const [pq, qp] = [subPath(ring, p, q), subPath(ring, q, p)];
  const [mouth, rest] = pathLength(pq) < pathLength(qp) ? [pq, qp] : [qp, pq];
  if (mouth.length === 0 || rest.length === 0) return null;
  const [from, to] = [startOf(mouth), endOf(mouth)];
  const runsOn = distance(from, dart.mouth[0]) <= distance(from, dart.mouth[1]);
  const across = withPathEnds(runsOn ? legs : reversePath(legs), from, to);
  const wedge = signedArea([...mouth, ...reversePath(across)]);
  if (wedge <= 0) return null;
  return { ring: [...rest, ...across], area: wedge, holes: [] };
}

/** Whether a dart ends exactly at a corner of the ring, where another one was cut out to the same point, with its legs inside. */
const sharesPoint = (ring: Ring, { point }: SingleDart, legs: Path, corners: Polyline): boolean =>
  ring.some((c) => samePoint(c[0], point)) && legs.every((leg) => isInRing(pointAt(leg, 0.5), corners));

/** Any dart, parts of darts too: by subdividing the ring along the legs. */
function cutByFaces(ring: Ring, dart: DartShape, legs: Path): WedgeCut | null {
  const sub = subdivide(ring, [legs]);
  const legEdges = new Set(sub.lineEdges[0]!.map((h) => h.edge));
  if (legEdges.size === 0) return null;
  const wedge = wedgeFaces(sub, wedgeLiesForward(dart));
  const pathOf = (halves: readonly { edge: number; forward: boolean }[]): Ring =>
    halves.flatMap(({ edge, forward }) => {
      const { curves } = sub.edges[edge]!;
      return forward ? curves : [...curves].reverse().map((c) => [...c].reverse() as unknown as Path[number]);
    });
  const rest = sub.faces.map((face, i) => ({ face, i })).filter(({ i }) => !wedge.has(i));
  const area = sub.faces.reduce((sum, face, i) => sum + (wedge.has(i) ? face.area : 0), 0);
  const rings = rest.map(({ face }) => pathOf(face.ring));
  const left = rings.length === 1 ? rings[0]! : joinedAt(rings, dart);
  return { area, ring: left, holes: left ? rest.flatMap(({ face }) => face.holes.map(pathOf)) : [] };
}

/**
 * Faces on the wedge's side of the legs, along more of them than on the other side: close to the point of a slim dart its legs are one edge, which
 * has the rest of the ring on either side.
 */
function wedgeFaces(sub: Subdivision, wedgeIsForward: boolean): ReadonlySet<number> {
  const along = new Map<number, number>();
  for (const half of sub.lineEdges[0]!) {
    const { forwardFace, backwardFace, length: reach } = sub.edges[half.edge]!;
    const isForward = half.forward === wedgeIsForward;
    const [wedge, rest] = isForward ? [forwardFace, backwardFace] : [backwardFace, forwardFace];
    if (wedge !== null) along.set(wedge, (along.get(wedge) ?? 0) + reach);
    if (rest !== null) along.set(rest, (along.get(rest) ?? 0) - reach);
  }
  return new Set([...along].filter(([, balance]) => balance > 0).map(([face]) => face));
}

/** A dart that ends on the ring leaves two rings that touch at its point: run them as one. Null where they do not touch. */
function joinedAt(rings: readonly Ring[], dart: DartShape): Ring | null {
  const points = dart.kind === 'single' ? [dart.point] : [dart.points[0], dart.points[2]];
  const [first, second] = rings;
  if (rings.length !== 2 || !first || !second) return null;
  for (const point of points) {
    const isThere = (c: Path[number]): boolean => distance(c[0], point) <= SAME_POINT;
    const [i, k] = [first.findIndex(isThere), second.findIndex(isThere)];
    if (i < 0 || k < 0) continue;
    return [...first.slice(i), ...first.slice(0, i), ...second.slice(k), ...second.slice(0, k)];
  }
  return null;
}

/** Whether the wedge lies on the side whose ring follows the legs forwards: the sign of the wedge's area. */
const wedgeLiesForward = (dart: DartShape): boolean => signedArea(dartRing(dart)) > 0;

import { asOuterRing, signedArea } from './area';
import { endOfCurve, pointAt, reverseCurve } from './curve';
import { flattenPath } from './flatten';
import { isInPolygon } from './inside';
import {
  depthInStrips,
  distanceFromMitre,
  distanceFromStrips,
  distanceToCurve,
  isSwept,
  offsetStrips,
  type OffsetStrips,
} from './offsetStrips';
import type { OffsetRing } from './offsetRing';
import { splitAtCusps } from './offsetSides';
import { chordRing, meetings } from './simplicity';
import { CHORD_SAGITTA, OFFSET_FIT } from './tolerances';
import type { Curve, Polyline, Pt, Ring } from './types';
import { distance } from './vector';

/** One thing wrong with an offset: what, where and by how many mm (0 where no length applies). */
export interface OffsetFault {
  readonly kind:
    | 'does not join up'
    | 'meets itself'
    | 'too near the source'
    | 'too far from the source'
    | 'on the wrong side of the source'
    | 'source sticks out'
    | 'parallel is missing';
  readonly at: Pt;
  readonly by: number;
}

export interface CheckOffsetOptions {
  readonly mitreLimit?: number;
  /** Distance between tested points along source and result, mm. Default 1/300 of the way round. */
  readonly every?: number;
  /** What may be nearer than its width, mm. Default 0.02. */
  readonly tolerance?: number;
}

/**
 * Hold the result of offsetRing against its promise by measuring distances; knows nothing of how it was made.
 * - each ring joins up and no ring meets itself or another (exact on chords);
 * - no point is nearer to a source curve than its width, except beside the end of a narrower neighbour;
 * - no point is farther than some strip or capped mitre reaches;
 * - rings lie outside the source (all widths >= 0) or inside it (all <= 0), and an outer one contains the source;
 * - wherever the parallel of a curve keeps clear of all other strips, the result runs there.
 * @param source ring and widths as given to offsetRing
 * @returns all faults found, at most a few of each kind, worst first; empty when all is well
 */
export function checkOffset(
  source: Ring,
  widths: readonly number[],
  result: readonly OffsetRing[],
  options: CheckOffsetOptions = {},
): readonly OffsetFault[] {
  const isHole = signedArea(source) < 0;
  const whole = asOuterRing(source);
  const parts = whole.map(splitAtCusps);
  const ring = parts.flat();
  const turned = isHole ? widths.map((w) => -w).reverse() : widths;
  const outwards = parts.flatMap((p, i) => p.map(() => turned[i]!));
  const rings = result.map((r) => (isHole ? r.ring.map(reverseCurve).reverse() : r.ring));
  const strips = offsetStrips(ring, outwards, options.mitreLimit ?? 4);
  const every = options.every ?? perimeter(strips.points) / 300;
  const tolerance = options.tolerance ?? CHORD_SAGITTA;
  const faults = [
    ...shapeFaults(rings),
    ...worst(rings.flatMap((r) => r.flatMap((c) => distanceFaults(c, strips, outwards, every, tolerance)))),
    ...worst(coverageFaults(ring, outwards, rings, strips, every)),
  ];
  return faults.sort((a, b) => b.by - a.by);
}

const MOST_OF_A_KIND = 5;
/** How far beyond a parallel the way must be free for the border to have to run there, mm. */
const BEYOND = 2 * OFFSET_FIT;

function worst(faults: readonly OffsetFault[]): OffsetFault[] {
  const kinds = [...new Set(faults.map((f) => f.kind))];
  return kinds.flatMap((kind) =>
    faults
      .filter((f) => f.kind === kind)
      .sort((a, b) => b.by - a.by)
      .slice(0, MOST_OF_A_KIND),
  );
}

function shapeFaults(rings: readonly Ring[]): OffsetFault[] {
  const open = rings.flatMap((r) =>
    r.flatMap((c, i): OffsetFault[] => {
      const before = endOfCurve(r[(i + r.length - 1) % r.length]!);
      const by = distance(before, c[0]);
      return by === 0 && c.every((p) => p.every(Number.isFinite))
        ? []
        : [{ kind: 'does not join up', at: c[0], by }];
    }),
  );
  const met = meetings(
    rings.map((r) => chordRing(r, CHORD_SAGITTA)),
    MOST_OF_A_KIND,
  );
  return [...open, ...met.map((at): OffsetFault => ({ kind: 'meets itself', at, by: 0 }))];
}

/** Points along a curve about `every` mm apart, its ends left out. */
function along(c: Curve, every: number): { t: number; at: Pt }[] {
  const n = Math.max(2, Math.min(200, Math.ceil(perimeter(flattenPath([c]).points) / every)));
  return Array.from({ length: n }, (_, k) => ({ t: (k + 0.5) / n, at: pointAt(c, (k + 0.5) / n) }));
}

function distanceFaults(
  c: Curve,
  strips: OffsetStrips,
  widths: readonly number[],
  every: number,
  tolerance: number,
): OffsetFault[] {
  const isOutset = widths.every((w) => w >= 0);
  const isInset = widths.every((w) => w <= 0);
  const places = [...along(c, every).map((p) => p.at), c[0]];
  return places.flatMap((at): OffsetFault[] => {
    const faults: OffsetFault[] = [];
    const { depth } = depthInStrips(strips, at);
    if (depth > tolerance) faults.push({ kind: 'too near the source', at, by: depth });
    const away = distanceFromStrips(strips, at);
    if (away > OFFSET_FIT) faults.push({ kind: 'too far from the source', at, by: away });
    if (isOutset === isInset) return faults;
    const fromSource = distanceToPolyline(at, strips.points);
    const isInside = isInPolygon(at, strips.points);
    if (fromSource > tolerance && isInside === isOutset) {
      faults.push({ kind: 'on the wrong side of the source', at, by: fromSource });
    }
    return faults;
  });
}

/** Where the parallel of a source curve is clear of everything else, the result must run; an outset must hold the source. */
function coverageFaults(
  ring: Ring,
  widths: readonly number[],
  rings: readonly Ring[],
  strips: OffsetStrips,
  every: number,
): OffsetFault[] {
  const chords = rings.map((r) => flattenPath(r, CHORD_SAGITTA / 4, true).points);
  const isOutset = widths.every((w) => w >= 0);
  return ring.flatMap((c, i) => {
    const w = widths[i]!;
    return along(c, every).flatMap(({ t, at }): OffsetFault[] => {
      const faults: OffsetFault[] = [];
      if (isOutset && !isInEvenOdd(at, chords)) {
        const by = Math.min(...chords.map((p) => distanceToPolyline(at, p)));
        if (by > CHORD_SAGITTA) faults.push({ kind: 'source sticks out', at, by });
      }
      const beside = besideCurve(c, t, w);
      const beyond = besideCurve(c, t, w + Math.sign(w) * BEYOND);
      if (!isClear(beside, beyond, i, w, strips)) return faults;
      const by = Math.min(Infinity, ...chords.map((p) => distanceToPolyline(beside, p)));
      if (by > OFFSET_FIT + CHORD_SAGITTA) faults.push({ kind: 'parallel is missing', at: beside, by });
      return faults;
    });
  });
}

function besideCurve(c: Curve, t: number, width: number): Pt {
  const h = 1e-5;
  const [p, q] = [pointAt(c, Math.max(0, t - h)), pointAt(c, Math.min(1, t + h))];
  const l = distance(p, q);
  const at = pointAt(c, t);
  return l === 0 ? at : [at[0] + ((q[1] - p[1]) / l) * width, at[1] - ((q[0] - p[0]) / l) * width];
}

/**
 * Whether the border must run through x on the parallel of curve i: just beyond it lies nothing of any strip, mitre or the wrong
 * side of the source. (Beyond, not at x itself: a spot where strips only just meet need not show.)
 */
function isClear(x: Pt, beyond: Pt, i: number, width: number, strips: OffsetStrips): boolean {
  const margin = OFFSET_FIT;
  if (distanceToCurve(strips, i, x) < Math.abs(width) - CHORD_SAGITTA / 4) return false;
  if (depthInStrips(strips, beyond).depth > -margin || isSwept(strips, x)) return false;
  if (strips.corners.some((c) => c.opens && distanceFromMitre(c, x) < margin)) return false;
  if (strips.strips.some((s) => s.width === 0 && distanceToPolyline(x, s.points, false) < margin))
    return false;
  return (
    width === 0 ||
    (isInPolygon(x, strips.points) === width < 0 && distanceToPolyline(x, strips.points) > margin)
  );
}

/** Inside an odd number of rings: an outer one but none of the openings. */
const isInEvenOdd = (p: Pt, rings: readonly Polyline[]): boolean =>
  rings.filter((r) => isInPolygon(p, r)).length % 2 === 1;

function distanceToPolyline([x, y]: Pt, points: Polyline, closed = true): number {
  let least = Infinity;
  let [ax, ay] = closed ? points.at(-1)! : points[0]!;
  for (const [bx, by] of points) {
    const [dx, dy] = [bx - ax, by - ay];
    const l2 = dx * dx + dy * dy;
    const t = l2 > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / l2)) : 0;
    least = Math.min(least, (ax + dx * t - x) ** 2 + (ay + dy * t - y) ** 2);
    [ax, ay] = [bx, by];
  }
  return Math.sqrt(least);
}

const perimeter = (points: Polyline): number =>
  points.reduce((sum, p, i) => (i === 0 ? 0 : sum + distance(points[i - 1]!, p)), 0);

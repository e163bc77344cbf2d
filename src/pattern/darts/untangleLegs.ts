import {
  type CurveRef,
  type Path,
  type Pt,
  SAME_POINT,
  cross,
  distance,
  endOf,
  flattenPath,
  mix,
  nearestOnPath,
  reversePath,
  startOf,
  subPath,
  subtract,
} from '../../geometry';
import type { DartShape } from '../design';
import { withPathEnds } from '../halfToWhole';

/** Fine enough to find where two hand-traced curves cross, mm. */
const FINE = 0.005;

/** Where two straight stretches cross; null where they do not. */
function crossing(a: Pt, b: Pt, p: Pt, q: Pt): Pt | null {
  const [u, v] = [subtract(b, a), subtract(q, p)];
  const d = cross(u, v);
  if (d === 0) return null;
  const [t, s] = [cross(subtract(p, a), v) / d, cross(subtract(p, a), u) / d];
  return t >= 0 && t <= 1 && s >= 0 && s <= 1 ? mix(a, b, t) : null;
}

/** The first place along a leg, from the mouth, where the other one crosses it short of the dart's point. */
function firstCrossing(leg: Path, other: Path, point: Pt): Pt | null {
  const [one, two] = [flattenPath(leg, FINE).points, flattenPath(other, FINE).points];
  for (let i = 1; i < one.length; i += 1) {
    for (let k = 1; k < two.length; k += 1) {
      const at = crossing(one[i - 1]!, one[i]!, two[k - 1]!, two[k]!);
      if (at && distance(at, point) > SAME_POINT) return at;
    }
  }
  return null;
}

const START: CurveRef = { index: 0, t: 0 };

function partedAt(path: Path, at: Pt): readonly [Path, Path] {
  const near = nearestOnPath(path, at);
  const end: CurveRef = { index: path.length - 1, t: 1 };
  const [before, after] = [subPath(path, START, near), subPath(path, near, end)];
  return [withPathEnds(before, startOf(path), at), withPathEnds(after, at, endOf(path))];
}

/**
 * A single dart whose curved legs cross, as hand tracings do near the point: from the crossing on each takes the other's way, so that
 * they only touch there and the wedge lies on one side of them. Other darts are handed back as they are.
 */
export function untangled(dart: DartShape): DartShape {
  if (dart.kind !== 'single' || !dart.legs) return dart;
  const [first, second] = dart.legs;
  const at = firstCrossing(first, reversePath(second), dart.point);
  if (!at) return dart;
  const [come, in1] = partedAt(first, at);
  const [out2, go] = partedAt(second, at);
  return {
    ...dart,
    legs: [
      [...come, ...reversePath(out2)],
      [...reversePath(in1), ...go],
    ],
  };
}

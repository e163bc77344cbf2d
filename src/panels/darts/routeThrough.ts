import {
  type Curve,
  type Line,
  type Path,
  type Pt,
  type Ring,
  add,
  crossStraight,
  directionAt,
  distance,
  dot,
  endOf,
  isCubic,
  mix,
  nearestOnPath,
  pathLength,
  reversePath,
  scale,
  startOf,
  subPath,
  subtract,
  unit,
  withEnds,
} from '../../geometry';
import type { DartShape } from '../../pattern';

/** A line that leaves a dart's point within this of its middle runs along the dart, cosine (25°). */
const ALONG_DART = Math.cos((25 * Math.PI) / 180);
/** A part of a line shorter than this beyond a dart's point is no part: the line ends there, mm. */
const NO_PART = 2;

type Single = Extract<DartShape, { kind: 'single' }>;
type Double = Extract<DartShape, { kind: 'double' }>;

const axisOf = ({ point, mouth }: Single): Pt => unit(subtract(mix(mouth[0], mouth[1], 0.5), point));

/** Where a single dart's middle line meets the outline at its mouth. */
function mouthMiddle(dart: Single, stitching: Ring): Pt {
  const middle = mix(dart.mouth[0], dart.mouth[1], 0.5);
  const meets = crossStraight(stitching, dart.point, axisOf(dart)).filter((c) => c.along > 0);
  const near = meets.reduce<Pt | null>(
    (best, m) => (!best || distance(m.point, middle) < distance(best, middle) ? m.point : best),
    null,
  );
  return near ?? middle;
}

/** A cubic between two points with given directions of travel: as gentle as its length allows. */
function gentle(a: Pt, leaving: Pt, b: Pt, arriving: Pt): Curve {
  const reach = distance(a, b) / 3;
  return [a, add(a, scale(leaving, reach)), subtract(b, scale(arriving, reach)), b];
}

/** The part of a line before a dart's point, led to it in a given direction of travel; its start stays. */
function ledTo(part: Path, p: Pt, arriving: Pt): Path {
  const last = part.at(-1);
  if (!last) return [];
  const before = part.slice(0, -1);
  if (isCubic(last)) return [...before, withEnds(last, last[0], p)];
  return [...before, gentle(last[0], unit(subtract(last[1], last[0])), p, arriving)];
}

const ledFrom = (part: Path, p: Pt, leaving: Pt): Path =>
  reversePath(ledTo(reversePath(part), p, scale(leaving, -1)));

/** Whether a part of a line that begins beside a dart's point runs into its mouth: its far end says so. */
function runsIntoMouth(part: Path, dart: Single): boolean {
  const away = subtract(endOf(part), dart.point);
  return dot(unit(away), axisOf(dart)) > ALONG_DART;
}

interface Parts {
  readonly before: Path;
  readonly after: Path;
  /** Direction of travel beside the point. */
  readonly direction: Pt;
}

function partedAt(path: Path, p: Pt): Parts {
  const near = nearestOnPath(path, p);
  return {
    before: subPath(path, { index: 0, t: 0 }, near),
    after: subPath(path, near, { index: path.length - 1, t: 1 }),
    direction: directionAt(path[near.index]!, near.t),
  };
}

const isPart = (path: Path): boolean => path.length > 0 && pathLength(path) > NO_PART;

function throughSingle(path: Path, dart: Single, stitching: Ring): Path {
  const { before, after, direction } = partedAt(path, dart.point);
  const axis = axisOf(dart);
  const toMouth: Line = [dart.point, mouthMiddle(dart, stitching)];
  const back = reversePath(before);
  if (!isPart(after) || runsIntoMouth(after, dart)) return [...ledTo(before, dart.point, axis), toMouth];
  if (!isPart(back) || runsIntoMouth(back, dart))
    return [...reversePath([toMouth]), ...ledFrom(after, dart.point, scale(axis, -1))];
  return [...ledTo(before, dart.point, direction), ...ledFrom(after, dart.point, direction)];
}

function throughDouble(path: Path, dart: Double): Path {
  const [p, , q] = dart.points;
  const flow = subtract(endOf(path), startOf(path));
  const [first, second] = dot(subtract(q, p), flow) >= 0 ? [p, q] : [q, p];
  const axis = unit(subtract(second, first));
  const { before } = partedAt(path, first);
  const { after } = partedAt(path, second);
  const middle: Line = [first, second];
  return [
    ...(isPart(before) ? ledTo(before, first, axis) : []),
    middle,
    ...(isPart(after) ? ledFrom(after, second, axis) : []),
  ];
}

/**
 * A line led through a dart's point, so that the dart can go into its seam. One that runs into the dart's mouth, or ends at the
 * point, runs down the middle of the dart; another one passes through the point in its own direction. A double-pointed dart is
 * run through from point to point. Ends that do not lie in the dart stay where they are.
 * @param stitching the piece's stitching outline
 */
export const routeThrough = (path: Path, dart: DartShape, stitching: Ring): Path =>
  dart.kind === 'single' ? throughSingle(path, dart, stitching) : throughDouble(path, dart);

import {
  type CurveRef,
  type Path,
  type Pt,
  boxesMeet,
  crossStraight,
  distance,
  endOf,
  flattenPath,
  isInRing,
  lengthAt,
  nearestOnPath,
  pathBox,
  pointAtLength,
  pointOn,
  reversePath,
  startOf,
  subtract,
  unit,
} from '../../geometry';
import { type DartShape, type PlacedDart, dartLegs } from '../../pattern';

/** The two sewn sides of a dart, both from its (first) point outwards: single to the mouth's ends, double to its other point. */
export function sidesOf(dart: DartShape): readonly [Path, Path] {
  const legs = dartLegs(dart);
  const first = dart.kind === 'single' ? dart.point : dart.points[0];
  const far = dart.kind === 'single' ? dart.mouth[0] : dart.points[2];
  if (dart.kind === 'double') {
    const half = legs.findIndex((c) => c[0] === far || distance(c[0], far) === 0);
    return [legs.slice(0, half), reversePath(legs.slice(half))];
  }
  const turn = legs.findIndex((c) => distance(c[0], first) === 0);
  return [reversePath(legs.slice(0, turn)), legs.slice(turn)];
}

/** Where a path meets one side of a dart. */
export interface DartMeeting {
  readonly side: 0 | 1;
  /** On the path. */
  readonly at: CurveRef;
  readonly point: Pt;
  /** Arc length on the path, and along the side from the dart's point, mm. */
  readonly along: number;
  readonly out: number;
}

/** A stretch of a path from one side of a dart to the other, inside the wedge. */
export interface DartPassage {
  readonly enter: DartMeeting;
  readonly leave: DartMeeting;
  /** By how much the path breaks once the dart is sewn, mm: the difference of the distances from the point. */
  readonly gap: number;
}

/** Meetings nearer together than this are one: a chord's end belongs to two chords, mm. */
const ONE_MEETING = 1e-3;

function meetingsWith(path: Path, side: Path, index: 0 | 1): DartMeeting[] {
  const { points } = flattenPath(side, 0.001);
  const found = points.slice(1).flatMap((b, i) => {
    const a = points[i]!;
    const reach = distance(a, b);
    if (reach === 0) return [];
    return crossStraight(path, a, unit(subtract(b, a)))
      .filter(({ along }) => along >= -1e-9 && along <= reach + 1e-9)
      .map((c): DartMeeting => {
        const at = { index: c.index, t: c.t };
        const near = nearestOnPath(side, c.point);
        return {
          side: index,
          at,
          point: pointOn(path, at),
          along: lengthAt(path, at),
          out: lengthAt(side, near),
        };
      });
  });
  return found
    .sort((p, q) => p.along - q.along)
    .filter((m, i, all) => i === 0 || m.along - all[i - 1]!.along > ONE_MEETING);
}

/** A dart's wedge as corner points: its sides, and straight across the mouth of a single one. */
const wedgePoints = (dart: DartShape): readonly Pt[] => flattenPath(dartLegs(dart)).points;

/** Every way a path leads through a dart from one side to the other. None where it runs through the point or stays clear. */
export function passagesThrough(path: Path, dart: DartShape): readonly DartPassage[] {
  if (path.length === 0 || !boxesMeet(pathBox(path), pathBox(dartLegs(dart)))) return [];
  const [one, other] = sidesOf(dart);
  const meetings = [...meetingsWith(path, one, 0), ...meetingsWith(path, other, 1)]
    .filter((m) => m.out > ONE_MEETING)
    .sort((p, q) => p.along - q.along);
  const wedge = wedgePoints(dart);
  return meetings.slice(1).flatMap((leave, i): DartPassage[] => {
    const enter = meetings[i]!;
    if (enter.side === leave.side) return [];
    const middle = pointAtLength(path, (enter.along + leave.along) / 2).point;
    if (!isInRing(middle, wedge)) return [];
    return [{ enter, leave, gap: Math.abs(enter.out - leave.out) }];
  });
}

/** Whether a path begins or ends inside a dart's wedge, or at its mouth between the legs. */
export function endsInDart(path: Path, dart: PlacedDart): boolean {
  if (path.length === 0) return false;
  const wedge = wedgePoints(dart);
  const isNear = (p: Pt): boolean => {
    if (isInRing(p, wedge)) return true;
    if (dart.kind === 'double') return false;
    const [a, b] = dart.mouth;
    return distance(p, a) + distance(p, b) < distance(a, b) * 1.02 + 0.1;
  };
  return [startOf(path), endOf(path)].some(isNear);
}

/** The point on a dart's side at a distance from the dart's point along that side, mm. */
export const onSide = (dart: DartShape, side: 0 | 1, out: number): Pt =>
  pointAtLength(sidesOf(dart)[side], out).point;

import {
  type CurveRef,
  type Line,
  type Matrix,
  type Path,
  type Polyline,
  type Pt,
  SAME_POINT,
  applyMatrix,
  crossStraight,
  distance,
  endOf,
  isInRing,
  length,
  pathLength,
  pointAtLength,
  startOf,
  subPath,
  subtract,
  transformPath,
  unit,
  turnAbout,
} from '../../geometry';
import type { Piece } from '../design';
import { turnBetween } from './dartShape';
import type { Turn } from './swingDart';
import { swungPiece } from './swingPiece';

/** A stretch of a path that was carried along in one piece. */
export interface CarriedPath {
  readonly path: Path;
  /** Whether it lies on the part that turned (of the last turn that moved it). */
  readonly turned: boolean;
}

/**
 * Where places of a traced piece are once its darts are swung, and back. Within a dart's wedge a place is drawn together about the
 * point as the wedge narrows; what lies in a newly opened wedge comes from the cut.
 */
export interface SwingMap {
  readonly point: (p: Pt) => Pt;
  readonly back: (p: Pt) => Pt;
  /** A path cut where the piece was cut and where legs are, in order; parts within a closed wedge are left out. */
  readonly path: (path: Path) => readonly CarriedPath[];
  readonly backPath: (path: Path) => readonly CarriedPath[];
}

/** A wedge before the turn: from the leg on the part that turns to that on the other, and what its angle is multiplied by. */
interface Wedge {
  readonly legs: readonly [Line, Line];
  readonly keeps: number;
}

/** A turn seen from either side of it. */
interface OneWay {
  /** The part that turns, as it lies before. */
  readonly turned: Polyline;
  readonly matrix: Matrix;
  readonly about: Pt;
  readonly wedges: readonly Wedge[];
  /** Lines at which the piece comes apart or together. */
  readonly seams: readonly Line[];
}

/** Share of a dart's angle that a turn leaves; 0 when it closes wholly. */
const keptOf = ({ closed }: Turn): number => (1 - closed < 1e-9 ? 0 : 1 - closed);

const forwards = (t: Turn): OneWay => ({
  turned: t.turned,
  matrix: t.matrix,
  about: t.about,
  wedges: [{ legs: t.legs, keeps: keptOf(t) }],
  seams: [t.cut, ...t.legs, ...t.borders],
});

function backwards(t: Turn): OneWay {
  const inverse = turnAbout(t.about, -t.angle);
  const at = (p: Pt): Pt => applyMatrix(t.matrix, p);
  const put = ([a, b]: Line): Line => [a, at(b)];
  const opened: readonly [Line, Line] = [put(t.cut), t.cut];
  const left: readonly [Line, Line] = [put(t.legs[0]), t.legs[1]];
  const kept = keptOf(t);
  return {
    turned: t.turned.map(at),
    matrix: inverse,
    about: t.about,
    wedges: [{ legs: opened, keeps: 0 }, ...(kept > 0 ? [{ legs: left, keeps: 1 / kept }] : [])],
    seams: [...opened, ...left, ...t.borders, ...t.borders.map(([a, b]): Line => [at(a), at(b)])],
  };
}

/** A place this near to a leg, as a share of the wedge, lies on it: it goes either way by the same turn. */
const ON_LEG = 1e-9;

/** How far round from the still leg towards the turned leg a place lies, as a share of the wedge; null outside it. */
function shareOf({ legs }: Wedge, about: Pt, p: Pt, slack: number): number | null {
  const [turned, still] = [legs[0][1], legs[1][1]];
  const whole = turnBetween(still, about, turned);
  if (whole === 0) return null;
  const share = turnBetween(still, about, p) / whole;
  const reach = Math.max(distance(about, turned), distance(about, still));
  return share > -slack && share < 1 + slack && distance(about, p) <= reach * 1.001 ? share : null;
}

const wedgeAt = (way: OneWay, p: Pt, slack = 0): Wedge | undefined =>
  way.wedges.find((w) => shareOf(w, way.about, p, slack) !== null);

function placed(way: OneWay, p: Pt): Pt {
  const wedge = wedgeAt(way, p, ON_LEG);
  if (!wedge) return isInRing(p, way.turned) ? applyMatrix(way.matrix, p) : p;
  const whole = turnBetween(wedge.legs[1][1], way.about, wedge.legs[0][1]);
  const share = shareOf(wedge, way.about, p, ON_LEG)!;
  return applyMatrix(turnAbout(way.about, whole * share * (wedge.keeps - 1)), p);
}

/** Places along a path where it meets one of the lines, in order. */
function meetings(path: Path, lines: readonly Line[]): CurveRef[] {
  const found = lines.flatMap(([a, b]) => {
    const along = subtract(b, a);
    const reach = length(along);
    return crossStraight(path, a, unit(along)).filter(
      (c) => c.along >= -SAME_POINT && c.along <= reach + SAME_POINT,
    );
  });
  return found
    .map(({ index, t }): CurveRef => ({ index, t }))
    .sort((x, y) => x.index + x.t - (y.index + y.t));
}

/** A path cut into stretches at places in order; stretches of no length are left out. */
function parted(path: Path, places: readonly CurveRef[]): Path[] {
  const ends: CurveRef[] = [{ index: 0, t: 0 }, ...places, { index: path.length - 1, t: 1 }];
  return ends
    .slice(1)
    .map((end, i) => subPath(path, ends[i]!, end))
    .filter((p) => p.length > 0 && pathLength(p) > SAME_POINT / 10);
}

function carried(way: OneWay, { path, turned }: CarriedPath): CarriedPath[] {
  if (path.length === 0) return [];
  return parted(path, meetings(path, way.seams)).flatMap((part): CarriedPath[] => {
    const middle = pointAtLength(part, pathLength(part) / 2).point;
    const wedge = wedgeAt(way, middle);
    if (wedge?.keeps === 0) return [];
    if (wedge) return [{ path: [[placed(way, startOf(part)), placed(way, endOf(part))]], turned }];
    if (!isInRing(middle, way.turned)) return [{ path: part, turned }];
    return [{ path: transformPath(part, way.matrix), turned: true }];
  });
}

/** Stretches that still follow each other are one. */
function rejoined(parts: readonly CarriedPath[]): CarriedPath[] {
  const out: CarriedPath[] = [];
  for (const p of parts) {
    const last = out.at(-1);
    if (last && last.turned === p.turned && distance(endOf(last.path), startOf(p.path)) <= SAME_POINT)
      out[out.length - 1] = { path: [...last.path, ...p.path], turned: p.turned };
    else out.push(p);
  }
  return out;
}

/** The map of some turns, one after the other. Without any, everything stays. */
export function swingMapOf(turns: readonly Turn[]): SwingMap {
  const there = turns.map(forwards);
  const back = turns.map(backwards).reverse();
  const along =
    (ways: readonly OneWay[]) =>
    (path: Path): readonly CarriedPath[] =>
      rejoined(
        ways.reduce<readonly CarriedPath[]>(
          (parts, way) => parts.flatMap((part) => carried(way, part)),
          [{ path, turned: false }],
        ),
      );
  return {
    point: (p) => there.reduce((q, way) => placed(way, q), p),
    back: (p) => back.reduce((q, way) => placed(way, q), p),
    path: along(there),
    backPath: along(back),
  };
}

/** Where places of a traced piece (the half as traced) are once its darts are swung, for whatever is drawn on it. */
export const swingMap = (piece: Piece): SwingMap => swingMapOf(swungPiece(piece).turns);

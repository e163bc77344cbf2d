import {
  CHORD_SAGITTA,
  CORNER_TURN,
  type Curve,
  type Line,
  type Path,
  type Pt,
  SAME_POINT,
  add,
  cross,
  crossStraight,
  directionAt,
  distance,
  dot,
  endOf,
  isCubic,
  isSimpleRing,
  mirrorAcross,
  reversePath,
  scale,
  startOf,
  subPath,
  subtract,
  transformPath,
  unit,
} from '../../geometry';
import { type SingleDart, dartLegLengths, legsOf } from './dartShape';
import { type Outline, curvesOf, mouthPlace, stretch } from './turnPart';

/** A joint inside a traced mouth that turns by more than this was drawn as a cap, radians (5°). */
const CAP_TURN = (5 * Math.PI) / 180;

const turnAtJoint = (a: Curve, b: Curve): number => {
  const [u, v] = [directionAt(a, 1), directionAt(b, 0)];
  return Math.abs(Math.atan2(cross(u, v), dot(u, v)));
};

/**
 * Whether the outline goes across a mouth without a shape of its own: straight, or as the edge simply goes on. A mouth with a corner in it, or a
 * curve that leaves the edge at an angle, was shaped by whoever drew the pattern.
 */
export function isPlainMouth<T>(outline: Outline<T>, dart: SingleDart): boolean {
  const { from, to } = mouthPlace(outline, dart);
  const across = curvesOf(stretch(outline, from, to));
  if (across.length === 0) return false;
  if (across.some((c, i) => i > 0 && turnAtJoint(across[i - 1]!, c) > CAP_TURN)) return false;
  if (!across.some(isCubic)) return true;
  const [before, after] = [
    curvesOf(stretch(outline, to, from)).at(-1),
    curvesOf(stretch(outline, to, from))[0],
  ];
  if (!before || !after) return false;
  return turnAtJoint(before, across[0]!) <= CORNER_TURN && turnAtJoint(across.at(-1)!, after) <= CORNER_TURN;
}

/** The edge beside a mouth, going away from it, as far as its first corner; then straight on. */
function edgeBeside(path: Path, reach: number): Path {
  const out: Curve[] = [];
  let length = 0;
  for (const c of path) {
    if (out.length > 0 && turnAtJoint(out.at(-1)!, c) > CORNER_TURN) break;
    out.push(c);
    length += distance(c[0], c.at(-1)!);
    if (length > 4 * reach) break;
  }
  const end = endOf(out);
  return [...out, [end, add(end, scale(directionAt(out.at(-1)!, 1), 4 * reach))]];
}

/**
 * How far the peak of a cap may reach beyond the mouth's width: an edge that meets its leg at so flat an angle that the cap would reach farther is
 * left as traced.
 */
const HIGHEST_CAP = 1;

/**
 * The edge across a dart's mouth as it must be cut so that, with the dart sewn and pressed, the folded edge is caught by the seam: fold the dart
 * shut the way it is pressed and draw the edge across it (common practice; outside checks found it only partly described). The edge beside the
 * leg that the dart is pressed over is mirrored over that leg as far as the dart's middle, and that again over the middle. Curved legs are
 * mirrored over as they end at the mouth.
 *
 * Legs of unequal length: a dart is sewn from its point, so the shorter leg is drawn on to the length of the longer one within the cap; the sewn legs
 * then agree, and nothing that was traced is cut away.
 * @param leg which leg the dart is pressed over, by the order of its mouth
 * @returns from the first mouth end in ring order to the second; null where no cap can be drawn
 */
export function mouthCap<T>(outline: Outline<T>, dart: SingleDart, leg: 0 | 1): Path | null {
  const place = mouthPlace(outline, dart);
  const rest = curvesOf(stretch(outline, place.to, place.from));
  if (rest.length === 0) return null;
  const isOverExit = (leg === 1) === place.isFirst;
  const beside = isOverExit ? rest : reversePath(rest);
  const lengths = dartLegLengths(dart);
  const [near, far] = leg === 0 ? [0, 1] : [1, 0];
  const drawnOn = Math.max(0, lengths[far]! - lengths[near]!);
  const half = halfCap(dart, beside, leg, drawnOn);
  if (!half) return null;
  const middle = middleLine(dart);
  const other = transformPath(half, mirrorAcross(middle));
  const end = outwardsAt(dart, far as 0 | 1);
  const tail: Path =
    distance(endOf(reversePath(other)), end.at) > SAME_POINT ? [[startOf(other), end.at]] : [];
  const head: Path = drawnOn > SAME_POINT ? [[startOf(beside), startOf(half)]] : [];
  const cap = chained([...head, ...half, ...reversePath(other), ...tail], startOf(beside), endOf(beside));
  return isOverExit ? reversePath(cap) : cap;
}

/** Every curve made to start exactly where the one before ends, and the ends put where they belong: they are off by rounding only. */
function chained(path: Path, first: Pt, last: Pt): Path {
  let at = first;
  return path.map((c, i) => {
    const end = i === path.length - 1 ? last : c.at(-1)!;
    const curve = [at, ...c.slice(1, -1), end] as unknown as Curve;
    at = end;
    return curve;
  });
}

const middleLine = ({ mouth, point }: SingleDart): Line => {
  const [u, v] = mouth.map((m) => unit(subtract(m, point))) as [Pt, Pt];
  return [point, add(point, add(u, v))];
};

/** A mouth end, and the direction in which its leg leaves the piece there. */
function outwardsAt(dart: SingleDart, leg: 0 | 1): { at: Pt; direction: Pt } {
  const [first, second] = legsOf(dart);
  const path = leg === 0 ? reversePath(first) : second;
  return { at: endOf(path), direction: directionAt(path.at(-1)!, 1) };
}

/** The edge beside the leg mirrored over it (drawn on so far), from the leg to the dart's middle; null where it does not get there. */
function halfCap(dart: SingleDart, beside: Path, leg: 0 | 1, drawnOn: number): Path | null {
  const { at, direction } = outwardsAt(dart, leg);
  const width = distance(...dart.mouth);
  const edge = edgeBeside(beside, width);
  const mirrored = transformPath(edge, mirrorAcross([at, add(at, direction)]));
  const by = scale(direction, drawnOn);
  const moved = transformPath(mirrored, [1, 0, 0, 1, by[0], by[1]]);
  const [origin, to] = middleLine(dart);
  const reach = distance(dart.point, at) + drawnOn;
  const hits = crossStraight(moved, origin, unit(subtract(to, origin)));
  const peak = hits
    .filter((h) => h.along > 0 && Math.abs(h.along - reach) <= HIGHEST_CAP * width)
    .sort((a, b) => a.index + a.t - b.index - b.t)[0];
  if (!peak) return null;
  const half = subPath(moved, { index: 0, t: 0 }, peak);
  return half.length > 0 ? half : null;
}

/**
 * An outline with a dart's mouth cut as a cap; the same outline where no cap can be drawn or it would run into the rest. The new curves belong
 * where the mouth belonged.
 */
export function withCap<T>(outline: Outline<T>, dart: SingleDart, leg: 0 | 1): Outline<T> {
  const cap = mouthCap(outline, dart, leg);
  if (!cap) return outline;
  const { from, to } = mouthPlace(outline, dart);
  const across = stretch(outline, from, to);
  const tag = across[0]!.tag;
  const rest = stretch(outline, to, from);
  const joined = [...rest, ...cap.map((curve) => ({ curve, tag }))];
  return isSimpleRing(curvesOf(joined), CHORD_SAGITTA) ? joined : outline;
}

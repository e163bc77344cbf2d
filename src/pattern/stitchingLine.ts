import {
  CORNER_TURN,
  type Curve,
  type Path,
  type Pt,
  type Ring,
  cross,
  crossStraight,
  directionAt,
  distance,
  dot,
  endOfCurve,
  isCubic,
  offsetRing,
  reverseCurve,
  scale,
  signedArea,
  subPath,
} from '../geometry';

/** A stitching outline and, for each of its curves, the outline curve it runs along. */
export interface StitchingLine {
  readonly ring: Ring;
  readonly origins: readonly number[];
}

/**
 * The stitching outline of a cut tracing: every curve of the outline moved in by what is included there, stitching lines running
 * straight on until they meet at corners, however much their widths differ.
 * @param widths one per curve, mm, not negative
 * @returns null when nothing is left inside
 */
export function stitchingLine(outline: Ring, widths: readonly number[]): StitchingLine | null {
  if (widths.every((w) => w === 0)) return { ring: outline, origins: outline.map((_, i) => i) };
  const inset = offsetRing(
    outline,
    widths.map((w) => -w),
  )[0];
  if (!inset || new Set(widths).size === 1) return inset ?? null;
  const forwards = meetAtSteps(
    inset.ring.map((curve, i) => ({ curve, origin: inset.origins[i]! })),
    outline,
    widths,
  );
  // the same with everything turned round, for steps where the wider edge comes first
  const n = outline.length;
  const back = meetAtSteps(turned(forwards, n), outline.map(reverseCurve).reverse(), widths.toReversed());
  const both = turned(back, n);
  return { ring: both.map((c) => c.curve), origins: both.map((c) => c.origin) };
}

interface Sewn {
  readonly curve: Curve;
  readonly origin: number;
}

const turned = (curves: readonly Sewn[], n: number): Sewn[] =>
  curves.map(({ curve, origin }) => ({ curve: reverseCurve(curve), origin: n - 1 - origin })).reverse();

/** How far a step's end may be off the place it is known by, mm: re-fitted parallels end a little off. */
const AT_STEP = 0.06;

/**
 * Offsetting ends a wide strip square to its edge where a narrow one meets it bluntly: a jog in the stitching line. At a corner nobody sews a
 * jog: the wider line runs straight on to the narrower one. Here for steps where the wider edge comes after.
 */
function meetAtSteps(curves: readonly Sewn[], outline: Ring, widths: readonly number[]): Sewn[] {
  let ring = [...curves];
  for (let i = 0; i < ring.length; i += 1) {
    const met = metAt(ring, i, outline, widths);
    if (!met) continue;
    ring = met;
    i = -1;
  }
  return ring;
}

/** The ring with the step before curve i taken out; null where there is none. */
function metAt(ring: readonly Sewn[], i: number, outline: Ring, widths: readonly number[]): Sewn[] | null {
  const n = ring.length;
  const at = (back: number): Sewn => ring[(i + n - back) % n]!;
  const [wide, jog, narrow] = [at(0), at(1), at(2)];
  if (n < 4 || isCubic(jog.curve) || narrow.origin === wide.origin) return null;
  if (widths[wide.origin]! <= widths[narrow.origin]! || !isStepTo(wide, jog, outline, widths)) return null;
  // the narrower line, back to where the width changes
  const before: Sewn[] = [];
  for (let k = 2; k < n && widths[at(k).origin] === widths[narrow.origin]; k += 1) before.unshift(at(k));
  const path: Path = before.map((c) => c.curve);
  const start = wide.curve[0];
  const met = crossStraight(path, start, scale(directionAt(wide.curve, 0), -1)).find((c) => c.along > 0);
  if (!met) return null;
  const kept = subPath(path, { index: 0, t: 0 }, met);
  const trimmed = kept.map((curve, k): Sewn => ({ curve, origin: before[k]!.origin }));
  const end = kept.length > 0 ? endOfCurve(kept.at(-1)!) : path[0]![0];
  const rest = Array.from({ length: n - before.length - 1 }, (_, k) => ring[(i + k) % n]!);
  if (!isCubic(wide.curve)) return [...trimmed, { ...wide, curve: [end, wide.curve[1]] }, ...rest.slice(1)];
  return [...trimmed, { ...wide, curve: [end, start] }, ...rest];
}

/** Whether a straight curve is the end face of the wide strip that begins at a corner of the outline. */
function isStepTo(wide: Sewn, jog: Sewn, outline: Ring, widths: readonly number[]): boolean {
  const width = widths[wide.origin]!;
  const corner: Pt = outline[wide.origin]![0];
  const [into, outOf] = [directionAt(outline.at(wide.origin - 1)!, 1), directionAt(outline[wide.origin]!, 0)];
  if (Math.atan2(cross(into, outOf), dot(into, outOf)) * Math.sign(signedArea(outline)) < CORNER_TURN)
    return false;
  const isSquare = Math.abs(dot(directionAt(jog.curve, 0), directionAt(wide.curve, 0))) < 1e-3;
  return isSquare && Math.abs(distance(corner, wide.curve[0]) - width) < AT_STEP;
}

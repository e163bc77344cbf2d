import { isCubic, pointAt } from './curve';
import { chordCount } from './flatten';
import { forEachNearPair, type SegmentList } from './nearPairs';
import { turnOf } from './orientation';
import type { CurveRef, Path, Pt } from './types';

/** Closed curves as chords, with the place each corner point came from. */
export interface ChordRing {
  readonly xs: number[];
  readonly ys: number[];
  readonly refs: CurveRef[];
}

/** Replace the curves of a ring by chords that stay within `sagitta` mm; the first point is not repeated. */
export function chordRing(ring: Path, sagitta: number): ChordRing {
  const out: ChordRing = { xs: [], ys: [], refs: [] };
  ring.forEach((c, index) => {
    const n = isCubic(c) ? chordCount(c, sagitta) : 1;
    for (let i = 0; i < n; i += 1) {
      const [x, y] = i === 0 ? c[0] : pointAt(c, i / n);
      const last = out.xs.length - 1;
      if (last >= 0 && out.xs[last] === x && out.ys[last] === y) continue;
      out.xs.push(x);
      out.ys.push(y);
      out.refs.push({ index, t: i / n });
    }
  });
  return out;
}

/**
 * Places where closed chords cross, touch or lie on each other (exact predicates), neighbours doubling back included:
 * one point of each such pair, at most `most`. None means that the rings are simple and apart.
 */
export function meetings(rings: readonly ChordRing[], most = 1): Pt[] {
  const list = segmentList(rings);
  const { xs, ys, ids } = list;
  const found: Pt[] = [];
  const visit = (i: number, j: number): void => {
    if (found.length >= most) return;
    const [a, b, c, d] = [ids[i]!, ids[i + 1]!, ids[j]!, ids[j + 1]!];
    const meets =
      b === c || d === a || b === d || a === c
        ? doublesBack(xs, ys, a, b, c, d)
        : segmentsMeet(xs, ys, a, b, c, d);
    if (meets) found.push([(xs[a]! + xs[b]!) / 2, (ys[a]! + ys[b]!) / 2]);
  };
  forEachNearPair(list, 0, visit);
  return found;
}

/** Whether a ring neither crosses, touches nor lies on itself, its curves replaced by chords within `sagitta` mm. */
export const isSimpleRing = (ring: Path, sagitta: number): boolean =>
  meetings([chordRing(ring, sagitta)]).length === 0;

function segmentList(rings: readonly ChordRing[]): SegmentList {
  const [xs, ys, ids, first]: [number[], number[], number[], number[]] = [[], [], [], [0]];
  for (const ring of rings) {
    const begin = xs.length;
    for (let k = 0; k < ring.xs.length; k += 1) {
      ids.push(xs.length);
      xs.push(ring.xs[k]!);
      ys.push(ring.ys[k]!);
    }
    if (ring.xs.length > 0) ids.push(begin);
    first.push(ids.length);
  }
  return { xs, ys, ids, first };
}

type Numbers = readonly number[];

/** Two neighbouring segments of one row share a point: they meet elsewhere only if they lie on one line and overlap. */
function doublesBack(xs: Numbers, ys: Numbers, a: number, b: number, c: number, d: number): boolean {
  if ((b === c && d === a) || (a === c && b === d)) return true;
  const [shared, p, q] = b === c ? [b, a, d] : d === a ? [a, b, c] : b === d ? [b, a, c] : [a, b, d];
  const [x, y] = [xs[shared]!, ys[shared]!];
  if (turnOf(x, y, xs[p]!, ys[p]!, xs[q]!, ys[q]!) !== 0) return false;
  return (xs[p]! - x) * (xs[q]! - x) + (ys[p]! - y) * (ys[q]! - y) > 0;
}

function segmentsMeet(xs: Numbers, ys: Numbers, a: number, b: number, c: number, d: number): boolean {
  const [ax, ay, bx, by] = [xs[a]!, ys[a]!, xs[b]!, ys[b]!];
  const [cx, cy, dx, dy] = [xs[c]!, ys[c]!, xs[d]!, ys[d]!];
  const s1 = turnOf(ax, ay, bx, by, cx, cy);
  const s2 = turnOf(ax, ay, bx, by, dx, dy);
  if ((s1 > 0 && s2 > 0) || (s1 < 0 && s2 < 0)) return false;
  const s3 = turnOf(cx, cy, dx, dy, ax, ay);
  const s4 = turnOf(cx, cy, dx, dy, bx, by);
  if ((s3 > 0 && s4 > 0) || (s3 < 0 && s4 < 0)) return false;
  if (s1 !== 0 || s2 !== 0 || s3 !== 0 || s4 !== 0) return true;
  const apart = (p: number, q: number, r: number, s: number): boolean =>
    Math.max(p, q) < Math.min(r, s) || Math.max(r, s) < Math.min(p, q);
  return !apart(ax, bx, cx, dx) && !apart(ay, by, cy, dy);
}

import {
  type Curve,
  JOIN_GAP,
  type Path,
  type Pt,
  distance,
  isCubic,
  nearestOnPath,
  subPath,
  withEnds,
} from '../../geometry';
import { type DartShape, dartPoints } from '../../pattern';
import { type DartPassage, onSide, passagesThrough, shorterSide } from './passage';

/** A passage that breaks by less than this needs no mending, mm. */
const UNBROKEN = 1e-6;

/** The least value's place of a function with one valley, by golden section. */
function lowest(f: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let [c, d] = [b - golden * (b - a), a + golden * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let i = 0; i < 80 && b - a > 1e-9; i += 1) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - golden * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + golden * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}

const firstPart = (path: Path, { enter }: DartPassage): Path => subPath(path, { index: 0, t: 0 }, enter.at);
const lastPart = (path: Path, { leave }: DartPassage): Path =>
  subPath(path, leave.at, { index: path.length - 1, t: 1 });

/** How a path is led over a dart: straight as sewn, or as near as can be to where it was drawn. */
export type Leading = 'straight' | 'near';

/**
 * How far from the dart's point a path must cross both sides. Straight between straight stretches: where the way is shortest,
 * since that is the straight line once the dart is sewn shut. Else half way between its two crossings, where it moves least.
 */
function crossingOut(
  before: Path,
  after: Path,
  passage: DartPassage,
  dart: DartShape,
  leading: Leading,
): number {
  const [come, go] = [before.at(-1), after[0]];
  const isBent = (come && isCubic(come)) || (go && isCubic(go));
  if (leading === 'near' || isBent) return (passage.enter.out + passage.leave.out) / 2;
  const from: Pt = come ? come[0] : passage.enter.point;
  const to: Pt = go ? go[1] : passage.leave.point;
  const way = (out: number): number =>
    distance(from, onSide(dart, passage.enter.side, out)) +
    distance(onSide(dart, passage.leave.side, out), to);
  return lowest(way, 0, shorterSide(dart));
}

const endAt = (path: Path, p: Pt): Path =>
  path.map((c, i): Curve => (i === path.length - 1 ? withEnds(c, c[0], p) : c));
const startAt = (path: Path, p: Pt): Path =>
  path.map((c, i): Curve => (i === 0 ? withEnds(c, p, c[c.length - 1]!) : c));

function mendPassage(path: Path, passage: DartPassage, dart: DartShape, leading: Leading): Path {
  const [before, after] = [firstPart(path, passage), lastPart(path, passage)];
  const out = crossingOut(before, after, passage, dart, leading);
  const [p, q] = [onSide(dart, passage.enter.side, out), onSide(dart, passage.leave.side, out)];
  return [...endAt(before, p), [p, q], ...startAt(after, q)];
}

/**
 * A path laid as it will lie when the dart is sewn: it crosses both of the dart's sides equally far from the point, straight
 * across the wedge between. Its ends stay. `straight`: a straight line is straight again once the sides are sewn together, as if
 * it had been drawn with the dart folded shut. `near`: it moves as little as can be, for a line that swallows the dart.
 */
export function mendPath(path: Path, dart: DartShape, leading: Leading): Path {
  let mended = path;
  // Mending a passage moves no other one of the same path, but renumbers its curves: find them anew each time.
  for (let i = 0; ; i += 1) {
    const passage = passagesThrough(mended, dart)[i];
    if (!passage) return mended;
    if (passage.gap > UNBROKEN) mended = mendPassage(mended, passage, dart, leading);
  }
}

/**
 * A path drawn on to a dart's points that it passes within JOIN_GAP, so that it runs through them exactly: beside a point that
 * is nearly met, a sliver of dart would be left.
 */
export function throughPoints(path: Path, dart: DartShape): Path {
  return dartPoints(dart).reduce<Path>((drawn, p) => {
    const near = nearestOnPath(drawn, p);
    if (near.distance === 0 || near.distance > JOIN_GAP) return drawn;
    const [before, after] = [
      subPath(drawn, { index: 0, t: 0 }, near),
      subPath(drawn, near, { index: drawn.length - 1, t: 1 }),
    ];
    return [...endAt(before, p), ...startAt(after, p)];
  }, path);
}

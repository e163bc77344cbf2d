import { type Curve, JOIN_GAP, type Path, type Pt, nearestOnPath, subPath, withEnds } from '../../geometry';
import { type DartShape, dartPoints } from '../../pattern';
import { type DartPassage, onSide, passagesThrough } from './passage';

/** A passage that breaks by less than this needs no mending, mm. */
const UNBROKEN = 1e-6;

const firstPart = (path: Path, { enter }: DartPassage): Path => subPath(path, { index: 0, t: 0 }, enter.at);
const lastPart = (path: Path, { leave }: DartPassage): Path =>
  subPath(path, leave.at, { index: path.length - 1, t: 1 });

const endAt = (path: Path, p: Pt): Path =>
  path.map((c, i): Curve => (i === path.length - 1 ? withEnds(c, c[0], p) : c));
const startAt = (path: Path, p: Pt): Path =>
  path.map((c, i): Curve => (i === 0 ? withEnds(c, p, c[c.length - 1]!) : c));

function mendPassage(path: Path, passage: DartPassage, dart: DartShape): Path {
  const [before, after] = [firstPart(path, passage), lastPart(path, passage)];
  // half way between its two crossings it moves least
  const out = (passage.enter.out + passage.leave.out) / 2;
  const [p, q] = [onSide(dart, passage.enter.side, out), onSide(dart, passage.leave.side, out)];
  return [...endAt(before, p), [p, q], ...startAt(after, q)];
}

/**
 * A path laid as it will lie when the dart is sewn: it crosses both of the dart's sides equally far from the point, straight
 * across the wedge between, and moves as little as can be. Its ends stay. One that meets both sides alike, such as a line drawn with
 * the dart folded shut, is left as it is.
 */
export function mendPath(path: Path, dart: DartShape): Path {
  let mended = path;
  // Mending a passage moves no other one of the same path, but renumbers its curves: find them anew each time.
  for (let i = 0; ; i += 1) {
    const passage = passagesThrough(mended, dart)[i];
    if (!passage) return mended;
    if (passage.gap > UNBROKEN) mended = mendPassage(mended, passage, dart);
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

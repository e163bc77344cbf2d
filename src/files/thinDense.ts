import { distance, isCubic, THIN_DENSE, type Curve, type Path, type Pt } from '../geometry';

/** Paths with no more curves than this are left as they were drawn. */
const FEW = 1000;

/** Smallest difference of two angles, radians, −π..π. */
const turnBetween = (from: number, to: number): number =>
  Math.atan2(Math.sin(to - from), Math.cos(to - from));

/**
 * Corners of a polyline that stand for all of it within THIN_DENSE: from each kept corner as far as one straight stretch
 * passes near enough to every corner between. One pass: the directions that still do shrink with each corner.
 */
function keptCorners(points: readonly Pt[]): Pt[] {
  const kept = [points[0]!];
  let anchor = points[0]!;
  let [base, low, high, far] = [Number.NaN, -Math.PI, Math.PI, 0];
  for (let i = 1; i < points.length; i += 1) {
    const p = points[i]!;
    const reach = distance(anchor, p);
    const angle = Math.atan2(p[1] - anchor[1], p[0] - anchor[0]);
    if (Number.isNaN(base)) base = angle;
    const turn = turnBetween(base, angle);
    if (reach < far || turn < low || turn > high) {
      anchor = points[i - 1]!;
      kept.push(anchor);
      base = Math.atan2(p[1] - anchor[1], p[0] - anchor[0]);
      [low, high, far] = [-Math.PI, Math.PI, 0];
      i -= 1;
      continue;
    }
    const slack = reach > THIN_DENSE ? Math.asin(THIN_DENSE / reach) : Math.PI;
    [low, high, far] = [Math.max(low, turn - slack), Math.min(high, turn + slack), reach];
  }
  kept.push(points.at(-1)!);
  return kept;
}

const stretches = (points: readonly Pt[]): Curve[] => points.slice(1).map((p, i): Curve => [points[i]!, p]);

/**
 * A path of very many short straight stretches (an automatic tracing) with fewer of them, nowhere moved by more than
 * THIN_DENSE. Curves, and paths of ordinary length, stay exactly as they are.
 */
export function thinDense(path: Path): Path {
  if (path.length <= FEW) return path;
  const thinned: Curve[] = [];
  let run: Pt[] = [];
  const endRun = (): void => {
    if (run.length > 1) thinned.push(...stretches(keptCorners(run)));
    run = [];
  };
  for (const c of path) {
    if (isCubic(c)) {
      endRun();
      thinned.push(c);
    } else {
      if (run.length === 0) run.push(c[0]);
      run.push(c[1]);
    }
  }
  endRun();
  return thinned;
}

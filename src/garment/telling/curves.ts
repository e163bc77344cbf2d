import { type Path, curvatureAt, curveLength, distance, pointAt } from '../../geometry';

/**
 * What an allowance along a curve needs. clip: the edge is hollow, the allowance too short; snip into it. notch: the edge is rounded,
 * the allowance too full; cut small wedges out. Source: sewingsupport.com; itch-to-stitch.com; booandlu.com (n.d.).
 */
export interface CurveCuts {
  readonly kind: 'clip' | 'notch';
  /** Tightest radius on it, mm. */
  readonly radius: number;
  /** Where on the path it begins, and how long it is, mm. */
  readonly from: number;
  readonly length: number;
  /** From one cut to the next, mm. */
  readonly spacing: number;
  readonly count: number;
}

/** Cuts stop this far from the stitching, mm (1/8 in). Source: the same. */
export const STOPS_SHORT = 3;
/** An allowance that is longer or shorter than its seam by less than this share lies flat unaided. Our choice. */
const LIES_FLAT = 0.04;
/** By how much each cut may have to open or close at the cut edge, mm: closer cuts on tighter curves. Our choice. */
const OPENS = 3;
const [CLOSEST, WIDEST] = [6, 25];
/** A curve shorter than this needs no cut, mm. */
const SHORTEST = 10;
const STEP = 3;

interface Sample {
  readonly kind: CurveCuts['kind'] | null;
  readonly radius: number;
  readonly length: number;
}

/** How a stretch of boundary bends, every few mm. Run in ring order (signedArea > 0), positive curvature is a rounded edge. */
function samples(path: Path, allowance: number): Sample[] {
  return path.flatMap((c): Sample[] => {
    if (c.length === 2) return [{ kind: null, radius: Infinity, length: distance(c[0], c[1]) }];
    const n = Math.max(2, Math.ceil(curveLength(c) / STEP));
    return Array.from({ length: n }, (_, i): Sample => {
      const k = curvatureAt(c, (i + 0.5) / n);
      const isBent = Math.abs(k) * allowance >= LIES_FLAT;
      return {
        kind: isBent ? (k > 0 ? 'notch' : 'clip') : null,
        radius: 1 / Math.abs(k),
        length: distance(pointAt(c, i / n), pointAt(c, (i + 1) / n)),
      };
    });
  });
}

function cutsOf(
  bent: readonly Sample[],
  kind: CurveCuts['kind'],
  from: number,
  allowance: number,
): CurveCuts[] {
  const length = bent.reduce((sum, s) => sum + s.length, 0);
  if (length < SHORTEST) return [];
  const radius = Math.min(...bent.map((s) => s.radius));
  const spacing = Math.min(WIDEST, Math.max(CLOSEST, Math.round((OPENS * radius) / allowance)));
  return [{ kind, radius, from, length, spacing, count: Math.max(1, Math.round(length / spacing)) }];
}

/**
 * Where an allowance has to be clipped or notched along a stretch of a panel's boundary, in order.
 * @param path in ring order, mm; corners between its curves are not looked at
 * @param allowance mm; none needs no cuts
 */
export function curveCuts(path: Path, allowance: number): readonly CurveCuts[] {
  if (allowance <= STOPS_SHORT) return [];
  const out: CurveCuts[] = [];
  let run: Sample[] = [];
  let from = 0;
  const finish = (): void => {
    const kind = run[0]?.kind;
    if (kind) out.push(...cutsOf(run, kind, from, allowance));
    from += run.reduce((sum, s) => sum + s.length, 0);
    run = [];
  };
  for (const s of samples(path, allowance)) {
    if (run[0] && run[0].kind !== s.kind) finish();
    run.push(s);
  }
  finish();
  return out;
}

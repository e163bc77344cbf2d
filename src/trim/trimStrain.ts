import { type Path, type Pt, curvatureAt, curveLength, isCubic, pointAt } from '../geometry';
import type { TrimKind } from '../pattern';

/** How much the edges of a trim may have to give on a curve and still lie flat (common practice, no source). */
export const MOST_STRAIN: Readonly<Record<TrimKind, number>> = { straight: 0.02, bias: 0.1, scalloped: 0.1 };

/** Strain of a strip's edges along its run: in the piece's coordinates, short chords of the middle line with the strain there. */
export interface StrainedStretch {
  readonly from: Pt;
  readonly to: Pt;
  /** width / (2 · radius) at the middle of the stretch, no unit. */
  readonly strain: number;
}

/**
 * The strain along a path for a strip centred on it, w/(2R).
 * @param step length of one stretch, mm; curves only, straight stretches have none
 */
export const strainAlong = (path: Path, width: number, step: number): readonly StrainedStretch[] =>
  path.flatMap((c): StrainedStretch[] => {
    if (!isCubic(c)) return [];
    const count = Math.max(1, Math.ceil(curveLength(c) / step));
    return Array.from({ length: count }, (_, k) => ({
      from: pointAt(c, k / count),
      to: pointAt(c, (k + 1) / count),
      strain: (width / 2) * Math.abs(curvatureAt(c, (k + 0.5) / count)),
    }));
  });

/** The widest trim of a kind that lies flat on a radius, mm. */
export const widestOn = (radius: number, kind: TrimKind): number => 2 * radius * MOST_STRAIN[kind];

import { type Line, type Polyline, type Pt, type Ring, add, scale, subtract, unit } from '../geometry';
import type { PanelId, SeamId } from '../panels';

/** A match mark on a cut piece. */
export interface CutNotch {
  /** On the stitching line. */
  readonly at: Pt;
  /** Unit vector from the stitching line outwards, square to the cutting line. */
  readonly outward: Pt;
  /** How far out the cutting line is, mm. */
  readonly allowance: number;
  /** On the cutting line, where its middle is drawn from; on the stitching line where no cutting line runs beside it. */
  readonly base: Pt;
  /** How deep it is snipped from the cutting line, mm, at least 1/8 in short of the stitching line; 0: marked in chalk, never cut. */
  readonly depth: number;
  /** 2 is drawn as a double notch, 3 as a triple one. */
  readonly marks: 1 | 2 | 3;
  /** How many marks it reads as: `marks`, and for a traced notch those traced beside it too. */
  readonly together: number;
  /** From the seam's start along this side as sewn, darts shut, mm; null for a traced notch. */
  readonly along: number | null;
  /** The new seam it belongs to; null for a traced notch. */
  readonly seam: SeamId | null;
  /** Where a dart's end is eased in between this notch and the other one of its seam: how much, mm; else null. */
  readonly ease: number | null;
}

/** What is cut from cloth and printed on paper for one panel. Coordinates are those of the tracing. */
export interface CutPiece {
  readonly panel: PanelId;
  /** Stitching line: dart wedges left in (the cloth goes straight across a mouth). */
  readonly stitching: Ring;
  readonly cutting: Ring;
  /** Only on the printed half of a panel that is cut on the fold: the stretch of `cutting` that lies there. */
  readonly foldEdge?: Line;
  /** Cutting lines inside insets, negative signedArea. */
  readonly holes: readonly Ring[];
  /** Inside the cutting line, holes taken out, mm². */
  readonly cutArea: number;
  /** `cutting` as corner points, within CHORD_SAGITTA and fine enough to keep its area: what is laid on cloth and reported. */
  readonly cuttingPoints: Polyline;
  readonly notches: readonly CutNotch[];
  /** Inner corners where the allowance must be clipped to the stitching line. */
  readonly clips: readonly Pt[];
  /** Through the panel's middle, ends inside it, in warp direction. */
  readonly grain: Line;
  /** Degrees from +x towards +y, −180 < angle ≤ 180. */
  readonly grainAngle: number;
  /** Where the labels go and the radius of the largest circle there, mm. */
  readonly label: { readonly at: Pt; readonly radius: number };
  /** Per stretch: mid point, allowance, and the panel it is sewn to (null on outer edges): the printed `to 7`. */
  readonly edgeLabels: readonly {
    /** Index of the stretch in the panel's boundary, then its holes. */
    readonly edge: number;
    readonly at: Pt;
    readonly inward: Pt;
    readonly length: number;
    readonly allowance: number;
    readonly mate: PanelId | null;
    /** Eased in along it between its notches, and what its mate eases in against it, mm; 0 where nothing is. */
    readonly ease: number;
    readonly mateEase: number;
    readonly edgeName: string | null;
  }[];
}

/** A grain arrow through a spot, ends well inside the circle that fits there. */
export function grainThrough(at: Pt, radius: number, grain: Line): Line {
  const along = scale(unit(subtract(grain[1], grain[0])), radius * 0.9);
  return [subtract(at, along), add(at, along)];
}

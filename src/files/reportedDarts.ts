import { distance, type Pt } from '../geometry';
import type { PanelledPiece } from '../panels';
import type { PlacedDart } from '../pattern';

/** A dart as it stands in the report: mm, degrees. */
export interface ReportedDart {
  readonly piece: string;
  readonly point: [number, number];
  readonly angle: number;
  /** Width of the mouth; of a double-pointed one the greatest width. */
  readonly intake: number;
  /** keep: sewn as a dart. close: in the seam of panel lines. swing: turned here from where it was traced. */
  readonly treatment: 'keep' | 'close' | 'swing';
  /** Angle that is still sewn as a dart. */
  readonly residual: number;
  /** Eased in where a line passes beside the point; only where something is. */
  readonly eased?: number;
}

const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** Angle at p between the directions to a and b, degrees. */
function angleAt(p: Pt, a: Pt, b: Pt): number {
  const [ux, uy, vx, vy] = [a[0] - p[0], a[1] - p[1], b[0] - p[0], b[1] - p[1]];
  return (Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) * 180) / Math.PI;
}

function dartEntry(dart: PlacedDart, { whole, panels }: PanelledPiece): ReportedDart {
  const [point, a, b] =
    dart.kind === 'single' ? [dart.point, ...dart.mouth] : [dart.points[0], dart.points[1], dart.points[3]];
  const isSame = (d: PlacedDart): boolean => d.traced === dart.traced && d.mirrored === dart.mirrored;
  const closings = panels.flatMap((p) => p.closings.filter((c) => isSame(c.dart)));
  const isClosed = dart.close !== null && closings.some((c) => c.how !== 'eased');
  const isSewn = panels.some((p) => p.darts.some(isSame));
  const isSwung = whole.piece.darts[dart.traced]?.treatment.kind === 'swing';
  const angle = rounded(angleAt(point, a, b));
  const eased = closings.reduce((most, c) => Math.max(most, c.width), 0);
  return {
    piece: whole.name,
    point: [rounded(point[0]), rounded(point[1])],
    angle,
    intake: rounded(distance(a, b)),
    treatment: isClosed ? 'close' : isSwung ? 'swing' : 'keep',
    residual: isSewn || !isClosed ? angle : 0,
    ...(eased > 0 ? { eased: rounded(eased) } : {}),
  };
}

/** Every dart of a piece, mirror images too, where it is now. */
export const reportedDarts = (piece: PanelledPiece): readonly ReportedDart[] =>
  piece.whole.darts.map((dart) => dartEntry(dart, piece));

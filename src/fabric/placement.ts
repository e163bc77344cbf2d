import type { Polyline, Pt } from '../geometry';
import type { ClothPiece, Placement } from './layPlan';

/** Cosine and sine of an angle in degrees, exact at quarter turns, so that such pieces keep their coordinates. */
export function turnOf(degrees: number): { readonly cos: number; readonly sin: number } {
  const quarter = degrees / 90;
  if (Number.isInteger(quarter)) {
    const q = ((quarter % 4) + 4) % 4;
    return { cos: [1, 0, -1, 0][q]!, sin: [0, 1, 0, -1][q]! };
  }
  const a = (degrees * Math.PI) / 180;
  return { cos: Math.cos(a), sin: Math.sin(a) };
}

/** The same angle in −180 < angle ≤ 180, degrees. */
export function normalAngle(degrees: number): number {
  const a = degrees % 360;
  if (a > 180) return a - 360;
  return a <= -180 ? a + 360 : a + 0;
}

/**
 * Rotations (degrees, −180 < r ≤ 180) that a piece may have on the cloth: its grain lies along the cloth's length, either
 * way up; one way only on cloth with nap. A mirrored piece's grain angle θ has become 180° − θ before it is turned.
 * A piece with its own `turns` may lie at those angles off its grain instead.
 */
export function allowedRotations(piece: ClothPiece, nap: boolean): readonly number[] {
  const grain = piece.flipped ? 180 - piece.grainAngle : piece.grainAngle;
  const turns = piece.turns ?? (nap ? [0] : [0, 180]);
  return turns.map((turn) => normalAngle(turn - grain));
}

/** Points mirrored in x when `flipped`, then turned by `rotation` degrees about the origin. */
export function turnedPoints(points: Polyline, flipped: boolean, rotation: number): Pt[] {
  const { cos, sin } = turnOf(rotation);
  return points.map(([px, y]): Pt => {
    const x = flipped ? -px : px;
    return [cos * x - sin * y, sin * x + cos * y];
  });
}

/** Where points of a piece, in its own frame, lie on the cloth: mirrored, turned, moved. */
export const placedPoints = (points: Polyline, at: Placement): Pt[] =>
  turnedPoints(points, at.flipped, at.rotation).map(([x, y]): Pt => [x + at.x, y + at.y]);

/** Where a placed piece's cutting line lies on the cloth. Corner order is that of the piece. */
export const placedOutline = (piece: ClothPiece, at: Placement): Pt[] => placedPoints(piece.cutting, at);

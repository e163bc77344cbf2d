import type { Polyline, Pt } from '../../geometry';
import { boxOfPoints, signedAreaOfPoints } from '../../geometry';
import { convexParts } from '../noFit/convexParts';
import type { ConvexPart } from '../noFit/convexParts';
import type { PartedShape } from '../noFit/noFit';
import { cleanOutline, grownOutline, simplifyOutwards } from '../noFit/outerOutline';
import type { Slack } from '../noFit/outerOutline';
import { turnOf, turnedPoints } from '../placement';

/**
 * A cut piece turned one way, moved so that its true cutting line's box starts at 0, 0. Outlines and parts cover the cutting
 * line grown by half the gap and simplified outwards: where those of two shapes do not overlap, the cut pieces keep the gap.
 */
export interface LayShape extends PartedShape {
  /** Of the true cutting line, mm. */
  readonly length: number;
  readonly width: number;
  /** Of the true cutting line, mm². */
  readonly area: number;
  /** Degrees as in Placement. */
  readonly rotation: number;
  /** What was added to the turned points; Placement.x = place + shiftX. */
  readonly shiftX: number;
  readonly shiftY: number;
}

/**
 * How much too large the search takes outlines: hollows cost it more than they gain. Finer ones made lays of garment pieces
 * no shorter within some seconds. Outlines with few corners are left as they are.
 */
const SLACK: Slack = { hollow: 1.5, outer: 0.5 };
const ENOUGH_CORNERS = 20;

const flat = (points: Polyline): Float64Array => Float64Array.from(points.flat());

/** Outline for the search: exact where it has few corners, else simplified outwards; then grown by `by` mm. */
function searchShape(cutting: Polyline, by: number): PartedShape {
  const clean = cleanOutline(cutting);
  const few = clean.length > ENOUGH_CORNERS ? simplifyOutwards(clean, SLACK) : clean;
  const grown = grownOutline(few, by);
  if (grown) return { outlines: [flat(grown)], parts: convexParts(grown) };
  // a slit narrower than the gap: grow the parts one by one instead
  const parts = convexParts(few).flatMap((part) => {
    const points = Array.from({ length: part.length / 2 }, (_, i): Pt => [part[2 * i]!, part[2 * i + 1]!]);
    return convexParts(grownOutline(cleanOutline(points), by) ?? points);
  });
  return { outlines: parts, parts };
}

function turnedPart(part: ConvexPart, rotation: number, shiftX: number, shiftY: number): ConvexPart {
  const { cos, sin } = turnOf(rotation);
  const out = new Float64Array(part.length);
  for (let i = 0; i < part.length; i += 2) {
    out[i] = cos * part[i]! - sin * part[i + 1]! + shiftX;
    out[i + 1] = sin * part[i]! + cos * part[i + 1]! + shiftY;
  }
  return out;
}

/**
 * One shape per rotation.
 * @param cutting as in ClothPiece
 * @param by      half the gap, mm
 */
export function layShapes(
  cutting: Polyline,
  flipped: boolean,
  rotations: readonly number[],
  by: number,
): LayShape[] {
  const upright = turnedPoints(cutting, flipped, 0);
  const { outlines, parts } = searchShape(upright, by);
  const area = Math.abs(signedAreaOfPoints(cutting));
  return rotations.map((rotation) => {
    const box = boxOfPoints(turnedPoints(cutting, flipped, rotation));
    const [shiftX, shiftY] = [-box.minX, -box.minY];
    return {
      outlines: outlines.map((ring) => turnedPart(ring, rotation, shiftX, shiftY)),
      parts: parts.map((part) => turnedPart(part, rotation, shiftX, shiftY)),
      length: box.maxX - box.minX,
      width: box.maxY - box.minY,
      area,
      rotation,
      shiftX,
      shiftY,
    };
  });
}

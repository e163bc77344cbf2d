import type { Polyline, Pt } from '../../geometry';
import { boxOfPoints, signedAreaOfPoints } from '../../geometry';
import { convexParts } from '../noFit/convexParts';
import type { ConvexPart } from '../noFit/convexParts';
import type { PartedShape } from '../noFit/noFit';
import { cleanOutline, grownOutline, simplifyOutwards } from '../noFit/outerOutline';
import type { Slack } from '../noFit/outerOutline';
import { turnOf, turnedPoints } from '../placement';
import type { Domain } from './domain';

/**
 * A cut piece turned one way, moved so that its true cutting line's box starts at 0, 0. Outlines and parts cover the cutting
 * line grown by half the gap and simplified outwards: where those of two forms do not overlap, the cut pieces keep the gap.
 */
export interface LayForm extends PartedShape {
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
  /** Covers the cutting line itself: what must keep off the edge of the cloth, where that is not straight. */
  readonly bare: PartedShape;
}

/** A way in which a mover may lie: its form and the places allowed for it. */
export interface LayShape {
  /** Place in LaySpace.forms. */
  readonly form: number;
  readonly length: number;
  readonly width: number;
  /** Of the cloth that is searched on, mm²: half the piece's where it lies on the fold. */
  readonly area: number;
  readonly domain: Domain;
}

/**
 * How much too large the search takes outlines: hollows cost it more than they gain. Finer ones made lays of garment pieces
 * no shorter within some seconds. Outlines with few corners are left as they are.
 */
const SLACK: Slack = { hollow: 1.5, outer: 0.5 };
const ENOUGH_CORNERS = 20;

const flat = (points: Polyline): Float64Array => Float64Array.from(points.flat());

/** Simple outline with fewer corners around a cutting line; exact where it has few. */
export function fewerCorners(cutting: Polyline): Pt[] {
  const clean = cleanOutline(cutting);
  return clean.length > ENOUGH_CORNERS ? simplifyOutwards(clean, SLACK) : clean;
}

/** An outline grown by `by` mm, in convex parts. */
function grownShape(few: Polyline, by: number): PartedShape {
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
 * One form per rotation.
 * @param cutting as in ClothPiece
 * @param by      half the gap, mm
 */
export function layForms(
  cutting: Polyline,
  flipped: boolean,
  rotations: readonly number[],
  by: number,
): LayForm[] {
  const few = fewerCorners(turnedPoints(cutting, flipped, 0));
  const grown = grownShape(few, by);
  const bare = by === 0 ? grown : grownShape(few, 0);
  const area = Math.abs(signedAreaOfPoints(cutting));
  return rotations.map((rotation) => {
    const box = boxOfPoints(turnedPoints(cutting, flipped, rotation));
    const [shiftX, shiftY] = [-box.minX, -box.minY];
    const turned = ({ outlines, parts }: PartedShape): PartedShape => ({
      outlines: outlines.map((ring) => turnedPart(ring, rotation, shiftX, shiftY)),
      parts: parts.map((part) => turnedPart(part, rotation, shiftX, shiftY)),
    });
    return {
      ...turned(grown),
      bare: turned(bare),
      length: box.maxX - box.minX,
      width: box.maxY - box.minY,
      area,
      rotation,
      shiftX,
      shiftY,
    };
  });
}

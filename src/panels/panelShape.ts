import {
  type Polyline,
  type Pt,
  type Ring,
  boxOfPoints,
  boxesMeet,
  flattenPath,
  flattenRing,
  isInRing,
  labelSpot,
  mix,
  pathBox,
  reversePath,
  signedArea,
  signedAreaOfPoints,
} from '../geometry';
import { type PlacedDart, type WholePiece, dartLegs, dartRing, remember, withoutWedges } from '../pattern';

/** What follows from a panel's ring alone: costly enough to keep while a line elsewhere moves. */
export interface PanelShape {
  readonly netRing: Ring;
  /** Wedges of darts lying wholly inside, negative signedArea. */
  readonly wedgeHoles: readonly Ring[];
  /** What is folded away of the panel, mm²: not what of a wedge lies in its holes. */
  readonly wedgeArea: number;
  readonly darts: readonly PlacedDart[];
  readonly outlinePoints: Polyline;
  readonly spot: { readonly at: Pt; readonly radius: number };
}

/** How far beyond a dart's mouth, as a share of its length, the outline may bulge there: a cap, or a corner of the piece. */
const BULGE = 1.3;

/** The corners of a dart's wedge, drawn on beyond the mouth to hold what lies between it and the outline. */
function wedgeAndCap(dart: PlacedDart): Polyline {
  if (dart.kind === 'double') return flattenRing(dartRing(dart));
  const beyond = dart.mouth.map((m) => mix(dart.point, m, BULGE));
  return [beyond[0]!, ...flattenPath(dartLegs(dart)).points, beyond[1]!];
}

const areaOf = (ring: Ring, holes: readonly Ring[]): number =>
  signedArea(ring) + holes.reduce((sum, h) => sum + signedArea(h), 0);

/** Whether a ring that no leg of a dart runs through lies between its legs: all of it is folded away when the dart is sewn. */
function liesInWedge(ring: Ring, at: Pt, dart: PlacedDart): boolean {
  const wedge = wedgeAndCap(dart);
  if (!boxesMeet(pathBox(ring), boxOfPoints(wedge)) || !isInRing(at, wedge)) return false;
  return Math.abs(signedArea(ring)) <= Math.abs(signedAreaOfPoints(wedge));
}

/** What of the wedges lies in holes, and so is not cloth of the panel, mm². */
const wedgesIn = (holeRings: readonly Ring[], darts: readonly PlacedDart[]): number =>
  holeRings.reduce((sum, hole) => sum + withoutWedges(reversePath(hole), darts).wedgeArea, 0);

export const panelShape = remember(
  (ring: Ring, holeRings: readonly Ring[], darts: readonly PlacedDart[]): PanelShape => {
    const net = withoutWedges(ring, darts);
    const outlinePoints = flattenRing(ring);
    const spot = labelSpot(
      outlinePoints,
      holeRings.map((h) => flattenRing(h)),
    );
    const touched = net.touched.map((d) => darts[d]!);
    const isFoldedAway = darts.some((d) => !touched.includes(d) && liesInWedge(ring, spot.at, d));
    return {
      netRing: net.ring,
      wedgeHoles: net.wedgeHoles,
      wedgeArea: isFoldedAway ? areaOf(ring, holeRings) : net.wedgeArea - wedgesIn(holeRings, darts),
      darts: touched,
      outlinePoints,
      spot,
    };
  },
);

/** How many rings of one piece are known at a time: a few dozen panels in the states a drag passes through. */
const MOST_RINGS = 400;

const ringsOf = new WeakMap<WholePiece, Map<string, Ring>>();

/**
 * The ring already known for the same curves on this piece, or this one from now on. Rings that are equal become identical,
 * so that whatever is remembered by ring (shapes, cutting lines) is found again after another line moved.
 */
export function sameRing(whole: WholePiece, ring: Ring): Ring {
  const known = ringsOf.get(whole) ?? new Map<string, Ring>();
  ringsOf.set(whole, known);
  const key = JSON.stringify(ring);
  const found = known.get(key);
  if (found) return found;
  if (known.size >= MOST_RINGS) known.clear();
  known.set(key, ring);
  return ring;
}

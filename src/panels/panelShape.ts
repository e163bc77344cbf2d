import { type Polyline, type Pt, type Ring, flattenRing, labelSpot } from '../geometry';
import { type PlacedDart, type WholePiece, remember, withoutWedges } from '../pattern';

/** What follows from a panel's ring alone: costly enough to keep while a line elsewhere moves. */
export interface PanelShape {
  readonly netRing: Ring;
  readonly wedgeArea: number;
  readonly darts: readonly PlacedDart[];
  readonly outlinePoints: Polyline;
  readonly spot: { readonly at: Pt; readonly radius: number };
}

export const panelShape = remember(
  (ring: Ring, holeRings: readonly Ring[], darts: readonly PlacedDart[]): PanelShape => {
    const net = withoutWedges(ring, darts);
    const outlinePoints = flattenRing(ring);
    return {
      netRing: net.ring,
      wedgeArea: net.wedgeArea,
      darts: net.touched.map((d) => darts[d]!),
      outlinePoints,
      spot: labelSpot(
        outlinePoints,
        holeRings.map((h) => flattenRing(h)),
      ),
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

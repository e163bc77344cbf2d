import { type WholePiece, placeAtSewn, remember, sewnEdge, heightOf } from '../pattern';
import { notchGroups } from './seamNotches';

/** A notch this share of the cap's length from its highest point may be the shoulder's. Common practice, no source. */
const NEAR_TOP = 0.12;
const TOP_STEPS = 200;

/** Where a cap is divided between front and back armhole. */
export interface CapSplit {
  /** Sewn length from the cap's first end to the shoulder point, mm. */
  readonly at: number;
  /** Whether the front armhole takes the stretch before it, in ring order. */
  readonly frontFirst: boolean;
}

/** Sewn length at the highest point of an edge, mm. */
const topOf = remember((whole: WholePiece, edge: number): number => {
  const sewn = sewnEdge(whole, edge);
  const lengths = Array.from({ length: TOP_STEPS + 1 }, (_, i) => (sewn.length * i) / TOP_STEPS);
  const heights = lengths.map((s) => heightOf(whole, placeAtSewn(sewn, s).point));
  return lengths[heights.indexOf(Math.min(...heights))]!;
});

const off = (split: CapSplit, length: number, share: number): number =>
  Math.abs((split.frontFirst ? split.at : length - split.at) / length - share);

/**
 * Divide a sleeve cap between front and back armhole: at its shoulder notch, else in proportion to the armholes. The double notch
 * is the back's (common practice, no source); without one, the halves go where the lengths agree best.
 * @param front, back sewn lengths of the armholes, mm
 */
export function splitCap(whole: WholePiece, edge: number, front: number, back: number): CapSplit {
  const { length } = sewnEdge(whole, edge);
  const top = topOf(whole, edge);
  const groups = notchGroups(whole, edge);
  const shoulder = groups
    .filter((g) => g.marks === 1 && Math.abs(g.at - top) < NEAR_TOP * length)
    .sort((a, b) => Math.abs(a.at - top) - Math.abs(b.at - top))[0];
  const share = front / (front + back);
  const splitIf = (frontFirst: boolean): CapSplit => ({
    at: shoulder?.at ?? (frontFirst ? share : 1 - share) * length,
    frontFirst,
  });
  const double = groups.find((g) => g.marks >= 2);
  if (double) return splitIf(double.at > (shoulder?.at ?? top));
  const [one, other] = [splitIf(true), splitIf(false)];
  const fault = (s: CapSplit): number => (shoulder ? off(s, length, share) : Math.abs(s.at - top));
  return fault(one) <= fault(other) ? one : other;
}

import {
  type Box,
  JOIN_GAP,
  type Pt,
  applyMatrix,
  directionAt,
  distance,
  nearestOnPath,
  pathBox,
} from '../../geometry';
import type { Panel, PanelEdge } from '../../panels';
import type { Allowances, WholePiece } from '../../pattern';
import type { CutNotch } from '../cutPiece';
import { allowanceOf } from '../widths';
import { notchAt, outwardOf } from './markLines';

/** Traced marks nearer to each other than this are one double or triple notch, mm: 6 to 13 mm apart. Common practice, no source. */
const ONE_NOTCH = 20;

const isWithin = (b: Box, [x, y]: Pt, reach: number): boolean =>
  x >= b.minX - reach && x <= b.maxX + reach && y >= b.minY - reach && y <= b.maxY + reach;

interface Offer {
  readonly notch: CutNotch;
  readonly edge: PanelEdge;
  readonly gap: number;
}

/** A traced notch belongs to the panel whose outer edge passes nearest to it; null where this edge is not near. */
function offerOf(edge: PanelEdge, at: Pt, reach: number, allowance: number): Offer | null {
  if (!isWithin(pathBox(edge.path), at, reach)) return null;
  const near = nearestOnPath(edge.path, at);
  if (near.distance > reach) return null;
  const outward = outwardOf(directionAt(edge.path[near.index]!, near.t));
  const notch = notchAt({
    at: near.point,
    outward,
    allowance,
    marks: 1,
    seam: null,
    along: null,
    ease: null,
  });
  return { notch, edge, gap: near.distance };
}

/** Where a traced notch lies on an edge: where it was traced, and where parts that were turned to close a dart took it. */
function placesOn({ turns }: PanelEdge, at: Pt): Pt[] {
  if (!turns) return [at];
  return [...new Set(turns)].map((m) => applyMatrix(m, at));
}

/** Traced notches of a panel's outer edges, as they were traced; those of a double or triple notch know how many they are. */
export function tracedNotches(panel: Panel, whole: WholePiece, allowances: Allowances): readonly CutNotch[] {
  const isCut = allowances.tracing.kind === 'cut';
  const outer = panel.boundary.filter((e) => e.origin.kind === 'outline');
  const found = whole.notches.flatMap((notch) => {
    const offers = outer.flatMap((edge) =>
      placesOn(edge, notch.at).flatMap((at) => {
        const width = allowanceOf(edge, whole, allowances);
        // on a cut tracing a notch was traced at the cutting line
        return offerOf(edge, at, (isCut ? width : 0) + JOIN_GAP, width) ?? [];
      }),
    );
    return offers.toSorted((a, b) => a.gap - b.gap).slice(0, 1);
  });
  return found.map(({ notch, edge }) => ({
    ...notch,
    together: found.filter((f) => f.edge === edge && distance(f.notch.at, notch.at) < ONE_NOTCH).length,
  }));
}

import { type Pt, SAME_POINT, distance, endOf, startOf } from '../geometry';
import { type Panel, type PanelEdge, type PanelId, type PanelledPiece, type SeamId } from '../panels';
import { remember } from '../pattern';
import type { Reach } from './task';

/** A stretch of an outer edge that belongs to one panel, and the panel seams at its ends in ring order; null at the edge's own ends. */
export interface EdgeStretch {
  readonly panel: PanelId;
  readonly before: SeamId | null;
  readonly after: SeamId | null;
}

const seamOf = (edge: PanelEdge): SeamId | null => (edge.origin.kind === 'seam' ? edge.origin.seam : null);

/** Stretches of one panel on an outer edge, each as long as nothing else comes between. */
function stretchesOf(panel: Panel, edge: number): EdgeStretch[] {
  const isHere = (e: PanelEdge): boolean => e.origin.kind === 'outline' && e.origin.edge === edge;
  return [panel.boundary, ...panel.holes].flatMap((ring) =>
    ring.flatMap((e, i): EdgeStretch[] => {
      const before = ring.at(i - 1)!;
      if (!isHere(e) || (isHere(before) && ring.length > 1)) return [];
      let next = i + 1;
      while (next < i + ring.length && isHere(ring[next % ring.length]!)) next += 1;
      return [{ panel: panel.id, before: seamOf(before), after: seamOf(ring[next % ring.length]!) }];
    }),
  );
}

/** One that begins where none of the others ends. */
const firstOf = (rest: readonly EdgeStretch[]): number =>
  rest.findIndex((s) => s.before === null || !rest.some((o) => o !== s && o.after === s.before));

/** Stretches end to end: each begins at the seam at which the one before it ends. */
function inRingOrder(stretches: readonly EdgeStretch[]): EdgeStretch[] {
  const rest = [...stretches];
  const ordered: EdgeStretch[] = [];
  while (rest.length > 0) {
    const last = ordered.at(-1);
    const next = last?.after ? rest.findIndex((s) => s.before === last.after) : -1;
    const at = next >= 0 ? next : Math.max(0, firstOf(rest));
    ordered.push(...rest.splice(at, 1));
  }
  return ordered;
}

/** The panels along every outer edge of a piece, by index of WholePiece.edges, in ring order. */
export const edgesAlong = remember((piece: PanelledPiece): readonly (readonly EdgeStretch[])[] =>
  piece.whole.edges.map((_, edge) => inRingOrder(piece.panels.flatMap((p) => stretchesOf(p, edge)))),
);

/** Where each panel seam of a piece ends on an outer edge; a seam that ends at a corner reaches both edges. */
const reachesOf = remember((piece: PanelledPiece): ReadonlyMap<SeamId, readonly Reach[]> => {
  const found = new Map<SeamId, Reach[]>();
  for (const panel of piece.panels)
    for (const ring of [panel.boundary, ...panel.holes])
      ring.forEach((e, i) => {
        const next = ring[(i + 1) % ring.length]!;
        if (e.origin.kind === next.origin.kind) return;
        const [seam, outline] = e.origin.kind === 'seam' ? [e.origin, next.origin] : [next.origin, e.origin];
        if (seam.kind !== 'seam' || outline.kind !== 'outline') return;
        // the seam's own end, as it lies on the flat piece, whatever was turned in the panel
        const atEnd = (e.origin.kind === 'seam') === seam.forward;
        const { path } = piece.seams.find((s) => s.id === seam.seam)!;
        const at: Pt = atEnd ? endOf(path) : startOf(path);
        const own = found.get(seam.seam) ?? [];
        const isKnown = own.some((r) => r.edge === outline.edge && r.at && distance(r.at, at) <= SAME_POINT);
        if (!isKnown) found.set(seam.seam, [...own, { edge: outline.edge, at }]);
      });
  return found;
});

/** Where panel seams end on outer edges of their piece. */
export const edgesAtEnds = (piece: PanelledPiece, seams: readonly SeamId[]): readonly Reach[] =>
  seams.flatMap((s) => reachesOf(piece).get(s) ?? []);

import { lengthAt, nearestOnPath, pathLength, pointAtLength } from '../../geometry';
import type { EdgeRef } from '../../neighbours';
import type { Panel, PanelEdge } from '../../panels';
import { edgePath, remember } from '../../pattern';
import type { Garment } from '../garment';

/** A panel's stretch of an outer edge. */
export interface OuterStretch {
  readonly panel: Panel;
  readonly edge: PanelEdge;
}

interface Placed extends OuterStretch {
  readonly along: number;
}

const byEdge = remember((garment: Garment): ReadonlyMap<string, readonly OuterStretch[]> => {
  const out = new Map<string, Placed[]>();
  for (const panel of garment.panels) {
    const { whole } = garment.pieceById.get(panel.piece)!;
    for (const edge of panel.boundary) {
      if (edge.origin.kind !== 'outline' || edge.path.length === 0) continue;
      const key = `${panel.piece}/${edge.origin.edge}`;
      const path = edgePath(whole, edge.origin.edge);
      const middle = pointAtLength(edge.path, pathLength(edge.path) / 2).point;
      const along = path.length > 0 ? lengthAt(path, nearestOnPath(path, middle)) : 0;
      out.set(key, [...(out.get(key) ?? []), { panel, edge, along }]);
    }
  }
  for (const list of out.values()) list.sort((a, b) => a.along - b.along);
  return out;
});

/** The panels that make up an outer edge, in ring order of the piece. Remembered. */
export const outerEdgesOf = (garment: Garment, { piece, edge }: EdgeRef): readonly OuterStretch[] =>
  byEdge(garment).get(`${piece}/${edge}`) ?? [];

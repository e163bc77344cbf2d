import {
  LIES_ON,
  type Pt,
  distance,
  distanceToSegment,
  lengthAt,
  nearestOnPath,
  pathLength,
} from '../geometry';
import type { PanelLine, Tie } from '../pattern';
import { centreOf } from './axis';
import { edgeAt, onItsSide } from './edgeOnPiece';
import { type TieGround, dartPoint } from './tiePoint';

/** What an end of a line lies on. */
export type Landing =
  | { readonly kind: 'dart'; readonly tie: Tie & { kind: 'dart' }; readonly at: Pt }
  | { readonly kind: 'edge'; readonly edge: number; readonly at: Pt }
  | { readonly kind: 'line'; readonly tie: Tie & { kind: 'line' }; readonly at: Pt }
  | { readonly kind: 'centre'; readonly at: Pt }
  | { readonly kind: 'inside'; readonly at: Pt };

function onDart({ whole }: TieGround, p: Pt): Landing | null {
  for (const dart of whole.darts) {
    for (const point of dart.kind === 'single' ? ([0] as const) : ([0, 1] as const)) {
      const at = dartPoint(dart, point);
      if (distance(at, p) <= LIES_ON)
        return { kind: 'dart', at, tie: { kind: 'dart', dart: dart.traced, point, mirrored: dart.mirrored } };
    }
  }
  return null;
}

function onLine(ground: TieGround, others: readonly PanelLine[], p: Pt): Landing | null {
  for (const other of others) {
    const drawn = ground.pathOf(other.id);
    if (!drawn || drawn.length === 0) continue;
    for (const mirrored of ground.whole.foldLine && !other.once ? [false, true] : [false]) {
      const path = onItsSide(ground.whole, drawn, mirrored);
      const near = nearestOnPath(path, p);
      if (near.distance > LIES_ON) continue;
      const share = lengthAt(path, near) / pathLength(path);
      const tie = { kind: 'line', line: other.id, mirrored, place: { kind: 'share', share } } as const;
      return { kind: 'line', at: near.point, tie };
    }
  }
  return null;
}

/** What a point lies on: a dart's point, an edge, another line, the centre, or nothing. */
export function landingOf(ground: TieGround, others: readonly PanelLine[], p: Pt): Landing {
  const { whole } = ground;
  const dart = onDart(ground, p);
  if (dart) return dart;
  const edge = edgeAt(whole, p, LIES_ON);
  if (edge) return { kind: 'edge', edge: edge.edge, at: edge.at.point };
  const line = onLine(ground, others, p);
  if (line) return line;
  const centre = centreOf(whole);
  const onCentre = centre && !('edge' in centre) && distanceToSegment(p, ...centre).distance <= LIES_ON;
  return { kind: onCentre ? 'centre' : 'inside', at: p };
}

import { nearestOnPath } from '../../geometry';
import type { PlacedDart, WholePiece } from '../wholePiece';

/** What a dart is called at the machine: by the edge its mouth lies on, or by its shape. */
export function nameDart(dart: PlacedDart, { stitching, edgeOf, edges }: WholePiece): string {
  if (dart.kind === 'double') return 'double-pointed dart';
  const edge = edges[edgeOf[nearestOnPath(stitching, dart.mouth[0]).index]!];
  return edge && edge.naming !== 'numbered' ? `dart from the ${edge.plainName}` : 'dart';
}

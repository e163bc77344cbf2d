import { LIES_ON, type Pt, applyMatrix, distance, endOf, mirrorAcross, startOf } from '../geometry';
import { type SeamJoin, type Wholes, crossSeam } from '../neighbours';
import type { LineId, PanelLine, Tie, WholePiece } from '../pattern';
import { edgeAt, findEdge } from './edgeOnPiece';
import { type Lost, gone, missed, sayEdge } from './lost';

/** What a neighbour's line is looked up in: the garment's seams, and the lines as they lie now. */
export interface NeighbourGround {
  readonly whole: WholePiece;
  readonly wholes: Wholes;
  joins(): readonly SeamJoin[];
  lineOf(line: LineId): PanelLine | null;
}

/** An end of a line, or of its mirror image, on its own piece. */
function lineEnd(whole: WholePiece, { path }: PanelLine, { end, mirrored }: Tie & { kind: 'neighbour' }): Pt {
  const p = end === 'start' ? startOf(path) : endOf(path);
  return mirrored && whole.foldLine ? applyMatrix(mirrorAcross(whole.foldLine), p) : p;
}

/** Where a line of a neighbour arrives on an edge of this piece once the seam is closed. */
export function neighbourPoint(
  { whole, wholes, joins, lineOf }: NeighbourGround,
  tie: Tie & { kind: 'neighbour' },
  hint: Pt,
): Pt | Lost {
  const line = lineOf(tie.line);
  const other = line && wholes.get(line.piece);
  if (!line || !other || line.path.length === 0) return gone('a line of the neighbour');
  const edge = findEdge(whole, tie);
  if (edge === null) return gone(sayEdge(tie.name));
  const p = lineEnd(other, line, tie);
  const on = edgeAt(other, p, LIES_ON);
  if (!on) return missed(`the seam to ${other.name}`);
  const own = whole.piece.id;
  const arrivals = crossSeam(wholes, joins(), { piece: line.piece, edge: on.edge }, p)
    .filter((a) => a.piece === own && a.edge === edge)
    .sort((a, b) => distance(a.at, hint) - distance(b.at, hint));
  return arrivals[0]?.at ?? missed(`the seam to ${other.name}`);
}

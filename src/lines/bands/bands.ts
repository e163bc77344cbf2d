import { nearestOnPath, pathLength, pointAtLength } from '../../geometry';
import { type EdgeJobs, type EdgeRef, edgeJobs, sameEdge } from '../../neighbours';
import {
  type Base,
  type Design,
  type LineId,
  type PanelLine,
  type PieceId,
  type Tie,
  type WholePiece,
  edgePath,
  openedPiece,
} from '../../pattern';
import { edgeId, findEdge } from '../edgeOnPiece';
import { isLost } from '../lost';
import { measureReach } from '../reach';
import { tieGround } from '../settle';
import { edgeTie } from '../tiesFor';
import { type BandEnd, type BandPath, bandPath } from './bandPath';
import { type EdgeEnd, hemsRound, isHem, touching } from './hemsRound';

type Wholes = ReadonlyMap<PieceId, WholePiece>;

/** A design's whole pieces and what becomes of their edges. */
interface Ground {
  readonly wholes: Wholes;
  readonly jobs: EdgeJobs;
}

function groundOf(design: Design): Ground {
  const wholes = new Map(design.pieces.map((p) => [p.id, openedPiece(p, design).whole]));
  return { wholes, jobs: edgeJobs([...wholes.values()], design.edgeJobs) };
}

/** Two bands are one that goes round when their depths differ by no more than this, mm. */
const SAME_DEPTH = 1;

/** Hem edges that make one line each: one of every run of neighbouring hem edges, on the traced half of a half piece. */
function hemPaths({ wholes, jobs }: Ground, start: EdgeRef, depth: number): BandPath[] | null {
  const paths: BandPath[] = [];
  for (const hem of hemsRound(wholes, jobs, start)) {
    const whole = wholes.get(hem.piece)!;
    if (paths.some((p) => p.piece === hem.piece && p.hems.includes(hem.edge))) continue;
    if (whole.foldLine && whole.edges[hem.edge]!.mirrored && hasImage(whole, hem.edge)) continue;
    const found = bandPath(wholes, jobs, hem.piece, hem.edge, depth);
    if (!found) return null;
    paths.push(found);
  }
  return paths;
}

/** Whether the edge that a mirrored one is the image of is there too. */
const hasImage = (whole: WholePiece, edge: number): boolean =>
  whole.edges.some((e) => !e.mirrored && e.plainName === whole.edges[edge]!.plainName);

/** What holds an end: how far along its closing edge from the hem, or on the centre at its depth from the hem. */
function tieOf(design: Design, { piece, hems }: BandPath, end: BandEnd): Tie | null {
  const ground = tieGround(design, piece)!;
  const { whole } = ground;
  if (end.kind === 'edge') {
    const { edge, end: at } = end.closing;
    return edgeTie(ground, edge, 'edge', [{ kind: 'edge end', ...edgeId(whole, edge), end: at }], end.at);
  }
  for (const hem of hems) {
    const base: Base = { kind: 'edge', ...edgeId(whole, hem) };
    const down = measureReach(whole, { kind: 'down', at: end.at }, [base], end.at);
    const over = measureReach(whole, { kind: 'over', at: end.at }, [{ kind: 'centre' }], end.at);
    if (!isLost(down) && !isLost(over)) return { kind: 'inside', down, over };
  }
  return null;
}

function lineFrom(design: Design, path: BandPath, id: LineId): PanelLine {
  const [first, last] = path.ends.map((end) => tieOf(design, path, end));
  const inner = path.path.slice(1).map(() => null);
  return {
    id,
    piece: path.piece,
    path: path.path,
    once: false,
    overDarts: 'sewn',
    ties: { nodes: [first ?? null, ...inner, last ?? null], run: null },
  };
}

/**
 * The lines of a band that goes round: one on each piece whose hem goes on from this one, at a depth from the hem's stitching line, mm.
 * Their ends meet at the closing seams, darts shut and ease spread; in between they run parallel to the hem. They are tied by their ends
 * to the closing edges, from the hem.
 * @param fresh gives ids for as many lines as asked for
 * @returns null where the edge is no hem or the band does not fit
 */
export function bandLines(
  design: Design,
  hem: EdgeRef,
  depth: number,
  fresh: (count: number) => readonly LineId[],
): readonly PanelLine[] | null {
  const paths = hemPaths(groundOf(design), hem, depth);
  if (!paths || paths.length === 0) return null;
  const ids = fresh(paths.length);
  return paths.map((p, i) => lineFrom(design, p, ids[i]!));
}

/** A panel line that is a band, or the part of one on its piece. */
export interface Band {
  readonly line: LineId;
  /** The hem it runs along. */
  readonly hem: EdgeRef;
  /** From the hem's stitching line, at the band's middle, mm. */
  readonly depth: number;
}

/** The end of a closing edge that a tie is measured from. */
function closingTied({ wholes }: Ground, piece: PieceId, tie: Tie | null | undefined): EdgeEnd | null {
  if (tie?.kind !== 'edge' || tie.along !== 'edge' || tie.reach.kind !== 'from') return null;
  const { base } = tie.reach;
  if (base.kind !== 'edge end' || base.name !== tie.name || base.nth !== tie.nth) return null;
  const edge = findEdge(wholes.get(piece)!, tie);
  return edge === null ? null : { piece, edge, end: base.end };
}

/** The hem that a line is a band of, told by what holds its ends; null for any other line. */
function hemOf(ground: Ground, { piece, ties }: PanelLine): EdgeRef | null {
  const whole = ground.wholes.get(piece);
  if (!ties || ties.run || !whole) return null;
  const ends = [ties.nodes[0], ties.nodes.at(-1)];
  const closings = ends.map((tie) => closingTied(ground, piece, tie));
  const hems = closings.map((c) => c && touching(ground.wholes, c));
  const own = hems.find((h) => h && isHem(ground.jobs, h));
  if (!own) return null;
  const isHeld = ends.every((tie, i) => {
    const hem = hems[i];
    if (hem) return isHem(ground.jobs, hem);
    return tie?.kind === 'inside' && tie.down.kind === 'from' && tie.down.base.kind === 'edge';
  });
  return isHeld ? { piece, edge: own.edge } : null;
}

function asBand(ground: Ground, line: PanelLine): Band | null {
  const hem = line.path.length > 0 ? hemOf(ground, line) : null;
  if (!hem) return null;
  const middle = pointAtLength(line.path, pathLength(line.path) / 2).point;
  const path = edgePath(ground.wholes.get(hem.piece)!, hem.edge);
  return { line: line.id, hem, depth: nearestOnPath(path, middle).distance };
}

/** What a line is a band of; null for any other line. */
export function bandOf(design: Design, line: PanelLine): Band | null {
  return asBand(groundOf(design), line);
}

/** The lines that go round with a band at its depth, itself included, in drawing order; empty for a line that is no band. */
export function bandAround(design: Design, line: PanelLine): readonly Band[] {
  const ground = groundOf(design);
  const own = asBand(ground, line);
  if (!own) return [];
  const round = hemsRound(ground.wholes, ground.jobs, own.hem);
  return design.lines.flatMap((l) => {
    const band = asBand(ground, l);
    const goes = band && round.some((h) => sameEdge(h, band.hem));
    return goes && Math.abs(band.depth - own.depth) <= SAME_DEPTH ? [band] : [];
  });
}

/**
 * All lines of a design with a band laid anew at another depth, mm, on every piece it goes round; what is new on a piece comes last.
 * @returns null where the line is no band or the band does not fit there
 */
export function bandAtDepth(
  design: Design,
  line: PanelLine,
  depth: number,
  fresh: (count: number) => readonly LineId[],
): readonly PanelLine[] | null {
  const around = bandAround(design, line);
  const own = around.find((b) => b.line === line.id);
  if (!own) return null;
  const paths = hemPaths(groundOf(design), own.hem, depth);
  if (!paths) return null;
  const known = paths.map(
    (p) => around.find((b) => b.hem.piece === p.piece && p.hems.includes(b.hem.edge))?.line ?? null,
  );
  const ids = fresh(known.filter((k) => k === null).length);
  let next = 0;
  const laid = paths.map((p, i) => lineFrom(design, p, known[i] ?? ids[next++]!));
  const kept = design.lines.map((l) => {
    const anew = laid.find((n) => n.id === l.id);
    return anew ? { ...l, path: anew.path, ties: anew.ties } : l;
  });
  return [...kept, ...laid.filter((_, i) => known[i] === null)];
}

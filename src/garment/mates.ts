import { type Matrix, type Pt, endOf, nearestOnPath, startOf } from '../geometry';
import { type SeamJoin, type SeamWalk, acrossToA, acrossToB, notchesOn, sameEdge } from '../neighbours';
import type { Neighbours } from '../neighbours';
import type { Panel, PanelEdge, PanelId, PanelledPiece } from '../panels';
import { type EdgeJob, type WholePiece, remember, sewnEdge, sewnLengthAt } from '../pattern';
import type { Garment } from './garment';

/** What a stretch of a panel's boundary is sewn to, or what else becomes of it. */
export interface EdgeMate {
  /** seam: a new seam within the piece; else the job of the outer edge. */
  readonly kind: 'seam' | EdgeJob['kind'];
  /** The panels that lie on it when it is sewn, in order along it; empty on edges that join nothing. */
  readonly mates: readonly PanelId[];
  /** The same for the mirrored copy of a panel that is cut twice. */
  readonly mirrored: readonly PanelId[];
  /** Traced name of an outer edge; null on new seams. */
  readonly edgeName: string | null;
}

/** A panel's stretch of an outer edge between two sewn lengths from the edge's first end, mm. */
interface Stretch {
  readonly panel: PanelId;
  readonly edge: number;
  readonly from: number;
  readonly to: number;
}

/** Panels that lie on each other over less than this are no mates, mm: line ends that just miss. */
const TOO_SHORT = 4;

/** A point before it was turned and moved. */
function movedBack([a, b, c, d, e, f]: Matrix, [x, y]: Pt): Pt {
  const k = a * d - b * c;
  return [(d * (x - e) - c * (y - f)) / k, (a * (y - f) - b * (x - e)) / k];
}

/** Where a panel's outer edge lies along the piece's, before a dart was closed in it. */
function stretchOf(panel: PanelId, { path, origin, turns }: PanelEdge, whole: WholePiece): Stretch[] {
  if (origin.kind !== 'outline') return [];
  const own = sewnEdge(whole, origin.edge);
  const flat = (p: Pt, i: number): Pt => (turns ? movedBack(turns[i]!, p) : p);
  const along = (p: Pt): number => sewnLengthAt(own, nearestOnPath(own.path, p));
  const [from, to] = [along(flat(startOf(path), 0)), along(flat(endOf(path), path.length - 1))];
  // an edge that runs all round begins where it ends
  return [{ panel, edge: origin.edge, from: from < to ? from : 0, to: from < to ? to : own.length }];
}

const stretchesOf = remember(({ whole, panels }: PanelledPiece): readonly Stretch[] =>
  panels.flatMap((p) => p.boundary.flatMap((edge) => stretchOf(p.id, edge, whole))),
);

const beginsLastOn = ({ beginsLast, reversed }: SeamJoin, which: 'a' | 'b'): boolean =>
  which === 'a' ? beginsLast : beginsLast !== reversed;

/** Length from the agreed end of a place on a side. */
const fromAgreed = ({ join }: SeamWalk, which: 'a' | 'b', s: number): number =>
  beginsLastOn(join, which) ? join[which].to - s : s - join[which].from;

/** Where a length from the agreed end on side a lies along either side's own edge. */
function alongEdge(walk: SeamWalk, which: 'a' | 'b', onA: number): number {
  const s = which === 'a' ? onA : acrossToB(walk, onA);
  const side = walk.join[which];
  return beginsLastOn(walk.join, which) ? side.to - s : s + side.from;
}

/** The part of a stretch that is on a seam, from the agreed end, as lengths on side a; null where none is. */
function onSeam(walk: SeamWalk, which: 'a' | 'b', { from, to }: Stretch): readonly [number, number] | null {
  const side = walk.join[which];
  const [low, high] = [Math.max(from, side.from), Math.min(to, side.to)];
  if (high - low < TOO_SHORT) return null;
  const ends = [low, high].map((s) => fromAgreed(walk, which, s));
  const [p, q] = which === 'a' ? ends : ends.map((s) => acrossToA(walk, s));
  return [Math.min(p!, q!), Math.max(p!, q!)];
}

type MateSource = Pick<Garment, 'neighbours' | 'pieceById'>;

/** A panel that lies on a stretch, and where along the stretch's edge it begins to, as sewn, mm. */
interface Met {
  readonly panel: PanelId;
  readonly at: number;
}

/** Panels across one seam from a stretch. */
function panelsAcross({ pieceById }: MateSource, walk: SeamWalk, which: 'a' | 'b', stretch: Stretch): Met[] {
  const own = onSeam(walk, which, stretch);
  if (!own) return [];
  const other = which === 'a' ? 'b' : 'a';
  const side = walk.join[other];
  const piece = pieceById.get(side.piece);
  return (piece ? stretchesOf(piece) : [])
    .filter((s) => s.edge === side.edge)
    .flatMap((s): Met[] => {
      const part = onSeam(walk, other, s);
      if (!part) return [];
      const ends = [Math.max(part[0], own[0]), Math.min(part[1], own[1])] as const;
      if (ends[1] - ends[0] <= TOO_SHORT) return [];
      return [{ panel: s.panel, at: Math.min(...ends.map((t) => alongEdge(walk, which, t))) }];
    });
}

/**
 * Whether a seam sews the pieces as they are traced, right sides up: their edges then run against each other. Where they run alike
 * one of the two is a mirrored copy.
 */
const isAsTraced = ({ a, b, reversed }: SeamJoin): boolean => reversed && !sameEdge(a, b);

/** Each panel once, in order along the edge. */
const inOrder = (met: readonly Met[]): PanelId[] => [
  ...new Set(met.toSorted((p, q) => p.at - q.at).map((m) => m.panel)),
];

function joinedMates(
  source: MateSource,
  stretch: Stretch,
  panel: Panel,
): Pick<EdgeMate, 'mates' | 'mirrored'> {
  const { neighbours, pieceById } = source;
  const ref = { piece: panel.piece, edge: stretch.edge };
  const isPair = (piece: SeamJoin['a']['piece']): boolean =>
    pieceById.get(piece)?.whole.piece.cutting === 'pair';
  const found = neighbours.seams.flatMap(({ walk }) => {
    const { join } = walk;
    const isSame = sameEdge(join.a, join.b);
    return (['a', 'b'] as const).flatMap((which) => {
      if (!sameEdge(join[which], ref) || (isSame && which === 'b')) return [];
      const beyond = join[which === 'a' ? 'b' : 'a'].piece;
      // either copy of a pair goes to one copy of the other pair; of a piece cut once, each to its own edge
      const copies = isPair(beyond) ? 'both' : isAsTraced(join) ? 'traced' : 'mirrored';
      return panelsAcross(source, walk, which, stretch).map((met) => ({ ...met, copies }));
    });
  });
  const all = inOrder(found);
  const own = inOrder(found.filter((f) => f.copies !== 'mirrored'));
  const image = inOrder(found.filter((f) => f.copies !== 'traced'));
  if (!isPair(panel.piece) || own.length === 0 || image.length === 0) return { mates: all, mirrored: all };
  return { mates: own, mirrored: image };
}

function mateOf(source: MateSource, panel: Panel, edge: PanelEdge): EdgeMate {
  const { whole, seams } = source.pieceById.get(panel.piece)!;
  const { origin } = edge;
  if (origin.kind === 'seam') {
    const seam = seams.find((s) => s.id === origin.seam)!;
    const mates = [seam.a === panel.id ? seam.b : seam.a];
    return { kind: 'seam', mates, mirrored: mates, edgeName: null };
  }
  const edgeName = whole.edges[origin.edge]!.name;
  const kind = source.neighbours.jobs.edges.get(panel.piece)?.[origin.edge]?.job.kind ?? 'left';
  const [stretch] = stretchOf(panel.id, edge, whole);
  return { kind, edgeName, ...joinedMates(source, stretch!, panel) };
}

const matesOnce = remember(
  (panel: Panel, neighbours: Neighbours, pieces: Garment['pieces']): readonly EdgeMate[] => {
    const pieceById = new Map(pieces.map((p) => [p.whole.piece.id, p] as const));
    return [...panel.boundary, ...panel.holes.flat()].map((e) => mateOf({ neighbours, pieceById }, panel, e));
  },
);

/**
 * What every stretch of a panel's boundary is sewn to, in the order of its cut piece's `edgeLabels`: the panel across a new seam, the panels
 * across a seam between pieces. Worked out when asked, and remembered.
 */
export const matesOf = (
  { neighbours, pieces }: Pick<Garment, 'neighbours' | 'pieces'>,
  panel: Panel,
): readonly EdgeMate[] => matesOnce(panel, neighbours, pieces);

/** Seams between pieces with no traced notch on either side: ends of panel lines and of the seam itself are all there is to match. */
export const seamsWithoutNotches = ({ neighbours }: Pick<Garment, 'neighbours'>): readonly SeamJoin[] =>
  neighbours.seams
    .map((n) => n.join)
    .filter(({ a, b }) =>
      [a, b].every(({ piece, edge, from, to }) =>
        notchesOn(neighbours.wholes.get(piece)!, edge).every((s) => s <= from || s >= to),
      ),
    );

import { type Line, type Pt, boxOfPoints, endOf, flattenRing, mix, startOf } from '../../geometry';
import { areMirrorImages } from '../../allowance';
import { basePlace, centreOf, isLost, levelsDown, levelKey } from '../../lines';
import { type EdgeJobs, edgeJobs } from '../../neighbours';
import {
  type Design,
  type PieceId,
  type WholePiece,
  grainFrame,
  heightOf,
  openedPiece,
  placeAcross,
  pointInGrain,
  sewnEdge,
} from '../../pattern';

/** Levels a print is lined up at, the best first: where a break in it is seen most. Common practice, no source. */
const LEVELS = ['waist', 'hip', 'bust', 'chest', 'hem'];

/** Two heights on two pieces that come to lie side by side on the body; the lower the rank the surer. */
interface Link {
  readonly rank: number;
  readonly a: number;
  readonly b: number;
}

const rankOf = (name: string): number => {
  const known = LEVELS.indexOf(levelKey(name));
  return known < 0 ? LEVELS.length : known;
};

function levelLinks(a: WholePiece, b: WholePiece): Link[] {
  const others = levelsDown(b);
  return levelsDown(a).flatMap(({ level, height }): Link[] => {
    const like = others.find((o) => levelKey(o.level.name) === levelKey(level.name));
    return like ? [{ rank: rankOf(level.name), a: height, b: like.height }] : [];
  });
}

const LOWER_END = LEVELS.length + 1;

/** Height of the lower end of an edge as sewn: its underside on the page. */
function lowerEnd(whole: WholePiece, edge: number): number {
  const { path } = sewnEdge(whole, edge);
  return Math.max(heightOf(whole, startOf(path)), heightOf(whole, endOf(path)));
}

function sideSeamLinks(a: WholePiece, b: WholePiece, { joins }: EdgeJobs): Link[] {
  return joins.flatMap((join): Link[] => {
    if (join.role !== 'side seam') return [];
    const [own, other] = join.a.piece === a.piece.id ? [join.a, join.b] : [join.b, join.a];
    if (own.piece !== a.piece.id || other.piece !== b.piece.id) return [];
    return [{ rank: LOWER_END, a: lowerEnd(a, own.edge), b: lowerEnd(b, other.edge) }];
  });
}

const surest = <T extends { readonly rank: number }>(links: readonly T[]): T | undefined =>
  links.reduce<T | undefined>((best, l) => (best && best.rank <= l.rank ? best : l), undefined);

/** The height a piece is anchored at by itself: its surest level, else the lower end of a joined side seam, else its lowest point. */
function ownHeight(whole: WholePiece, jobs: EdgeJobs): number {
  const level = surest(levelsDown(whole).map((l) => ({ rank: rankOf(l.level.name), height: l.height })));
  if (level) return level.height;
  const join = jobs.joins.find(
    (j) => j.role === 'side seam' && [j.a.piece, j.b.piece].includes(whole.piece.id),
  );
  if (join) return lowerEnd(whole, (join.a.piece === whole.piece.id ? join.a : join.b).edge);
  return Math.max(...flattenRing(whole.stitching).map((p) => heightOf(whole, p)));
}

/** A height on every piece, all of which lie level with each other where pieces share a level or a side seam. */
function levelHeights(wholes: readonly WholePiece[], jobs: EdgeJobs): ReadonlyMap<WholePiece, number> {
  const found = new Map<WholePiece, number>();
  const linked = (): { rank: number; whole: WholePiece; height: number }[] =>
    [...found].flatMap(([from, height]) =>
      wholes
        .filter((w) => !found.has(w))
        .flatMap((whole) =>
          [...levelLinks(from, whole), ...sideSeamLinks(from, whole, jobs)].map(({ rank, a, b }) => ({
            rank,
            whole,
            height: height + b - a,
          })),
        ),
    );
  while (found.size < wholes.length) {
    const next = surest(linked());
    const alone = wholes.find((w) => !found.has(w))!;
    if (next) found.set(next.whole, next.height);
    else found.set(alone, ownHeight(alone, jobs));
  }
  return found;
}

/** The centre's place across the grain at a height, mm; where a centre edge does not reach that high, the middle of its ends. */
function centrePlace(whole: WholePiece, at: Pt): number | null {
  const centre = centreOf(whole);
  if (!centre) return null;
  const met = basePlace(whole, { kind: 'over', at }, { kind: 'centre' });
  if (!isLost(met)) return met.place;
  if (!('edge' in centre)) return placeAcross(whole, mix(centre[0], centre[1], 0.5));
  const { path } = sewnEdge(whole, centre.edge);
  return placeAcross(whole, mix(startOf(path), endOf(path), 0.5));
}

/**
 * Where the middle of a print comes to lie across a piece, mm across the grain: its fold or centre edge, else the line it is its own
 * mirror image across, else its traced grain line, else the middle of its width.
 */
function middleAcross(whole: WholePiece, height: number): number {
  const box = boxOfPoints(flattenRing(whole.stitching).map((p): Pt => [placeAcross(whole, p), 0]));
  const middle = (box.minX + box.maxX) / 2;
  const centre = centrePlace(whole, pointInGrain(whole, height, middle));
  if (centre !== null) return centre;
  const { grain } = whole.piece;
  if (!grain || areMirrorImages(whole.stitching, whole.stitching, upright(whole, middle))) return middle;
  return placeAcross(whole, mix(grain[0], grain[1], 0.5));
}

function upright(whole: WholePiece, over: number): Line {
  const from = pointInGrain(whole, 0, over);
  const { along } = grainFrame(whole);
  return [from, [from[0] + along[0], from[1] + along[1]]];
}

/**
 * One point per piece that is laid on the repeat of a stripe or print, in the piece's traced frame, so that the print runs level and
 * centred over the whole garment: all panels of a piece have the same point, and points of pieces that share a level, or else are joined
 * at a side seam, lie at one height on the body. Levels and seams are those of the stitching lines, since that is where a print meets.
 */
export function repeatAnchors(design: Design): ReadonlyMap<PieceId, Pt> {
  const wholes = design.pieces.map((piece) => openedPiece(piece, design).whole);
  const heights = levelHeights(wholes, edgeJobs(wholes, design.edgeJobs));
  return new Map(
    wholes.map((whole) => {
      const height = heights.get(whole)!;
      return [whole.piece.id, pointInGrain(whole, height, middleAcross(whole, height))];
    }),
  );
}

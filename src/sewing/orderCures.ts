import {
  JOIN_GAP,
  type Path,
  type Pt,
  applyMatrix,
  crossStraight,
  directionAt,
  distance,
  endOf,
  endOfCurve,
  isCubic,
  mirrorAcross,
  scale,
  startOf,
  startOfCurve,
} from '../geometry';
import { slicedPiece } from '../panels';
import type { Design, LineId, PanelLine, Piece, PieceId, WholePiece } from '../pattern';
import { runPlan } from './runs/seamRuns';
import { ringsOfEndings } from './runs/rings';

/** A line drawn straight on from its end, or a new one straight on from a corner of a line, so that a seam is sewn whole and straight. */
export interface OrderCure {
  /** extend: `path` is the line's new one. add: `path` is a new line's, drawn like `line`. */
  readonly how: 'extend' | 'add';
  /** It is drawn on at its other end as well, to what lies ahead there. */
  readonly both: boolean;
  readonly line: LineId;
  readonly path: Path;
  /** From where to where it is drawn on, in the piece's traced coordinates. */
  readonly from: Pt;
  readonly to: Pt;
  /** What it reaches. */
  readonly what: 'line' | 'edge';
}

/** The design's parts a cure is looked for in. */
export type CureGround = Pick<Design, 'pieces' | 'lines' | 'allowances'>;

/** Where a line could be drawn on from. */
interface Tip {
  readonly line: PanelLine;
  readonly end: 'start' | 'end' | null;
  readonly at: Pt;
  readonly ahead: Pt;
}

/** A cure to be tried, and the tip it begins at. */
interface Tried {
  readonly cure: OrderCure;
  readonly tip: Tip;
}

interface Faults {
  readonly partial: number;
  readonly corners: number;
  readonly seams: number;
}

/** Ways that are tried out at most: each slices the piece anew. */
const MOST_TRIED = 16;

/** Nearer to the tip than this, mm, nothing counts as ahead of it. */
const AHEAD = 2 * JOIN_GAP;

function faultsOf(piece: Piece, ground: CureGround): Faults {
  const { runs } = runPlan(slicedPiece(piece, ground), []);
  return {
    partial: runs.filter((r) => r.openAt !== null).length,
    corners: runs.reduce((sum, r) => sum + r.corners.length, 0),
    seams: runs.length,
  };
}

const isSameTip = (a: Tip, b: Tip): boolean =>
  a.line === b.line && a.end === b.end && isNear(a.at, b.at) && distance(a.ahead, b.ahead) < 1e-6;

const isNear = (p: Pt, q: Pt): boolean => distance(p, q) <= JOIN_GAP;

/** The ends of a drawn line at a spot, and the two ways on from a corner of it there. */
function tipsOf(line: PanelLine, at: Pt): Tip[] {
  const { path } = line;
  const tips: Tip[] = [];
  if (path.length === 0) return tips;
  if (isNear(startOf(path), at))
    tips.push({ line, end: 'start', at: startOf(path), ahead: scale(directionAt(path[0]!, 0), -1) });
  if (isNear(endOf(path), at))
    tips.push({ line, end: 'end', at: endOf(path), ahead: directionAt(path.at(-1)!, 1) });
  path.slice(1).forEach((next, i) => {
    const corner = startOfCurve(next);
    if (!isNear(corner, at)) return;
    tips.push({ line, end: null, at: corner, ahead: directionAt(path[i]!, 1) });
    tips.push({ line, end: null, at: corner, ahead: scale(directionAt(next, 0), -1) });
  });
  return tips;
}

/** A spot as it lies on the drawn half and on its image, for lines that are drawn once and lie twice. */
const imagesOf = (at: Pt, { foldLine }: WholePiece): Pt[] =>
  foldLine ? [at, applyMatrix(mirrorAcross(foldLine), at)] : [at];

/** Straight ahead of a tip: the first line, and the edge. */
function aimsOf(tip: Tip, whole: WholePiece, laid: readonly Path[]): Pick<OrderCure, 'to' | 'what'>[] {
  const first = (paths: readonly Path[]): number =>
    Math.min(
      ...paths.flatMap((p) =>
        crossStraight(p, tip.at, tip.ahead)
          .map((c) => c.along)
          .filter((along) => along > AHEAD),
      ),
    );
  const point = (along: number): Pt => [tip.at[0] + tip.ahead[0] * along, tip.at[1] + tip.ahead[1] * along];
  const edge = first([whole.stitching]);
  if (!Number.isFinite(edge)) return [];
  const line = first(laid);
  const reachesLine = line < edge - AHEAD;
  return [
    ...(reachesLine ? [{ to: point(line), what: 'line' as const }] : []),
    { to: point(edge), what: 'edge' as const },
  ];
}

function drawnOn({ line, end, at }: Tip, to: Pt): Pick<OrderCure, 'how' | 'path'> {
  const { path } = line;
  if (end === null) return { how: 'add', path: [[at, to]] };
  if (end === 'start') {
    const first = path[0]!;
    const rest = isCubic(first) ? path : path.slice(1);
    return { how: 'extend', path: [[to, isCubic(first) ? at : endOfCurve(first)], ...rest] };
  }
  const last = path.at(-1)!;
  const rest = isCubic(last) ? path : path.slice(0, -1);
  return { how: 'extend', path: [...rest, [isCubic(last) ? at : startOfCurve(last), to]] };
}

/** Spots at which lines end on each other in a ring, where one of them has to be begun at `at`. */
function spotsOfRing(ground: CureGround, piece: Piece, at: Pt): readonly Pt[] {
  const { graph, chosen } = runPlan(slicedPiece(piece, ground), []);
  const rings = ringsOfEndings(chosen.trails, () => false);
  const spots = rings.map((ring) => ring.map((e) => graph.junctions[e.junction]!.at));
  return spots.find((own) => own.some((p) => isNear(p, at))) ?? spots.flat();
}

/** The other end of a line that ends at a tip. */
const otherEnd = ({ line, end }: Tip): Tip | undefined =>
  tipsOf(line, end === 'start' ? endOf(line.path) : startOf(line.path)).find(
    (t) => t.end === (end === 'start' ? 'end' : 'start'),
  );

/** A line of a closed shape has to be drawn on at both its ends, as far as the next line or the edge at each: one end alone leaves the shape closed. */
function bothWays(tip: Tip, whole: WholePiece, laid: readonly Path[]): Tried[] {
  const other = tip.end === null ? undefined : otherEnd(tip);
  const [here] = aimsOf(tip, whole, laid);
  const [there] = other ? aimsOf(other, whole, laid) : [];
  if (!other || !here || !there) return [];
  const line = { ...tip.line, path: drawnOn(tip, here.to).path };
  const { path } = drawnOn({ ...other, line }, there.to);
  const what = here.what === there.what ? here.what : 'edge';
  return [
    { cure: { how: 'extend', both: true, path, to: here.to, what, line: tip.line.id, from: tip.at }, tip },
  ];
}

const withCure = (
  ground: CureGround,
  { line }: Tip,
  { how, path }: Pick<OrderCure, 'how' | 'path'>,
): CureGround => ({
  ...ground,
  lines:
    how === 'extend'
      ? ground.lines.map((l) => (l === line ? { ...l, path, ties: null } : l))
      : [...ground.lines, { ...line, id: `${line.id} on` as LineId, path, ties: null }],
});

const length = ({ from, to }: OrderCure): number => distance(from, to);

/**
 * What would let the seams at a spot be sewn whole and straight: lines drawn on to the next line or the edge, each tried out by slicing the
 * piece and choosing its seams anew. Best first: fewest partial seams, corners set in, seams, then the shortest. Empty where nothing helps.
 * @param at where a seam is left open or a corner is set in, in the piece's traced coordinates
 */
export function orderCures(ground: CureGround, id: PieceId, at: Pt): readonly OrderCure[] {
  const piece = ground.pieces.find((p) => p.id === id);
  if (!piece) return [];
  const sliced = slicedPiece(piece, ground);
  const own = ground.lines.filter((l) => l.piece === id);
  const now = faultsOf(piece, ground);
  const spots = now.partial > 0 ? [at, ...spotsOfRing(ground, piece, at)] : [at];
  const tips = spots.flatMap((spot) =>
    own.flatMap((line) => imagesOf(spot, sliced.whole).flatMap((image) => tipsOf(line, image))),
  );
  const laid = sliced.lines.map((l) => l.path);
  const single = tips.filter((t, i) => tips.findIndex((o) => isSameTip(o, t)) === i);
  const helping = (ways: readonly Tried[]): { cure: OrderCure; left: Faults }[] =>
    ways
      .slice(0, MOST_TRIED)
      .map(({ cure, tip }) => ({ cure, left: faultsOf(piece, withCure(ground, tip, cure)) }))
      .filter(
        ({ left }) =>
          left.partial < now.partial || (left.partial === now.partial && left.corners < now.corners),
      );
  const oneWay = helping(
    single.flatMap((tip) =>
      aimsOf(tip, sliced.whole, laid).map((aim): Tried => {
        const cure = { ...drawnOn(tip, aim.to), ...aim, both: false, line: tip.line.id, from: tip.at };
        return { cure, tip };
      }),
    ),
  );
  const found = oneWay.length > 0 ? oneWay : helping(single.flatMap((t) => bothWays(t, sliced.whole, laid)));
  return found
    .sort(
      (a, b) =>
        a.left.partial - b.left.partial ||
        a.left.corners - b.left.corners ||
        a.left.seams - b.left.seams ||
        length(a.cure) - length(b.cure),
    )
    .map(({ cure }) => cure);
}

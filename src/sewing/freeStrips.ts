import {
  type Path,
  type Polyline,
  type Pt,
  JOIN_GAP,
  boxesMeet,
  cross,
  distance,
  flattenPath,
  flattenRing,
  isClosed,
  isInPolygon,
  lengthAt,
  mix,
  nearestOnPath,
  pathBox,
  pathLength,
  pointAtLength,
  refAtLength,
  startOf,
  endOf,
  subPath,
  subtract,
} from '../geometry';
import { type PanelledPiece, type Seam, layLine } from '../panels';
import type { LineId, PanelLine, Trim, TrimPlace } from '../pattern';
import { edgesAt } from './edgesAt';
import { type StripEnd, type TrimStrip, endsOf } from './trimStrip';

/** How closely a path of its own is looked at, mm. */
const LOOK = 2;
/** Shorter than this there is nothing to lay, mm. */
const SHORTEST = 1;

/** Where two straight segments cross, as a point; null where they do not. */
function crossingOf(a: Pt, b: Pt, c: Pt, d: Pt): Pt | null {
  const [r, s] = [subtract(b, a), subtract(d, c)];
  const turn = cross(r, s);
  if (turn === 0) return null;
  const gap = subtract(c, a);
  const [t, u] = [cross(gap, s) / turn, cross(gap, r) / turn];
  return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? mix(a, b, t) : null;
}

/** Where two drawn-out paths cross, to the accuracy of the flattening. */
function crossings(a: Polyline, b: Polyline): Pt[] {
  return a.slice(1).flatMap((p, i) =>
    b.slice(1).flatMap((q, j): Pt[] => {
      const at = crossingOf(a[i]!, p, b[j]!, q);
      return at ? [at] : [];
    }),
  );
}

/** The parts of a path that lie inside the stitching line; an end on it counts as inside. */
function insideParts(path: Path, { whole }: PanelledPiece): Path[] {
  const ring = flattenRing(whole.stitching);
  const marks = crossings(flattenPath(path).points, [...ring, ring[0]!])
    .map((p) => lengthAt(path, nearestOnPath(path, p)))
    .sort((a, b) => a - b);
  const total = pathLength(path);
  const stops = [0, ...marks.filter((m) => m > SHORTEST && m < total - SHORTEST), total];
  return stops.slice(1).flatMap((to, i): Path[] => {
    const from = stops[i]!;
    const isInside = isInPolygon(pointAtLength(path, (from + to) / 2).point, ring);
    if (!isInside || to - from < SHORTEST) return [];
    return [subPath(path, refAtLength(path, from), refAtLength(path, to))];
  });
}

/** Whether a seam lies under a strip: crossed by it, or nearer to its middle than half its width, but for what lies just at its ends. */
function isUnder(seam: Seam, path: Path, width: number): boolean {
  if (!boxesMeet(pathBox(seam.path), pathBox(path), width)) return false;
  const ends = isClosed(path) ? [] : [startOf(path), endOf(path)];
  const isAtEnd = (p: Pt, reach: number): boolean => ends.some((e) => distance(e, p) <= reach);
  const crossed = crossings(flattenPath(path).points, flattenPath(seam.path).points);
  if (crossed.some((p) => !isAtEnd(p, JOIN_GAP))) return true;
  const total = pathLength(path);
  const steps = Math.ceil(total / Math.max(LOOK, width / 4));
  return Array.from(
    { length: steps - 1 },
    (_, i) => pointAtLength(path, ((i + 1) * total) / steps).point,
  ).some((p) => !isAtEnd(p, width + JOIN_GAP) && nearestOnPath(seam.path, p).distance < width / 2);
}

/** Whether some point of a path lies in a panel, looked at closely enough for any panel that can be sewn. */
const panelsUnder = (path: Path, { panels }: PanelledPiece): TrimStrip['panels'] => {
  const total = pathLength(path);
  const steps = Math.max(1, Math.ceil(total / (4 * LOOK)));
  const spots = Array.from(
    { length: steps },
    (_, i) => pointAtLength(path, ((i + 0.5) * total) / steps).point,
  );
  return panels
    .filter(({ flat }) =>
      spots.some((p) =>
        isInPolygon(
          p,
          flat.points,
          flat.holeRings.map((r) => flattenRing(r)),
        ),
      ),
    )
    .map((p) => p.id);
};

/** The junction of panel lines at a point, if it lies at one. */
const nodeAt = ({ nodePoints, runs }: PanelledPiece, p: Pt): number | null => {
  const used = new Set(runs.flatMap((r) => r.stretches.flatMap((s) => [s.from, s.to])));
  const node = nodePoints.findIndex((q, i) => used.has(i) && distance(p, q) <= JOIN_GAP);
  return node < 0 ? null : node;
};

/** The strips of a trim on a path of its own: its mirror image too, as far as they lie on the piece. */
export function freeStrips(
  trim: Trim,
  on: Extract<TrimPlace, { kind: 'path' }>,
  piece: PanelledPiece,
): TrimStrip[] {
  const drawn: PanelLine = {
    id: trim.id as string as LineId, // laid on the piece as a panel line is
    piece: on.piece,
    path: on.path,
    once: on.once,
    overDarts: 'flat',
    ties: null,
  };
  let [plain, mirrored] = [0, 0];
  return layLine(drawn, 0, piece.whole).flatMap((laid) =>
    insideParts(laid.path, piece).map((path): TrimStrip => {
      const nth = laid.mirrored ? (mirrored += 1) : (plain += 1);
      const where = (p: Pt): Pick<StripEnd, 'node' | 'edges'> => ({
        node: nodeAt(piece, p),
        edges: edgesAt(piece, p, JOIN_GAP),
      });
      return {
        key: `trim ${trim.id}${laid.mirrored ? ' mirrored' : ''}${nth > 1 ? ` #${nth}` : ''}`,
        trim,
        piece: piece.whole.piece.id,
        line: null,
        label: laid.mirrored ? `${trim.name} mirrored` : trim.name,
        path,
        isClosed: distance(startOf(path), endOf(path)) <= JOIN_GAP,
        ends: endsOf(path, [where(startOf(path)), where(endOf(path))]),
        stretches: [],
        seams: piece.seams.filter((s) => isUnder(s, path, trim.width)).map((s) => s.id),
        panels: panelsUnder(path, piece),
      };
    }),
  );
}

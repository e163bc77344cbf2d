import {
  type Path,
  type Polyline,
  type Pt,
  JOIN_GAP,
  boxesMeet,
  cross,
  distance,
  distanceToSegment,
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
import { type LineId, type PanelLine, type Trim, remember } from '../pattern';
import { edgesAt } from './edgesAt';
import { type StripEnd, type TrimStrip, endsOf } from './trimStrip';

/** How closely a path of its own is looked at, mm. */
const LOOK = 6;
/** How near a drawn-out seam is to its curve, mm: enough to tell what lies under a trim. */
const SEAM_SAGITTA = 0.1;
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

/** A strip's course drawn out: corner points, and places along it near enough to each other for any panel that can be sewn. */
interface Course {
  readonly path: Path;
  readonly points: Polyline;
  readonly spots: Polyline;
}

function courseOf(path: Path): Course {
  const { points } = flattenPath(path);
  const spots = points.slice(1).flatMap((b, i) => {
    const a = points[i]!;
    const parts = Math.max(1, Math.ceil(distance(a, b) / LOOK));
    return Array.from({ length: parts }, (_, k) => mix(a, b, (k + 0.5) / parts));
  });
  return { path, points, spots };
}

const toPolyline = (p: Pt, line: Polyline): number =>
  Math.min(...line.slice(1).map((b, i) => distanceToSegment(p, line[i]!, b).distance));

/** Whether a seam lies under a strip: crossed by it, or nearer to its middle than half its width, but for what lies just at its ends. */
function isUnder(seam: Seam, { path, points, spots }: Course, width: number): boolean {
  const box = pathBox(seam.path);
  if (!boxesMeet(box, pathBox(path), width)) return false;
  const ends = isClosed(path) ? [] : [startOf(path), endOf(path)];
  const isAtEnd = (p: Pt, reach: number): boolean => ends.some((e) => distance(e, p) <= reach);
  const line = flattenPath(seam.path, SEAM_SAGITTA).points;
  if (crossings(points, line).some((p) => !isAtEnd(p, JOIN_GAP))) return true;
  return spots.some(
    (p) =>
      boxesMeet(box, { minX: p[0], minY: p[1], maxX: p[0], maxY: p[1] }, width / 2) &&
      !isAtEnd(p, width + JOIN_GAP) &&
      toPolyline(p, line) < width / 2,
  );
}

/** The panels that some place of a strip's middle lies in. */
const panelsUnder = ({ spots }: Course, { panels }: PanelledPiece): TrimStrip['panels'] =>
  panels
    .filter(({ flat }) => {
      const holes = flat.holeRings.map((r) => flattenRing(r));
      return spots.some((p) => isInPolygon(p, flat.points, holes));
    })
    .map((p) => p.id);

/** The junction of panel lines at a point, if it lies at one. */
const nodeAt = ({ nodePoints, runs }: PanelledPiece, p: Pt): number | null => {
  const used = new Set(runs.flatMap((r) => r.stretches.flatMap((s) => [s.from, s.to])));
  const node = nodePoints.findIndex((q, i) => used.has(i) && distance(p, q) <= JOIN_GAP);
  return node < 0 ? null : node;
};

/** The strips of a trim on a path of its own: its mirror image too, as far as they lie on the piece. Remembered; none on other places. */
export const freeStrips = remember((piece: PanelledPiece, trim: Trim): readonly TrimStrip[] => {
  const { on } = trim;
  if (on.kind !== 'path') return [];
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
      const course = courseOf(path);
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
        seams: piece.seams.filter((s) => isUnder(s, course, trim.width)).map((s) => s.id),
        panels: panelsUnder(course, piece),
      };
    }),
  );
});

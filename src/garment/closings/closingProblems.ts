import {
  CORNER_TURN,
  type Path,
  type Pt,
  cross,
  curvatureAt,
  directionAt,
  dot,
  isClosed,
  lengthAt,
  nearestOnPath,
  pointAt,
  startOf,
} from '../../geometry';
import { MISS_HINT, type Neighbours, isMeantOff } from '../../neighbours';
import type { PanelledPiece } from '../../panels';
import { type MeantOff, type Problem, problem } from '../../pattern';
import { type PlacedClosing, type PlacedSide, openingEnd } from './placedClosings';

/** A zip in a curve tighter than this, mm, ripples: its tape is as long inside as outside. Our choice. */
const TIGHT_CURVE = 100;
/** Curves are looked at in so many places, and this far from their ends, where handles may be short. */
const LOOKED_AT = 12;
/** A line's end this near an edge or another line ends on it, mm. */
const ON_IT = 0.05;

/** The first joint of a path that turns by more than a corner does. */
function cornerOf(path: Path): Pt | null {
  const joint = path.slice(1).findIndex((next, i) => {
    const [u, v] = [directionAt(path[i]!, 1), directionAt(next, 0)];
    return Math.abs(Math.atan2(cross(u, v), dot(u, v))) > CORNER_TURN;
  });
  return joint < 0 ? null : path[joint + 1]![0];
}

/** Where a path bends tightest, if tighter than a zip takes. */
function tightBend(path: Path): { at: Pt; radius: number } | null {
  let found: { at: Pt; radius: number } | null = null;
  for (const curve of path)
    for (let i = 1; i < LOOKED_AT; i += 1) {
      const radius = 1 / Math.abs(curvatureAt(curve, i / LOOKED_AT));
      if (radius < Math.min(TIGHT_CURVE, found?.radius ?? Infinity))
        found = { at: pointAt(curve, i / LOOKED_AT), radius };
    }
  return found;
}

/** The largest miss of lines across an opening that is not meant. */
function missAcross(
  { zip }: PlacedClosing,
  { seams }: Neighbours,
  meantOff: readonly MeantOff[],
  sideOf: (piece: string, at: Pt) => PlacedSide | undefined,
): { mm: number; at: Pt } | null {
  const meetings = seams.find((s) => s.join === zip.join)?.meetings ?? [];
  const open = meetings.filter((m) => {
    const side = sideOf(m.a.piece, m.a.at) ?? sideOf(m.b.piece, m.b.at);
    return side && m.mm > MISS_HINT && !isMeantOff(meantOff, m);
  });
  const worst = open.toSorted((p, q) => q.mm - p.mm)[0];
  return worst ? { mm: worst.mm, at: worst.a.at } : null;
}

/** Whether a line's upper end can be reached: at an edge of the piece, or at another line. */
function isEndReached(side: PlacedSide, { whole, lines }: PanelledPiece): boolean {
  if (isClosed(side.path)) return false;
  const top = startOf(side.path);
  const others = lines.filter((l) => l.line !== side.line || l.mirrored).map((l) => l.path);
  return [whole.stitching, ...others].some((path) => nearestOnPath(path, top).distance <= ON_IT);
}

function problemsOf(
  closing: PlacedClosing,
  neighbours: Neighbours,
  pieces: readonly PanelledPiece[],
  meantOff: readonly MeantOff[],
): Problem[] {
  const [own] = closing.sides;
  const piece = pieces.find((p) => p.whole.piece.id === own!.piece)!;
  const { name, edges } = piece.whole;
  const line = piece.lines.find((l) => l.line === own!.line);
  const seam = `${name}/${own!.edge === null ? `panel line ${line?.label ?? ''}` : edges[own!.edge]!.plainName}`;
  const wanted = closing.zip.length;
  const onOpening = (id: string, at: Pt): PlacedSide | undefined =>
    closing.sides.find((s) => {
      const near = nearestOnPath(s.path, at);
      return s.piece === id && near.distance <= ON_IT && lengthAt(s.path, near) <= openingEnd(s);
    });
  const corner = closing.sides.map((s) => cornerOf(s.opening)).find((at) => at !== null);
  const bend = corner ? null : tightBend(own!.opening);
  const miss = missAcross(closing, neighbours, meantOff, onOpening);
  return [
    ...(wanted !== null && wanted > closing.seam + 0.5
      ? [problem('zip-longer-than-seam', { seam, zip: wanted, length: closing.seam }, name, own!.stop)]
      : []),
    ...(corner ? [problem('zip-round-corner', { seam }, name, corner)] : []),
    ...(bend ? [problem('zip-on-tight-curve', { seam, radius: bend.radius }, name, bend.at)] : []),
    ...(miss ? [problem('zip-lines-miss', { seam, mm: miss.mm }, name, miss.at)] : []),
    ...(own!.edge === null && !isEndReached(own!, piece)
      ? [problem('zip-end-open', { seam }, name, startOf(own!.path))]
      : []),
  ];
}

/** What a sewist should know of the zips of a garment. */
export const closingProblems = (
  closings: readonly PlacedClosing[],
  neighbours: Neighbours,
  pieces: readonly PanelledPiece[],
  meantOff: readonly MeantOff[],
): Problem[] => closings.flatMap((c) => problemsOf(c, neighbours, pieces, meantOff));

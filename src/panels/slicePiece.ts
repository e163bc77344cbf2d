import {
  IDENTITY,
  type HalfEdge,
  type Matrix,
  type Path,
  type Ring,
  type Subdivision,
  type SubdivisionEdge,
  nearestOnPath,
  pointAt,
  reversePath,
  subdivide,
} from '../geometry';
import type { ColourId, PlacedDart, WholePiece } from '../pattern';
import { closeDarts } from './darts/closePanel';
import { withClosedSides } from './darts/seamSides';
import { findSeams, type SeamsFound } from './findSeams';
import {
  type DartClosing,
  type LaidLine,
  type Panel,
  type PanelEdge,
  type PanelledPiece,
  panelIdOf,
} from './panel';
import { type PanelShape, panelShape, sameRing } from './panelShape';

const NO_COLOUR = '' as ColourId;

/** Curves of an edge in the direction of a half edge. */
export const curvesOf = (edge: SubdivisionEdge, forward: boolean): Path =>
  forward ? edge.curves : reversePath(edge.curves);

/** Outline edge numbers of each curve of a subdivision edge that lies on the outline. */
function outlineEdgesOf(edge: SubdivisionEdge, whole: WholePiece): readonly number[] {
  const source = edge.sources.find((s) => s.path.kind === 'outline')!;
  const { index: first, t } = source.start;
  const last = source.end.index;
  const counted = edge.curves.map((_, i) => first + i + (t >= 1 ? 1 : 0));
  const isPlain =
    last >= first && counted.at(-1)! <= last && counted.every((c) => c < whole.stitching.length);
  if (isPlain && edge.curves.length === last - first + 1 && t < 1)
    return counted.map((c) => whole.edgeOf[c]!);
  return edge.curves.map((c) => whole.edgeOf[nearestOnPath(whole.stitching, pointAt(c, 0.5)).index]!);
}

const isOutline = (edge: SubdivisionEdge): boolean => edge.sources.some((s) => s.path.kind === 'outline');

/** The boundary stretches one half edge contributes: one per outline edge it runs along, or one of a seam. */
function stretchesOf(
  half: HalfEdge,
  sub: Subdivision,
  whole: WholePiece,
  found: SeamsFound,
): readonly PanelEdge[] {
  const edge = sub.edges[half.edge]!;
  if (!isOutline(edge)) {
    const { seam, line, forward } = found.seamOfEdge.get(half.edge)!;
    return [
      {
        path: curvesOf(edge, half.forward),
        origin: { kind: 'seam', seam, line, forward: forward === half.forward },
        turns: null,
      },
    ];
  }
  const numbers = outlineEdgesOf(edge, whole);
  const parts = edge.curves.map((curve, i): PanelEdge => ({
    path: [curve],
    origin: { kind: 'outline', edge: numbers[i]! },
    turns: null,
  }));
  if (half.forward) return parts;
  return parts.map((p): PanelEdge => ({ ...p, path: reversePath(p.path) })).reverse();
}

function sameOrigin(a: PanelEdge, b: PanelEdge): boolean {
  if (a.origin.kind === 'outline') return b.origin.kind === 'outline' && a.origin.edge === b.origin.edge;
  return b.origin.kind === 'seam' && a.origin.seam === b.origin.seam && a.origin.forward === b.origin.forward;
}

const turnsOf = ({ path, turns }: PanelEdge): readonly Matrix[] => turns ?? path.map(() => IDENTITY);

const joined = (a: PanelEdge, b: PanelEdge): PanelEdge => ({
  ...a,
  path: [...a.path, ...b.path],
  turns: a.turns || b.turns ? [...turnsOf(a), ...turnsOf(b)] : null,
});

/** Join neighbouring stretches of one origin; the first and last too, by starting the ring at a change. */
function mergeStretches(stretches: readonly PanelEdge[]): readonly PanelEdge[] {
  const change = stretches.findIndex((s, i) => !sameOrigin(stretches.at(i - 1)!, s));
  const turned = change <= 0 ? stretches : [...stretches.slice(change), ...stretches.slice(0, change)];
  const merged: PanelEdge[] = [];
  for (const s of turned) {
    const last = merged.at(-1);
    if (last && sameOrigin(last, s)) merged[merged.length - 1] = joined(last, s);
    else merged.push(s);
  }
  return merged;
}

const ringOf = (boundary: readonly PanelEdge[]): Ring => boundary.flatMap((e) => e.path);

interface Shape extends PanelShape {
  readonly ring: Ring;
  readonly holeRings: readonly Ring[];
}

interface BoundedShape extends Shape {
  readonly boundary: readonly PanelEdge[];
  readonly holes: readonly (readonly PanelEdge[])[];
}

function shapeOf(
  whole: WholePiece,
  boundary: readonly PanelEdge[],
  holes: readonly (readonly PanelEdge[])[],
  darts: readonly PlacedDart[],
): Shape {
  const ring = sameRing(whole, ringOf(boundary));
  const holeRings = holes.map((h) => sameRing(whole, ringOf(h)));
  return { ring, holeRings, ...panelShape(ring, holeRings, darts) };
}

/** The panel as it is cut: darts that panel lines swallow are closed, the rest stay to be sewn. */
function withDartsClosed(
  whole: WholePiece,
  flat: BoundedShape,
): { closed: BoundedShape; closings: readonly DartClosing[] } {
  if (flat.darts.every((d) => d.close === null)) return { closed: flat, closings: [] };
  const { boundary, holes, darts, closings } = closeDarts({ ...flat, closings: [] });
  if (closings.length === 0) return { closed: flat, closings };
  const merged = { boundary: mergeStretches(boundary), holes };
  return { closed: { ...merged, ...shapeOf(whole, merged.boundary, holes, darts) }, closings };
}

/**
 * Slice a whole piece along its laid lines. Colours are not known here: every panel comes back without one.
 * Never throws on a drawing: loose ends and idle lines are handed on as data.
 */
export function slicePiece(whole: WholePiece, lines: readonly LaidLine[]): PanelledPiece {
  const sub = subdivide(
    whole.stitching,
    lines.map((l) => l.path),
  );
  const found = findSeams(sub, whole, lines);
  const boundaryOf = (ring: readonly HalfEdge[]): readonly PanelEdge[] =>
    mergeStretches(ring.flatMap((half) => stretchesOf(half, sub, whole, found)));
  const panels = sub.faces.map((face, i): Panel => {
    const boundary = boundaryOf(face.ring);
    const holes = face.holes.map(boundaryOf);
    const flat = shapeOf(whole, boundary, holes, whole.darts);
    const { closed, closings } = withDartsClosed(whole, { boundary, holes, ...flat });
    const { points, at } = { points: flat.outlinePoints, at: flat.spot.at };
    return {
      id: panelIdOf(whole.piece.id, i),
      piece: whole.piece.id,
      colour: NO_COLOUR,
      boundary: closed.boundary,
      holes: closed.holes,
      ring: closed.ring,
      holeRings: closed.holeRings,
      netRing: closed.netRing,
      netHoles: [...closed.holeRings, ...closed.wedgeHoles],
      area: face.area - flat.wedgeArea,
      darts: closed.darts,
      spot: closed.spot,
      closings,
      flat: { points, holeRings: flat.holeRings, at },
    };
  });
  return {
    whole,
    lines,
    panels,
    seams: withClosedSides(found.seams, panels),
    runs: found.runs,
    outlineNodes: new Set(sub.edges.filter(isOutline).flatMap((e) => [e.from, e.to])),
    nodePoints: sub.nodes,
    looseEnds: sub.looseEnds,
    idleLines: sub.idleLines,
  };
}

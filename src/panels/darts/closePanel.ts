import {
  type HalfEdge,
  type Line,
  type Matrix,
  type Path,
  type Polyline,
  type Pt,
  type Ring,
  type Subdivision,
  IDENTITY,
  SAME_POINT,
  boxesMeet,
  cross,
  distance,
  dot,
  endOf,
  flattenRing,
  isInRing,
  isWellInside,
  multiply,
  nearestOnPath,
  pathBox,
  pathLength,
  pathThrough,
  reversePath,
  signedArea,
  startOf,
  subdivide,
  subtract,
  transformPath,
  unit,
} from '../../geometry';
import { type PlacedDart, dartLegs, dartPoints, movedDart, withPathEnds } from '../../pattern';
import type { DartClosing, PanelEdge } from '../panel';

/** A panel's boundary while its darts are being closed. */
export interface OpenPanel {
  readonly boundary: readonly PanelEdge[];
  readonly holes: readonly (readonly PanelEdge[])[];
  /** Darts still to be sewn in it, turned along with the part they lie in. */
  readonly darts: readonly PlacedDart[];
  readonly closings: readonly DartClosing[];
}

/** A stretch of a face of the cut-up panel: of the panel's own boundary, or along the dart. */
interface Stretch {
  readonly path: Path;
  readonly edge: PanelEdge | null;
}

type SingleDart = Extract<PlacedDart, { kind: 'single' }>;

const ringOf = (boundary: readonly PanelEdge[]): Ring => boundary.flatMap((e) => e.path);

/** For each curve of a boundary the edge it belongs to, narrowed to that one curve. */
const curveByCurve = (boundary: readonly PanelEdge[]): readonly PanelEdge[] =>
  boundary.flatMap((e) =>
    e.path.map((curve, i): PanelEdge => ({ ...e, path: [curve], turns: e.turns && [e.turns[i]!] })),
  );

function stretchesOf(half: HalfEdge, sub: Subdivision, own: readonly PanelEdge[]): Stretch[] {
  const edge = sub.edges[half.edge]!;
  const outline = edge.sources.find((s) => s.path.kind === 'outline');
  const parts = edge.curves.map((curve, i): Stretch => {
    if (!outline) return { path: [curve], edge: null };
    const first = outline.start.index + (outline.start.t >= 1 ? 1 : 0);
    const from = own[(first + i) % own.length]!;
    return { path: [curve], edge: { ...from, path: [curve] } };
  });
  if (half.forward) return parts;
  const back = (e: PanelEdge): PanelEdge => ({ ...e, path: reversePath(e.path) });
  return parts
    .map(({ path, edge: e }): Stretch => ({ path: reversePath(path), edge: e && back(e) }))
    .reverse();
}

interface CutUp {
  /** Parts left beside the wedge, as rings of stretches. */
  readonly rest: readonly (readonly Stretch[])[];
  readonly wedge: readonly (readonly Stretch[])[];
}

/** Cut a panel up along a dart's legs; null when the dart has no part in it. */
function cutUp(boundary: readonly PanelEdge[], dart: PlacedDart): CutUp | null {
  const ring = ringOf(boundary);
  const legs = dartLegs(dart);
  if (!boxesMeet(pathBox(ring), pathBox(legs))) return null;
  const sub = subdivide(ring, [legs]);
  const along = sub.lineEdges[0]!;
  if (along.length === 0) return null;
  const corners = dart.kind === 'single' ? [dart.mouth[0], dart.point, dart.mouth[1]] : dart.points;
  const wedgeIsForward = signedArea(pathThrough(corners, true)) > 0;
  const wedgeFaces = new Set(
    along.map((h) => {
      const { forwardFace, backwardFace } = sub.edges[h.edge]!;
      return h.forward === wedgeIsForward ? forwardFace : backwardFace;
    }),
  );
  const own = curveByCurve(boundary);
  const parts = sub.faces.map((face) => face.ring.flatMap((half) => stretchesOf(half, sub, own)));
  return {
    rest: parts.filter((_, i) => !wedgeFaces.has(i)),
    wedge: parts.filter((_, i) => wedgeFaces.has(i)),
  };
}

/** A ring of stretches opened where it runs along the dart: what is left runs from one end of that to the other. Null where it meets the dart not once. */
function openedAtDart(part: readonly Stretch[]): readonly PanelEdge[] | null {
  const start = part.findIndex((s, i) => s.edge !== null && part.at(i - 1)!.edge === null);
  if (start < 0) return null;
  const turned = [...part.slice(start), ...part.slice(0, start)];
  const own = turned.filter((s) => s.edge !== null);
  const isOnce = turned.slice(0, own.length).every((s) => s.edge !== null);
  return isOnce ? own.map((s) => s.edge!) : null;
}

const cornersOf = (part: readonly Stretch[]): Polyline => flattenRing(part.flatMap((s) => s.path));

/** The rigid movement that takes one stretch on to another: its start exactly, its direction exactly. */
function movedOnTo([a, b]: Line, [p, q]: Line): { matrix: Matrix; angle: number } {
  const [u, v] = [unit(subtract(b, a)), unit(subtract(q, p))];
  const [c, s] = [dot(u, v), cross(u, v)];
  const matrix: Matrix = [c, s, -s, c, p[0] - c * a[0] + s * a[1], p[1] - s * a[0] - c * a[1]];
  return { matrix, angle: Math.atan2(s, c) };
}

const turnEdge = (edge: PanelEdge, m: Matrix): PanelEdge => ({
  ...edge,
  path: transformPath(edge.path, m),
  turns: edge.path.map((_, i) => multiply(m, edge.turns?.[i] ?? IDENTITY)),
});

/** Where a chain meets its side of the dart: from its end nearer to the dart's point to its end at the mouth. */
function sideOfChain(chain: readonly PanelEdge[], { point }: SingleDart): Line {
  const [a, b] = [startOf(chain[0]!.path), endOf(chain.at(-1)!.path)];
  return distance(a, point) <= distance(b, point) ? [a, b] : [b, a];
}

/** An edge stretch shorter than this many times the step at its end is not bent over it, but bridged straight. */
const BENDS_OVER = 3;

/** An edge with one end drawn on to a point: bent there, or where it is too short for that, lengthened straight. */
function drawnOn(edge: PanelEdge, end: 'start' | 'end', p: Pt): PanelEdge {
  const [a, b] = [startOf(edge.path), endOf(edge.path)];
  const [from, to] = end === 'start' ? [p, b] : [a, p];
  const step = distance(p, end === 'start' ? a : b);
  if (step === 0) return edge;
  if (pathLength(edge.path) >= step * BENDS_OVER) return { ...edge, path: withPathEnds(edge.path, from, to) };
  const bridge: Line = end === 'start' ? [p, a] : [b, p];
  const turn = edge.turns && edge.turns[end === 'start' ? 0 : edge.turns.length - 1]!;
  return end === 'start'
    ? { ...edge, path: [bridge, ...edge.path], turns: edge.turns && [turn!, ...edge.turns] }
    : { ...edge, path: [...edge.path, bridge], turns: edge.turns && [...edge.turns, turn!] };
}

/**
 * Two chains joined where their ends meet: at both ends of the dart's sides. Legs of unequal length are trued: the shorter one is drawn
 * on to the end of the longer, so nothing is cut away and the edge runs over it without a step.
 */
function joinedChains(
  one: readonly PanelEdge[],
  other: readonly PanelEdge[],
  about: Pt,
): readonly PanelEdge[] {
  const chains: readonly [PanelEdge[], PanelEdge[]] = [[...one], [...other]];
  chains.forEach((chain, i) => {
    const next = chains[1 - i]!;
    const [p, q] = [endOf(chain.at(-1)!.path), startOf(next[0]!.path)];
    const target = distance(p, about) >= distance(q, about) ? p : q;
    chain[chain.length - 1] = drawnOn(chain.at(-1)!, 'end', target);
    next[0] = drawnOn(next[0]!, 'start', target);
  });
  return chains.flat();
}

/** Whether a dart lies in a part: by its point, or by its mouth where the point is outside. */
const liesIn = (dart: PlacedDart, corners: Polyline): boolean =>
  dart.kind === 'single'
    ? isInRing(dart.point, corners)
    : isInRing(dart.points[0], corners) && isInRing(dart.points[2], corners);

/**
 * The dart runs right through the panel: the smaller part is turned until the sides meet, which with straight legs is about the dart's
 * point. Sides that curve meet at the line and at the mouth.
 */
function closeThrough(panel: OpenPanel, dart: SingleDart, { rest }: CutUp): OpenPanel | null {
  const [a, b] = [...rest].sort(
    (p, q) => signedArea(q.flatMap((s) => s.path)) - signedArea(p.flatMap((s) => s.path)),
  ) as [readonly Stretch[], readonly Stretch[]];
  const [stays, moves] = [openedAtDart(a), openedAtDart(b)];
  if (!stays || !moves) return null;
  const { matrix: m, angle } = movedOnTo(sideOfChain(moves, dart), sideOfChain(stays, dart));
  const corners = cornersOf(b);
  const moved = moves.map((e) => turnEdge(e, m));
  const holes = panel.holes.map((hole) =>
    isInRing(startOf(hole[0]!.path), corners) ? hole.map((e) => turnEdge(e, m)) : hole,
  );
  const others = panel.darts.filter((d) => d !== dart);
  return {
    boundary: joinedChains(stays, moved, dart.point),
    holes,
    darts: others.map((d) => (liesIn(d, corners) ? movedDart(d, m) : d)),
    closings: [...panel.closings, { dart, how: 'closed', angle: Math.abs(angle), width: 0 }],
  };
}

/** A panel line runs inside the wedge: the panel keeps what lies beside the wedge, its seam now follows the dart's side. */
function swallow(panel: OpenPanel, dart: PlacedDart, { rest, wedge }: CutUp): OpenPanel | null {
  const seam = wedge.flat().find((s) => s.edge?.origin.kind === 'seam')?.edge;
  const isThrough = dartPoints(dart).every(
    (p) => nearestOnPath(ringOf(panel.boundary), p).distance <= SAME_POINT,
  );
  if (!seam || rest.length !== 1 || !isThrough) return null;
  const boundary = rest[0]!.map(({ path, edge }): PanelEdge => edge ?? { ...seam, path, turns: null });
  return {
    ...panel,
    boundary,
    darts: panel.darts.filter((d) => d !== dart),
    closings: [...panel.closings, { dart, how: 'swallowed', angle: 0, width: 0 }],
  };
}

/** Width of the wedge where the panel's boundary crosses it, mm. */
function widthAtLine(wedge: readonly (readonly Stretch[])[]): number {
  return wedge.flat().reduce((sum, s) => {
    return s.edge?.origin.kind === 'seam' ? sum + distance(startOf(s.path), endOf(s.path)) : sum;
  }, 0);
}

/** Only the dart's end lies in the panel: it is eased in, or stays to be sewn as a shorter dart. */
function leaveEnd(panel: OpenPanel, dart: PlacedDart, { wedge }: CutUp): OpenPanel {
  const width = widthAtLine(wedge);
  if (dart.close !== 'ease') return panel;
  return {
    ...panel,
    darts: panel.darts.filter((d) => d !== dart),
    closings: [...panel.closings, { dart, how: 'eased', angle: 0, width }],
  };
}

function closeOne(panel: OpenPanel, dart: PlacedDart): OpenPanel {
  const cut = cutUp(panel.boundary, dart);
  if (!cut || cut.wedge.length === 0) return panel;
  const corners = flattenRing(ringOf(panel.boundary));
  const holdsPoint = dartPoints(dart).some((p) => isWellInside(p, corners, SAME_POINT));
  const meetsLine = cut.wedge.flat().some((s) => s.edge?.origin.kind === 'seam');
  if (holdsPoint) return meetsLine && dart.kind === 'single' ? leaveEnd(panel, dart, cut) : panel;
  if (dart.kind === 'single' && cut.rest.length === 2) return closeThrough(panel, dart, cut) ?? panel;
  return swallow(panel, dart, cut) ?? panel;
}

/**
 * Close in one panel the darts that are to be swallowed by the panel lines through them. A dart that runs right through the panel
 * is closed by turning the smaller part about its point; one that a line runs along is taken away beside the line; of one that only
 * ends in the panel, the end is eased in or stays. Uncut edges keep their lengths, curves stay curves.
 */
export function closeDarts(panel: OpenPanel): OpenPanel {
  const wanted = panel.darts.filter((d) => d.close !== null).length;
  let closed = panel;
  // A dart may be turned by the closing of another one before it: the next is looked up anew.
  for (let i = 0, at = 0; i < wanted; i += 1) {
    at = closed.darts.findIndex((d, k) => k >= at && d.close !== null);
    if (at < 0) return closed;
    const before = closed.darts.length;
    closed = closeOne(closed, closed.darts[at]!);
    if (closed.darts.length === before) at += 1;
  }
  return closed;
}

import { sweptArea } from './area';
import { contractEdges, type Settled } from './contractEdges';
import { cutEdge, type CutEdge } from './cutEdges';
import { indexCurves } from './curveIndex';
import { chordsOf, refineNearChords, type ChordedPath, type DrawnPath } from './drawnPath';
import { traceFaces, windingNumbers, type TracedFaces } from './faces';
import { joinEnds } from './joinEnds';
import { looseEndsOf } from './looseEnds';
import { mergeEdges } from './mergeEdges';
import { nodePolylines, type Noded, type NodedEdge } from './noding';
import { isClosed, pathLength } from './path';
import { pruneLoose } from './pruneLoose';
import { refineNodes } from './refineNodes';
import { settleTouches } from './settleTouches';
import { findTinyEdges, withMergedNodes } from './tinyEdges';
import { numberNodes, zipSlivers } from './zipSlivers';
import type {
  HalfEdge,
  SourcePath,
  SubdivideOptions,
  Subdivision,
  SubdivisionEdge,
  SubdivisionFace,
} from './subdivision';
import { FARTHEST_DRAWN, JOIN_GAP } from './tolerances';
import type { Curve, Path, Ring } from './types';

/**
 * Cut the inside of a ring by open or closed lines into faces.
 *
 * In this order: line ends are drawn on to what they nearly meet; everything is replaced by chords (finer ones where curves run near
 * each other) and split where it meets; what hangs in the open or lies outside is taken away; faces are traced; then nodes are
 * put where the true curves meet and edges are cut from the true curves, so rings close exactly and the
 * faces' areas add up to the outline's. Which side is which is decided on the chords by exact predicates.
 *
 * The start of the outline, and of a closed line, is always a node, so no edge runs through it and an edge's source
 * runs backwards exactly when `start` comes after `end`. An edge along the outline may span several of its curves.
 * Points and lines closer than SAME_POINT become one; a sliver thinner than THINNEST_FACE is no face.
 * Never throws on finite input; a path that reaches beyond FARTHEST_DRAWN counts as not drawn.
 *
 * @param outline simple ring, signedArea > 0; it is never bent to fit a line
 * @param lines   paths, mm; parts outside the outline are ignored
 */
export function subdivide(
  outline: Ring,
  lines: readonly Path[],
  options: SubdivideOptions = {},
): Subdivision {
  const gap = options.joinGap ?? JOIN_GAP;
  const plain = [
    drawnAs({ kind: 'outline' }, outline),
    ...lines.map((path, line) => drawnAs({ kind: 'line', line }, path)),
  ].map(chordsOf);
  const index = indexCurves(plain);
  const joined = joinEnds(plain, index, gap).map((d, i) => (d === plain[i]!.drawn ? plain[i]! : chordsOf(d)));
  const all = refineNearChords(joined);
  const noded = nodePolylines(all);
  const isInside = insideOf(noded);
  const { kept, loose } = pruneLoose(noded, gap);
  const inside = keepInside(noded, kept, isInside, all);
  const whole = { noded: inside, traced: traceFaces(inside.nodes.length, inside.edges) };
  const zipped = zipSlivers(whole, (edges) => ringStarts(edges, all), all);
  const settled = settleTouches(zipped, all);
  const { cuts, edges, nodes, traced } = cutTrue(settled, all);
  return {
    nodes,
    edges: edges.map((e, i) => finished(e, cuts[i]!, i, traced)),
    faces: facesOf(traced, cuts),
    looseEnds: looseEndsOf(
      loose.filter((l) => isInside[l.edge]),
      all,
      plain,
      index,
    ),
    ...linesOf(edges, traced, all),
  };
}

interface Cut extends Noded {
  readonly traced: TracedFaces;
  readonly cuts: readonly CutEdge[];
}

/** Put the nodes on the true curves, join those that meet there, and cut the edges. */
function cutTrue(settled: Settled, all: readonly ChordedPath[]): Cut {
  const { noded, traced } = settled;
  const refined = refineNodes(noded.nodes, noded.edges, all);
  const tiny = findTinyEdges(noded, traced.faces, refined);
  if (tiny.gone.size === 0) {
    const cuts = noded.edges.map((e) => cutEdge(e, refined, all));
    return { nodes: refined.points, edges: noded.edges, traced, cuts };
  }
  const merged = withMergedNodes(refined, tiny);
  const cuts = noded.edges.flatMap((e, i) => (tiny.gone.has(i) ? [] : [cutEdge(e, merged, all)]));
  const left = contractEdges({ noded: { nodes: merged.points, edges: noded.edges }, traced }, tiny);
  return { ...left.noded, traced: left.traced, cuts };
}

const drawnAs = (source: SourcePath, path: Path): DrawnPath => ({
  source,
  path: path.every(isWithinReach) ? path : [],
  closed: source.kind === 'outline' || isClosed(path),
  added: 0,
  count: path.length,
});

const isWithinReach = (c: Curve): boolean =>
  c.every(([x, y]) => Math.abs(x) <= FARTHEST_DRAWN && Math.abs(y) <= FARTHEST_DRAWN);

/** For each edge whether it lies inside the outline or along it. */
function insideOf({ nodes, edges }: Noded): readonly boolean[] {
  const traced = traceFaces(nodes.length, edges);
  const winding = windingNumbers(traced, edges.map(outlineWeight));
  const isInside = (face: number | null): boolean => face !== null && winding[face] !== 0;
  return edges.map((_, i) => isInside(traced.forwardFace[i]!) || isInside(traced.backwardFace[i]!));
}

/** Leave out edges that were pruned or lie outside the outline, join what then runs through, and number the nodes anew. */
function keepInside(
  noded: Noded,
  kept: readonly boolean[],
  isInside: readonly boolean[],
  all: readonly ChordedPath[],
): Noded {
  const inside = noded.edges.filter((_, i) => kept[i] && isInside[i]);
  const merged = mergeEdges(inside, ringStarts(inside, all));
  return numberNodes({ nodes: noded.nodes, edges: merged });
}

/** How often the outline runs along an edge forwards, less how often backwards. */
const outlineWeight = (e: NodedEdge): number =>
  e.sources.reduce((sum, s) => (s.polyline === 0 ? sum + Math.sign(s.end - s.start) : sum), 0);

/** Nodes at which the outline or a closed line starts. */
function ringStarts(edges: readonly NodedEdge[], all: readonly ChordedPath[]): ReadonlySet<number> {
  const starts = new Set<number>();
  for (const { from, to, sources } of edges) {
    for (const { polyline, start, end } of sources) {
      if (!all[polyline]!.closed) continue;
      if (start === 0 || start === all[polyline]!.points.length) starts.add(from);
      if (end === 0 || end === all[polyline]!.points.length) starts.add(to);
    }
  }
  return starts;
}

const finished = (e: NodedEdge, cut: CutEdge, i: number, traced: TracedFaces): SubdivisionEdge => ({
  from: e.from,
  to: e.to,
  curves: cut.curves,
  length: pathLength(cut.curves),
  sources: cut.sources,
  forwardFace: traced.forwardFace[i]!,
  backwardFace: traced.backwardFace[i]!,
});

function facesOf(traced: TracedFaces, cuts: readonly CutEdge[]): readonly SubdivisionFace[] {
  const origin = cuts[0]?.curves[0]?.[0] ?? [0, 0];
  const swept = cuts.map((c) => sweptArea(c.curves, origin));
  const areaOf = (ring: readonly HalfEdge[]): number =>
    ring.reduce((sum, { edge, forward }) => sum + (forward ? swept[edge]! : -swept[edge]!), 0);
  return traced.faces.map(({ ring, holes }) => ({
    ring,
    holes,
    area: areaOf(ring) + holes.reduce((sum, h) => sum + areaOf(h), 0),
  }));
}

/** Which edges lie on each line, and which lines divide nothing. */
function linesOf(
  edges: readonly NodedEdge[],
  { forwardFace, backwardFace }: TracedFaces,
  all: readonly ChordedPath[],
): Pick<Subdivision, 'lineEdges' | 'idleLines'> {
  const along: { half: HalfEdge; place: number; divides: boolean }[][] = all.slice(1).map(() => []);
  edges.forEach((e, edge) => {
    if (forwardFace[edge] === null || backwardFace[edge] === null) return;
    const divides = forwardFace[edge] !== backwardFace[edge];
    e.sources.forEach(({ polyline, start, end }, i) => {
      if (polyline === 0 || e.sources.findIndex((s) => s.polyline === polyline) !== i) return;
      along[polyline - 1]!.push({
        half: { edge, forward: end > start },
        place: Math.min(start, end),
        divides,
      });
    });
  });
  for (const stretches of along) stretches.sort((a, b) => a.place - b.place);
  return {
    lineEdges: along.map((stretches) => stretches.map((s) => s.half)),
    idleLines: along.flatMap((stretches, line) => (stretches.some((s) => s.divides) ? [] : [line])),
  };
}

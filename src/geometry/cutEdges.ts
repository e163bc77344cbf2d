import { withEnds } from './curve';
import { inputRef, type ChordedPath } from './drawnPath';
import type { NodedEdge, StretchSource } from './noding';
import { subPath } from './path';
import type { RefinedNodes } from './refineNodes';
import type { EdgeSource } from './subdivision';
import type { Curve, CurveRef, Path, Pt } from './types';

/** An edge's true geometry and where it comes from. */
export interface CutEdge {
  readonly curves: Path;
  readonly sources: readonly EdgeSource[];
}

/** Cut an edge out of the path of its first source, its ends put exactly on the nodes. */
export function cutEdge(edge: NodedEdge, nodes: RefinedNodes, all: readonly ChordedPath[]): CutEdge {
  const refsOf = (s: StretchSource): { start: CurveRef; end: CurveRef } => {
    const { drawn, closed } = all[s.polyline]!;
    const start = nodes.refAt(edge.from, s.polyline, s.start);
    const end = nodes.refAt(edge.to, s.polyline, s.end);
    const forward = s.end > s.start;
    // A joint may be named on either of its curves: take the one that the stretch lies on.
    return {
      start: joint(drawn.path, start, forward ? 1 : -1, closed, s.start),
      end: joint(drawn.path, end, forward ? -1 : 1, closed, s.end),
    };
  };
  const first = refsOf(edge.sources[0]!);
  const [a, b] = [nodes.points[edge.from]!, nodes.points[edge.to]!];
  const curves = stretch(all[edge.sources[0]!.polyline]!.drawn.path, first.start, first.end, a, b);
  const isNew = (s: StretchSource, i: number): boolean =>
    edge.sources.findIndex((r) => r.polyline === s.polyline) === i;
  const sources = edge.sources.filter(isNew).map((s): EdgeSource => {
    const { drawn } = all[s.polyline]!;
    const { start, end } = refsOf(s);
    return { path: drawn.source, start: inputRef(drawn, start), end: inputRef(drawn, end) };
  });
  return { curves, sources: sources.toSorted((r, s) => rank(r) - rank(s)) };
}

/** The outline before the lines, those by number. */
const rank = ({ path }: EdgeSource): number => (path.kind === 'outline' ? -1 : path.line);

/** Name a place at a joint on the curve after it (way 1) or before it (way -1); a ring's start by the noding place. */
function joint(path: Path, ref: CurveRef, way: 1 | -1, closed: boolean, place: number): CurveRef {
  if (closed && isRingStart(path, ref))
    return place === 0 ? { index: 0, t: 0 } : { index: path.length - 1, t: 1 };
  if (way === 1 && ref.t === 1 && ref.index + 1 < path.length) return { index: ref.index + 1, t: 0 };
  if (way === -1 && ref.t === 0 && ref.index > 0) return { index: ref.index - 1, t: 1 };
  return ref;
}

const isRingStart = (path: Path, { index, t }: CurveRef): boolean =>
  (index === 0 && t === 0) || (index === path.length - 1 && t === 1);

/** The stretch of a path with its ends on a and b; a straight one where nothing of the path is left in between. */
function stretch(path: Path, start: CurveRef, end: CurveRef, a: Pt, b: Pt): Path {
  const isForward = start.index < end.index || (start.index === end.index && start.t < end.t);
  const cut = isForward ? subPath(path, start, end) : [];
  if (cut.length === 0) return [[a, b]];
  const out: Curve[] = [...cut];
  out[0] = withEnds(out[0]!, a, out[0]!.at(-1)!);
  out[out.length - 1] = withEnds(out.at(-1)!, out.at(-1)![0], b);
  return out;
}

import {
  LIES_ON,
  type Path,
  type Pt,
  endOf,
  nearestOnPath,
  pathLength,
  refAtLength,
  startOf,
  subPath,
} from '../geometry';
import type { LaidLine, LineRun, PanelId, PanelledPiece, SeamId, Stretch } from '../panels';
import type { Trim } from '../pattern';
import { edgesAt } from './edgesAt';
import { freeStrips } from './freeStrips';
import { type SewnOrder, type StripEnd, type TrimStrip, endsOf } from './trimStrip';
import { type Span, spansOn } from './trimRange';

/** Shorter than this there is nothing to lay, mm. */
const SHORTEST = 1;

/** A stretch that is covered, or the part of it that is. Nodes are null where it is covered in part only. */
interface Covered {
  readonly stretch: Stretch;
  readonly path: Path;
  readonly from: number | null;
  readonly to: number | null;
}

/** Seams other than `own` that pass through a junction: sewn there on both sides. */
export function passingAt(piece: PanelledPiece, node: number, { runOf }: SewnOrder): readonly SeamId[] {
  const meeting = piece.runs.flatMap(({ line, stretches }) =>
    stretches.filter((s) => s.from === node || s.to === node).map((s) => ({ line, seam: s.seam })),
  );
  return meeting
    .filter(({ line, seam }, i) =>
      meeting.some((m, j) => i !== j && (m.line === line || runOf(m.seam) === runOf(seam))),
    )
    .map(({ seam }) => seam);
}

/** Whether a seam that is sewn after all of these runs across at a junction, and so catches what ends there. */
const isCaughtAt = (piece: PanelledPiece, node: number, own: readonly SeamId[], order: SewnOrder): boolean =>
  passingAt(piece, node, order).some((x) => own.every((o) => o !== x && order.isBefore(o, x)));

/** How far along its line a run begins, mm; told by its first stretch's middle, which no other part of the line comes near. */
function startAlong({ line, stretches }: LineRun, total: number): number {
  const { path } = stretches[0]!;
  const half = pathLength(path) / 2;
  const near = nearestOnPath(line.path, subPathPoint(path, half));
  const along = line.path.slice(0, near.index).reduce((sum, c) => sum + pathLength([c]), 0);
  const within = pathLength(subPath([line.path[near.index]!], { index: 0, t: 0 }, { index: 0, t: near.t }));
  return (((along + within - half) % total) + total) % total;
}

const subPathPoint = (path: Path, along: number): Pt => {
  const part = subPath(path, { index: 0, t: 0 }, refAtLength(path, along));
  return part.length > 0 ? endOf(part) : startOf(path);
};

/** What a span leaves of a stretch that begins at `start`, mm along the line; ends near a junction are put on it. */
function clipped(stretch: Stretch, start: number, [u, v]: Span): Covered | null {
  const length = pathLength(stretch.path);
  const a = u <= start + LIES_ON ? 0 : u - start;
  const b = v >= start + length - LIES_ON ? length : v - start;
  if (b - a < Math.min(SHORTEST, length)) return null;
  const from = a === 0 ? stretch.from : null;
  const to = b === length ? stretch.to : null;
  const path =
    from !== null && to !== null
      ? stretch.path
      : subPath(stretch.path, refAtLength(stretch.path, a), refAtLength(stretch.path, b));
  return { stretch, path, from, to };
}

/** The parts of a run that a trim covers, connected ones together. */
function coveredParts(run: LineRun, { from, to }: { from: number; to: number }): Covered[][] {
  const { stretches } = run;
  const whole = stretches.map((s): Covered => ({ stretch: s, path: s.path, from: s.from, to: s.to }));
  if (from <= 0 && to >= 1) return [whole];
  const total = pathLength(run.line.path);
  const first = startAlong(run, total);
  const parts: Covered[][] = [];
  // a ring's run may begin anywhere on its line, so spans count a full turn later as well
  for (const [u, v] of spansOn(run.line, total, { from, to }).flatMap(([a, b]): Span[] => [
    [a, b],
    [a + total, b + total],
  ])) {
    let start = first;
    let open: Covered[] = [];
    for (const stretch of stretches) {
      const part = clipped(stretch, start, [u, v]);
      if (part && part.from !== null && open.at(-1)?.to === part.from) open.push(part);
      else if (part) parts.push((open = [part]));
      start += pathLength(stretch.path);
    }
  }
  const [firstPart, lastPart] = [parts[0], parts.at(-1)];
  const meets = lastPart?.at(-1)!.to ?? null;
  if (firstPart && lastPart && firstPart !== lastPart && meets !== null && meets === firstPart[0]!.from)
    return [[...lastPart, ...firstPart], ...parts.slice(1, -1)]; // a ring's start lies in the middle of it
  return parts;
}

/** What one strip covers. */
interface Part {
  readonly parts: readonly Covered[];
  readonly isClosed: boolean;
}

/** Part what is covered at junctions where a seam sewn later runs across; a ring is then opened at one of them. */
function partedAtSeams(covered: readonly Covered[], piece: PanelledPiece, order: SewnOrder): Part[] {
  const isParted = (before: Covered, after: Covered): boolean =>
    after.from !== null && isCaughtAt(piece, after.from, [before.stretch.seam, after.stretch.seam], order);
  const isRing = covered[0]!.from !== null && covered[0]!.from === covered.at(-1)!.to;
  const cuts = covered.flatMap((c, i) => ((i > 0 || isRing) && isParted(covered.at(i - 1)!, c) ? [i] : []));
  if (cuts.length === 0) return [{ parts: covered, isClosed: isRing }];
  const turned = isRing ? [...covered.slice(cuts[0]), ...covered.slice(0, cuts[0])] : [...covered];
  const marks = isRing ? cuts.slice(1).map((c) => c - cuts[0]!) : cuts;
  return [0, ...marks].map((from, i) => ({
    parts: turned.slice(from, marks[i] ?? turned.length),
    isClosed: false,
  }));
}

function stripOn(
  line: LaidLine,
  trim: Trim,
  { parts, isClosed }: Part,
  piece: PanelledPiece,
  key: string,
): TrimStrip {
  const path = parts.flatMap((p) => p.path);
  const nodes = [parts[0]!.from, parts.at(-1)!.to] as const;
  const where = (node: number | null, at: Pt): Pick<StripEnd, 'node' | 'edges'> => ({
    node,
    edges: node !== null && piece.outlineNodes.has(node) ? edgesAt(piece, at, LIES_ON) : [],
  });
  const stretches = parts.map((p) => p.stretch);
  return {
    key,
    trim,
    piece: piece.whole.piece.id,
    line: line.line,
    label: line.label,
    path,
    isClosed,
    ends: endsOf(path, [where(nodes[0], startOf(path)), where(nodes[1], endOf(path))]),
    stretches,
    seams: [...new Set(stretches.map((s) => s.seam))],
    panels: [...new Set(stretches.flatMap((s): PanelId[] => [s.a, s.b]))],
  };
}

/** The strips of one trim on one piece, in order along their lines. */
function stripsOf(trim: Trim, piece: PanelledPiece, order: SewnOrder): readonly TrimStrip[] {
  const { on } = trim;
  if (on.kind === 'path') return on.piece === piece.whole.piece.id ? freeStrips(piece, trim) : [];
  const counts = new Map<LaidLine, number>();
  return piece.runs
    .filter((r) => r.line.line === on.line && r.stretches.length > 0)
    .flatMap((run) =>
      coveredParts(run, on)
        .flatMap((parts) => partedAtSeams(parts, piece, order))
        .map((part) => {
          const nth = (counts.get(run.line) ?? 0) + 1;
          counts.set(run.line, nth);
          const side = run.line.mirrored ? ' mirrored' : '';
          const key = `trim ${trim.id}${side}${nth > 1 ? ` #${nth}` : ''}`;
          return stripOn(run.line, trim, part, piece, key);
        }),
    );
}

/**
 * Every strip of trim on a piece: each line's run parted where a seam sewn later crosses it, for that seam catches its ends.
 * A trim whose line divides nothing has none.
 */
export const trimStrips = (
  piece: PanelledPiece,
  trims: readonly Trim[],
  order: SewnOrder,
): readonly TrimStrip[] => trims.flatMap((trim) => stripsOf(trim, piece, order));

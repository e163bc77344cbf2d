import {
  JOIN_GAP,
  type Line,
  type Path,
  type Ring,
  applyMatrix,
  curveLength,
  distance,
  mirrorAcross,
  nearestOnPath,
  offsetRing,
  pathBox,
  signedArea,
} from '../geometry';
import { mirroredDart } from './darts/dartShape';
import { withoutWedges } from './darts/dartWedge';
import { legProblems } from './darts/legProblems';
import { mouthLengthOn, placeDart } from './darts/placeDart';
import type { Dart, DartShape, Level, Notch, Piece, TracingKind } from './design';
import { type Included, includedWidth } from './includedWidth';
import { halfWithoutFold, mirroredHalf } from './halfToWhole';
import { isCorner, nameCurves, proposedNames } from './outlineEdges';
import { type Problem, problem } from './problem';
import type { OutlineEdge, PlacedDart, WholePiece } from './wholePiece';

interface EdgeCurve {
  readonly curve: Path[number];
  readonly plainName: string;
  readonly isNamed: boolean;
  /** By shape and place, where nobody named it. */
  readonly proposed: string | null;
  readonly mirrored: boolean;
  readonly edge: number;
}

/** Hems are recognised by their traced name. */
const isHemName = (name: string): boolean => /\bhem\b/.test(name.toLowerCase());

/** Unfold the outline and give each curve its edge. */
function wholeCurves(piece: Piece): { curves: readonly EdgeCurve[]; problems: readonly Problem[] } {
  const traced = piece.fold ? halfWithoutFold(piece.outline, piece.fold) : piece.outline;
  const { curves, problems } = nameCurves(traced, piece.edgeNames, piece.name);
  const proposed = proposedNames(piece, curves);
  const half = curves.map(({ curve, name, edge }): EdgeCurve => ({
    curve,
    plainName: name ?? '',
    isNamed: name !== null,
    proposed: proposed[edge]!,
    mirrored: false,
    edge,
  }));
  if (!piece.fold) return { curves: half, problems };
  const image = mirroredHalf(
    half.map((c) => c.curve),
    piece.fold,
  );
  const mirrored = image.map((curve, i): EdgeCurve => ({
    ...half[half.length - 1 - i]!,
    curve,
    mirrored: true,
  }));
  return { curves: [...half, ...mirrored], problems };
}

/** Whether an edge ends between two neighbouring curves. Over the fold an edge goes on when there is no corner. */
function edgeEnds(a: EdgeCurve, b: EdgeCurve): boolean {
  if (a.edge !== b.edge) return true;
  return a.mirrored !== b.mirrored && (!a.isNamed || !isHemName(a.plainName)) && isCorner(a.curve, b.curve);
}

/** Turn the ring so that it starts where an edge starts. */
function fromEdgeStart(curves: readonly EdgeCurve[]): readonly EdgeCurve[] {
  const first = curves.findIndex((c, i) => edgeEnds(curves.at(i - 1)!, c));
  return first <= 0 ? curves : [...curves.slice(first), ...curves.slice(0, first)];
}

/** Edges without a traced name are numbered round the ring; an image has the number of its original. */
function numberUnnamed(curves: readonly EdgeCurve[]): readonly EdgeCurve[] {
  const unnamed = [...new Set(curves.filter((c) => !c.isNamed).map((c) => c.edge))];
  return curves.map((c) => (c.isNamed ? c : { ...c, plainName: `edge ${unnamed.indexOf(c.edge) + 1}` }));
}

function gatherEdges(
  curves: readonly EdgeCurve[],
  darts: readonly PlacedDart[],
  included: Included | null,
): OutlineEdge[] {
  const starts = curves.flatMap((c, i) => (i === 0 || edgeEnds(curves[i - 1]!, c) ? [i] : []));
  return starts.map((first, k): OutlineEdge => {
    const last = (starts[k + 1] ?? curves.length) - 1;
    const own = curves.slice(first, last + 1);
    const { isNamed, proposed, plainName: numbered } = own[0]!;
    const plainName = proposed ?? numbered;
    const mirrored = own.every((c) => c.mirrored);
    const path = own.map((c) => c.curve);
    const mouths = darts.reduce((sum, d) => sum + mouthLengthOn(path, d), 0);
    return {
      name: mirrored ? `${plainName}, mirrored` : plainName,
      plainName,
      mirrored,
      naming: isNamed ? 'traced' : proposed ? 'proposed' : 'numbered',
      numbered: isNamed ? null : numbered,
      isHem: isHemName(numbered),
      included: included && includedHere(included, own[0]!),
      first,
      last,
      length: path.reduce((sum, c) => sum + curveLength(c), 0) - mouths,
    };
  });
}

/**
 * Stitching outline and the outline curve each of its curves came from: every curve moved in by what its edge includes. A problem when
 * the allowance swallows the piece.
 */
function stitchingOutline(
  curves: readonly EdgeCurve[],
  included: Included | null,
  piece: string,
): { ring: Ring; origins: readonly number[]; problems: readonly Problem[] } {
  const outline = curves.map((c) => c.curve);
  const whole = { ring: outline, origins: outline.map((_, i) => i), problems: [] };
  const widths = curves.map((c) => included && includedHere(included, c)).map((w) => w ?? 0);
  if (widths.every((w) => w === 0)) return whole;
  const inset = offsetRing(
    outline,
    widths.map((w) => -w),
  )[0];
  if (!inset) {
    const at = outline[0]![0];
    const facts = { piece, included: Math.max(...widths) };
    return { ...whole, problems: [problem('allowance-swallows-piece', facts, piece, at)] };
  }
  return { ...inset, problems: [] };
}

/** Settings may be kept under the number an edge had before it got its proposed name. A proposed hem is no reason to move a traced line. */
function includedHere(included: Included, { plainName, proposed }: EdgeCurve): number {
  const keys = proposed === null ? [plainName] : [proposed, plainName];
  return includedWidth(included, keys, isHemName(plainName));
}

/** A dart without what is done with it. */
const shapeOf = ({ treatment: _, ...shape }: Dart): DartShape => shape;

/** Darts with their mirror images; one lying on the fold (its own image) is kept once. */
function wholeDarts(piece: Piece, stitching: Ring): { darts: PlacedDart[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const darts = piece.darts.flatMap((drawn, traced): PlacedDart[] => {
    const { dart, gap, at } = placeDart(shapeOf(drawn), stitching);
    if (gap > JOIN_GAP) problems.push(problem('dart-mouth-off-edge', { gap }, piece.name, at));
    problems.push(...legProblems(dart, piece.name));
    const close = drawn.treatment.kind === 'close' ? drawn.treatment.remainder : null;
    const own: PlacedDart = { ...dart, mirrored: false, traced, close };
    return piece.fold ? [own, { ...mirroredDart(dart, piece.fold), mirrored: true, traced, close }] : [own];
  });
  return { darts, problems };
}

function wholeNotches(piece: Piece): { notches: Notch[]; problems: Problem[] } {
  const near = piece.notches.map((n) => ({ n, gap: nearestOnPath(piece.outline, n.at).distance }));
  const problems = near
    .filter(({ gap }) => gap > JOIN_GAP)
    .map(({ n, gap }) => problem('notch-off-outline', { gap }, piece.name, n.at));
  const kept = near.filter(({ gap }) => gap <= JOIN_GAP).map(({ n }) => n);
  if (!piece.fold) return { notches: kept, problems };
  const m = mirrorAcross(piece.fold);
  const images = kept
    .filter((n) => distance(n.at, applyMatrix(m, n.at)) > JOIN_GAP)
    .map((n): Notch => ({ at: applyMatrix(m, n.at), inner: applyMatrix(m, n.inner) }));
  return { notches: [...kept, ...images], problems };
}

/** A level on a half piece reaches over the whole one: the two farthest of its ends and their images. */
function wholeLevel(level: Level, fold: Line | null): Level {
  if (!fold) return level;
  const m = mirrorAcross(fold);
  const ends = [...level.line, ...level.line.map((p) => applyMatrix(m, p))];
  let line = level.line;
  for (const a of ends) for (const b of ends) if (distance(a, b) > distance(...line)) line = [a, b];
  return { name: level.name, line: line[0][0] <= line[1][0] ? line : [line[1], line[0]] };
}

/** Traced grain; else along the fold; else straight down through the middle of the piece. */
function grainOf(piece: Piece, outline: Ring): Line {
  if (piece.grain) return piece.grain;
  if (piece.fold) return piece.fold[0][1] <= piece.fold[1][1] ? piece.fold : [piece.fold[1], piece.fold[0]];
  const box = pathBox(outline);
  const x = (box.minX + box.maxX) / 2;
  return [
    [x, box.minY],
    [x, box.maxY],
  ];
}

/** A cut tracing with the same width all round, hems too. */
const includedByAll = (tracing: TracingKind): Included | null =>
  tracing.kind === 'net'
    ? null
    : { general: tracing.included, hem: tracing.included, edges: [], answers: [] };

/**
 * Open a traced piece out into the whole piece that panel lines are drawn on.
 * Never throws on a drawing: what does not fit is left out and told as a problem.
 * @param tracing what its outline includes, or null for a stitching line; a kind of tracing means the same width all round
 */
export function openOut(
  piece: Piece,
  tracing: TracingKind | Included | null,
): { whole: WholePiece; problems: readonly Problem[] } {
  const included = tracing && 'kind' in tracing ? includedByAll(tracing) : tracing;
  const named = wholeCurves(piece);
  const curves = numberUnnamed(fromEdgeStart(named.curves));
  const outline = curves.map((c) => c.curve);
  const stitch = stitchingOutline(curves, included, piece.name);
  const { darts, problems: dartProblems } = wholeDarts(piece, stitch.ring);
  const { notches, problems: notchProblems } = wholeNotches(piece);
  // An inset ring may start anywhere: it is turned like the outline.
  const sewn = fromEdgeStart(
    stitch.ring.map((curve, i): EdgeCurve => ({ ...curves[stitch.origins[i]!]!, curve })),
  );
  const whole: WholePiece = {
    piece,
    name: piece.name,
    unfolded: piece.fold !== null,
    outline,
    stitching: sewn.map((c) => c.curve),
    edges: gatherEdges(sewn, darts, included),
    edgeOf: edgeNumbers(sewn),
    foldLine: piece.fold,
    darts,
    notches,
    levels: piece.levels.map((l) => wholeLevel(l, piece.fold)),
    grain: grainOf(piece, outline),
    area: signedArea(stitch.ring) - withoutWedges(stitch.ring, darts).wedgeArea,
  };
  const assumed = piece.grain
    ? []
    : [problem('grain-assumed', { piece: piece.name }, piece.name, whole.grain[0])];
  return {
    whole,
    problems: [...named.problems, ...stitch.problems, ...dartProblems, ...notchProblems, ...assumed],
  };
}

function edgeNumbers(curves: readonly EdgeCurve[]): number[] {
  let edge = -1;
  return curves.map((c, i) => {
    if (i === 0 || edgeEnds(curves[i - 1]!, c)) edge += 1;
    return edge;
  });
}

import { type Ring, curveLength, signedArea } from '../geometry';
import { withoutWedges } from './darts/dartWedge';
import { mouthLengthOn } from './darts/placeDart';
import { keepingStill, soundDarts, unsoundAsTraced } from './darts/soundDarts';
import { type SwungShape, isFold, swingOutline, swungPiece, swungStitching } from './darts/swingPiece';
import { withCaps, withSwungCaps } from './darts/wholeCaps';
import type { Piece, TracingKind } from './design';
import { type EdgeCurve, edgeEnds, edgeNumbers, fromEdgeStart, isHemName, opened } from './edgeCurves';
import { type Included, includedWidth } from './includedWidth';
import { type Problem, problem } from './problem';
import { stitchingLine } from './stitchingLine';
import { grainOf, wholeLevel, wholeNotches } from './wholeMarks';
import type { OutlineEdge, PlacedDart, WholePiece } from './wholePiece';

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
  const widths = curves.map((c) => (included ? includedHere(included, c) : 0));
  const found = stitchingLine(outline, widths);
  if (found) return { ...found, problems: [] };
  const facts = { piece, included: Math.max(...widths) };
  return {
    ring: outline,
    origins: outline.map((_, i) => i),
    problems: [problem('allowance-swallows-piece', facts, piece, outline[0]![0])],
  };
}

/** Settings may be kept under the number an edge had before it got its proposed name. A proposed hem is no reason to move a traced line. */
function includedHere(included: Included, { plainName, proposed }: EdgeCurve): number {
  const keys = proposed === null ? [plainName] : [proposed, plainName];
  return includedWidth(included, keys, isHemName(plainName));
}

/**
 * The stitching line of a cut tracing with swung darts: found inside the outline as it was traced, then swung like it, so that the legs of a dart
 * at its new place are equal where they are sewn. Null when nothing is left inside.
 */
function swungInside(
  piece: Piece,
  included: Included,
): { curves: readonly EdgeCurve[]; darts: readonly SwungShape[] } | null {
  const outline = swingOutline(piece);
  const widths = outline.map((c) => (isFold(c) ? 0 : includedHere(included, c.tag)));
  const found = stitchingLine(
    outline.map((c) => c.curve),
    widths,
  );
  if (!found) return null;
  const inner = found.ring.map((curve, i) => ({ curve, tag: outline[found.origins[i]!]!.tag }));
  const { curves, darts } = swungStitching(piece, inner);
  return { curves: fromEdgeStart(opened(curves, piece.fold)), darts };
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
  const unsound = unsoundAsTraced(piece);
  const swung = swungPiece(keepingStill(piece, unsound));
  const plain = fromEdgeStart(opened(swung.curves, piece.fold));
  const grain = grainOf(
    { ...piece, grain: swung.grain },
    plain.map((c) => c.curve),
  );
  const curves = included ? withSwungCaps(plain, piece, swung.darts, grain) : plain;
  const outline = curves.map((c) => c.curve);
  const inner = included && swung.turns.length > 0 ? swungInside(piece, included) : null;
  const stitch = inner
    ? { ...inner, ring: inner.curves.map((c) => c.curve), problems: [] }
    : stitchingOutline(curves, included, piece.name);
  const { darts, problems: dartProblems } = soundDarts(
    piece,
    (inner?.darts ?? swung.darts).filter((d) => !unsound.has(d.traced)),
    stitch.ring,
    unsound,
  );
  const { notches, problems: notchProblems } = wholeNotches({ ...piece, notches: swung.notches }, outline);
  // An inset ring may start anywhere: it is turned like the outline.
  const inside =
    'curves' in stitch
      ? withSwungCaps(stitch.curves, piece, stitch.darts, grain)
      : stitch.ring.map((curve, i): EdgeCurve => ({ ...curves[stitch.origins[i]!]!, curve }));
  const sewn = fromEdgeStart(included ? inside : withCaps(inside, piece, darts, grain));
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
    levels: swung.levels.map((l) => wholeLevel(l, piece.fold)),
    grain,
    area: signedArea(stitch.ring) - withoutWedges(stitch.ring, darts).wedgeArea,
  };
  const assumed = piece.grain
    ? []
    : [problem('grain-assumed', { piece: piece.name }, piece.name, whole.grain[0])];
  return {
    whole,
    problems: [
      ...swung.nameProblems,
      ...swung.problems,
      ...stitch.problems,
      ...dartProblems,
      ...notchProblems,
      ...assumed,
    ],
  };
}

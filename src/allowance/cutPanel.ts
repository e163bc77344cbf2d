import {
  type Line,
  type Ring,
  flattenForArea,
  pathLength,
  perpendicular,
  pointAtLength,
  signedArea,
} from '../geometry';
import type { Panel, PanelEdge, PanelId, PanelledPiece, Seam, SeamId } from '../panels';
import { type Allowances, type Problem, type WholePiece, problem, remember } from '../pattern';
import { type CutPiece, grainThrough } from './cutPiece';
import { type PanelCorners, type SewnAs, cornersOf } from './corners';
import { cuttingLines } from './cuttingLine';
import { innerCorners } from './innerCorners';
import { type SeamMarks, easedOn } from './marks';
import { type Markable, type SeamBook, garmentMarks, matchMarks } from './matchMarks';
import { allowanceOf } from './widths';

/** Degrees from +x towards +y, −180 < angle <= 180. */
function grainAngleOf([a, b]: Line): number {
  const angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  return angle === -180 ? 180 : angle;
}

/** What is eased in along one side of a seam, and along the other. */
function easeOf({ origin }: PanelEdge, seam: Seam | null): { ease: number; mateEase: number } {
  if (!seam || origin.kind !== 'seam') return { ease: 0, mateEase: 0 };
  const [a, b] = [easedOn(seam, 'a'), easedOn(seam, 'b')];
  return origin.forward ? { ease: a, mateEase: b } : { ease: b, mateEase: a };
}

function edgeLabel(edge: PanelEdge, panel: Panel, whole: WholePiece, allowances: Allowances, book: SeamBook) {
  const length = pathLength(edge.path);
  const { point, direction } = pointAtLength(edge.path, length / 2);
  const { origin } = edge;
  const seam = origin.kind === 'seam' ? book.seamById.get(origin.seam)! : null;
  return {
    at: point,
    inward: perpendicular(direction),
    length,
    allowance: allowanceOf(edge, whole, allowances),
    mate: seam ? (seam.a === panel.id ? seam.b : seam.a) : null,
    ...easeOf(edge, seam),
    edgeName: origin.kind === 'outline' ? whole.edges[origin.edge]!.name : null,
  };
}

/** What a panel's cut piece is made from, besides the panel and the widths. */
interface CutBook extends SeamBook {
  readonly corners: ReadonlyMap<PanelId, PanelCorners>;
}

function cutPanel(panel: Panel, whole: WholePiece, allowances: Allowances, book: CutBook): CutPiece {
  const { cutting, holes } = cuttingLines(panel, whole, allowances, book.corners.get(panel.id));
  return {
    panel: panel.id,
    stitching: panel.ring,
    cutting,
    holes,
    cutArea: signedArea(cutting) + holes.reduce((sum, h) => sum + signedArea(h), 0),
    cuttingPoints: flattenForArea(cutting),
    notches: matchMarks(panel, whole, allowances, book, [cutting, ...holes]),
    clips: innerCorners(panel),
    grain: grainThrough(panel.spot.at, panel.spot.radius, whole.grain),
    grainAngle: grainAngleOf(whole.grain),
    label: panel.spot,
    edgeLabels: [...panel.boundary, ...panel.holes.flat()].map((e, edge) => ({
      edge,
      ...edgeLabel(e, panel, whole, allowances, book),
    })),
  };
}

/** A cutting line that holds less than its stitching line is wrong, whatever the cause. */
function soundness(cut: CutPiece, panel: Panel): boolean {
  const stitched = signedArea(panel.ring) + panel.holeRings.reduce((sum, h) => sum + signedArea(h), 0);
  return cut.cutArea >= stitched * (1 - 1e-9);
}

export interface CutPieces {
  readonly cutPieces: readonly CutPiece[];
  /** Panels whose cutting line failed its check. */
  readonly unsound: readonly Panel[];
  /** Seams too short for any match mark. */
  readonly unmarked: readonly Seam[];
}

/** Everything besides its ring that a panel's cut piece depends on: where each stretch comes from and what it is sewn to. */
function originsOf(panel: Panel, { seamById, marks }: SeamBook): string {
  const origin = ({ origin: o, path }: PanelEdge): string => {
    if (o.kind === 'outline') return `edge ${o.edge} ${path.length}`;
    const { a, b, eased } = seamById.get(o.seam)!;
    const said = JSON.stringify([eased, marks.get(o.seam)]);
    return `seam ${o.seam} ${o.forward} ${a} ${b} ${path.length} ${said}`;
  };
  return [panel.boundary, ...panel.holes].map((ring) => ring.map(origin).join('; ')).join(' | ');
}

/** A panel's cut piece, kept while another line moves: `key` and the ring together say all that it depends on. */
const cutOnce = (() => {
  const byRing = remember(
    (
      _ring: Ring,
      _holes: readonly Ring[],
      _whole: WholePiece,
      _allowances: Allowances,
      _key: string,
    ): { cut?: CutPiece } => ({}),
  );
  return (panel: Panel, whole: WholePiece, allowances: Allowances, book: CutBook): CutPiece => {
    const key = `${panel.id} ${originsOf(panel, book)} ${book.corners.get(panel.id)}`;
    const known = byRing(panel.ring, panel.holeRings, whole, allowances, key);
    known.cut ??= cutPanel(panel, whole, allowances, book);
    return known.cut;
  };
})();

const cutWith = remember(
  (
    sliced: PanelledPiece,
    allowances: Allowances,
    marks: ReadonlyMap<SeamId, SeamMarks>,
    sewn: SewnAs | undefined,
  ): CutPieces => {
    const seamById = new Map(sliced.seams.map((s) => [s.id, s] as const));
    const corners = sewn ? cornersOf(sliced, allowances, sewn) : new Map<PanelId, PanelCorners>();
    const book: CutBook = { seamById, marks, corners };
    const cutPieces = sliced.panels.map((panel) => cutOnce(panel, sliced.whole, allowances, book));
    return {
      cutPieces,
      unsound: sliced.panels.filter((p, i) => !soundness(cutPieces[i]!, p)),
      unmarked: sliced.seams.filter((s) => marks.get(s.id)!.places.length === 0),
    };
  },
);

/** A sliced piece with the widths it is cut with, and when its seams and edges are sewn; without that all corners are mitred. */
export interface Cuttable extends Markable {
  readonly sewn?: SewnAs;
}

/** The cut pieces of sliced pieces, in the order of their panels; match marks are told apart over all of them. */
export function cutAllPieces(pieces: readonly Cuttable[]): readonly CutPieces[] {
  const marks = garmentMarks(pieces);
  return pieces.map(({ sliced, allowances, sewn }, i) => cutWith(sliced, allowances, marks[i]!, sewn));
}

/** The cut pieces of one sliced piece, in the order of its panels; colours and numbers play no part. */
export const cutPiecesOf = (sliced: PanelledPiece, allowances: Allowances, sewn?: SewnAs): CutPieces =>
  cutAllPieces([{ sliced, allowances, ...(sewn && { sewn }) }])[0]!;

/** What a person must be told of unsound cutting lines. */
export const unsoundProblems = (
  { unsound }: CutPieces,
  whole: WholePiece,
  numberOf: (p: Panel) => number,
): Problem[] =>
  unsound.map((p) => problem('cutting-line-unsound', { panel: numberOf(p) }, whole.name, p.spot.at));

/** What a person must be told of seams that no match mark fits on. */
export const unmarkedProblems = (
  { unmarked }: CutPieces,
  whole: WholePiece,
  numberOf: (panel: Pick<Panel, 'id'>) => number,
): Problem[] =>
  unmarked.map((seam) => {
    const length = Math.min(seam.lengthA, seam.lengthB);
    const [a, b] = [numberOf({ id: seam.a }), numberOf({ id: seam.b })];
    const { point } = pointAtLength(seam.path, pathLength(seam.path) / 2);
    return problem('seam-without-marks', { a, b, length }, whole.name, point);
  });

import { type PanelId, type PanelledPiece, type SeamId } from '../panels';
import { type Design, type PieceId, type Problem, type Trim, problem, remember } from '../pattern';
import { dartGroups } from './dartWords';
import { type Join, joinOrder } from './joinOrder';
import type { SewingPlan, Step } from './plan';
import { sayStep } from './sayStep';

/** A step before it has its number and its words. */
interface Draft extends Pick<Step, 'kind' | 'seams' | 'trim' | 'darts'> {
  readonly piece: PieceId;
  readonly left: readonly PanelId[];
  readonly right: readonly PanelId[];
  readonly join: Join | null;
  /** The dart or trim it is about, in words. */
  readonly what: string | null;
}

const fromJoin = (join: Join, { whole }: PanelledPiece): Draft => ({
  kind: join.kind,
  piece: whole.piece.id,
  left: join.left,
  right: join.right,
  seams: join.seams,
  trim: null,
  darts: [],
  what: null,
  join,
});

/** Darts of a panel, each sewn before the first seam the panel takes part in. */
function dartDrafts(panel: PanelId, piece: PanelledPiece): Draft[] {
  const { darts } = piece.panels.find((p) => p.id === panel)!;
  return dartGroups(darts, piece.whole).map(({ what, darts: own }): Draft => ({
    what,
    darts: own,
    kind: 'dart',
    piece: piece.whole.piece.id,
    left: [panel],
    right: [panel],
    seams: [],
    trim: null,
    join: null,
  }));
}

function trimDrafts(
  join: Join,
  isLastOfChain: boolean,
  trims: readonly Trim[],
  piece: PanelledPiece,
): Draft[] {
  if (!isLastOfChain) return [];
  const own = trims.filter((t) => join.chain.lines.some((l) => t.on.kind === 'line' && l.line === t.on.line));
  return own.map((t): Draft => ({
    kind: 'trim',
    piece: piece.whole.piece.id,
    left: [...join.left, ...join.right.filter((p) => !join.left.includes(p))],
    right: [],
    seams: [],
    trim: t.id,
    darts: [],
    what: t.name,
    join: null,
  }));
}

/** Joins of a piece with the darts before them and the trims after them; kept while only other pieces change. */
const draftsOf = remember((piece: PanelledPiece, trims: readonly Trim[]): readonly Draft[] => {
  const joins = joinOrder(piece);
  const touched = new Set<PanelId>();
  const drafts: Draft[] = [];
  const dartsOf = (panels: readonly PanelId[]): void => {
    for (const p of panels) {
      if (touched.has(p)) continue;
      touched.add(p);
      drafts.push(...dartDrafts(p, piece));
    }
  };
  joins.forEach((join, i) => {
    dartsOf([...join.left, ...join.right]);
    drafts.push(fromJoin(join, piece));
    const isLast = !joins.slice(i + 1).some((later) => later.chain === join.chain);
    drafts.push(...trimDrafts(join, isLast, trims, piece));
  });
  dartsOf(piece.panels.map((p) => p.id));
  return drafts;
});

/** Number panels as they first come to hand; panels no step needs follow, piece by piece. */
function numberPanels(
  pieces: readonly PanelledPiece[],
  drafts: ReadonlyMap<PanelledPiece, readonly Draft[]>,
): Map<PanelId, number> {
  const numbers = new Map<PanelId, number>();
  const take = (p: PanelId): void => {
    if (!numbers.has(p)) numbers.set(p, numbers.size + 1);
  };
  for (const piece of pieces) {
    for (const d of drafts.get(piece)!) [...d.left, ...d.right].forEach(take);
    piece.panels.forEach((p) => take(p.id));
  }
  return numbers;
}

/** The step that finishes, or began, the seam of a partial join. */
function partnerStep(drafts: readonly Draft[], index: number): number | null {
  const { join } = drafts[index]!;
  if (join?.kind !== 'partial seam') return null;
  const partner = drafts.findIndex(
    (d) => d.join?.kind === 'partial seam' && d.join !== join && d.join.chain === join.chain,
  );
  return partner < 0 ? null : partner + 1;
}

const inOrder = (panels: readonly PanelId[], numbers: ReadonlyMap<PanelId, number>): readonly PanelId[] =>
  [...panels].sort((p, q) => numbers.get(p)! - numbers.get(q)!);

/** Plan the sewing of all pieces: steps, panel numbers, and the warnings where a seam has to stay partly open. */
export function planSewing(
  pieces: readonly PanelledPiece[],
  { trims }: Pick<Design, 'trims'>,
): { plan: SewingPlan; problems: readonly Problem[] } {
  const byPiece = new Map(pieces.map((p) => [p, draftsOf(p, trims)] as const));
  const numbers = numberPanels(pieces, byPiece);
  const drafts = pieces.flatMap((p) => byPiece.get(p)!);
  const pieceOf = new Map(pieces.map((p) => [p.whole.piece.id, p] as const));
  const stepOfSeam = new Map<SeamId, number>();
  const problems: Problem[] = [];
  const steps = drafts.map((draft, i): Step => {
    const { kind, piece, seams, trim, darts, join } = draft;
    const joins = [inOrder(draft.left, numbers), inOrder(draft.right, numbers)] as const;
    for (const s of seams) if (!stepOfSeam.has(s)) stepOfSeam.set(s, i + 1);
    const { whole, nodePoints } = pieceOf.get(piece)!;
    if (join?.openAt != null) {
      problems.push(
        problem('partial-seam', { panel: numbers.get(joins[0][0]!)! }, whole.name, nodePoints[join.openAt]!),
      );
    }
    const text = sayStep({
      kind,
      piece: whole.name,
      isPair: whole.piece.cutting === 'pair',
      left: joins[0].map((p) => numbers.get(p)!),
      right: joins[1].map((p) => numbers.get(p)!),
      other: partnerStep(drafts, i),
      finishes: join?.finishes ?? false,
      what: draft.what,
      eases: pieceOf.get(piece)!.seams.some((s) => seams.includes(s.id) && s.eased.length > 0),
    });
    return {
      ...{
        step: i + 1,
        key: `${kind} ${i + 1}`,
        kind,
        piece,
        joins,
        seams,
        edges: [],
        trim,
        closing: null,
        darts,
      },
      ...{ corners: [], needs: [], text },
    };
  });
  return { plan: { steps, numbers, stepOfSeam, stepOfEdge: new Map() }, problems };
}

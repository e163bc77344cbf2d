import { boxOfPoints, boxesMeet, overlapArea } from '../geometry';
import { type Panel, type PanelId, type PanelledPiece, slicedPiece } from '../panels';
import { type Design, type NumberMark, type Piece, remember } from '../pattern';
import type { SewingPlan } from './plan';

/** Panels with their numbers, as they were before an edit. A garment has it. */
export interface Numbered {
  readonly design: Design;
  readonly pieces: readonly PanelledPiece[];
  readonly plan: Pick<SewingPlan, 'numbers'>;
}

/** Where every panel of a garment has its number. */
const marksOf = remember((garment: Numbered): readonly NumberMark[] =>
  garment.pieces.flatMap(({ whole, panels }) =>
    panels.map((p): NumberMark => ({
      piece: whole.piece.id,
      at: p.flat.at,
      number: garment.plan.numbers.get(p.id)!,
    })),
  ),
);

type Shape = Pick<Panel, 'id' | 'flat'>;

/** Which panel after an edit is which before it: those that share the most area first, each once. */
export function samePanels(after: readonly Shape[], before: readonly Shape[]): ReadonlyMap<PanelId, PanelId> {
  const pairs = after.flatMap((own) =>
    before
      .filter((old) => boxesMeet(boxOfPoints(own.flat.points), boxOfPoints(old.flat.points)))
      .map((old) => ({ own, old, area: overlapArea(own.flat.points, old.flat.points) })),
  );
  const found = new Map<PanelId, PanelId>();
  const taken = new Set<PanelId>();
  for (const { own, old, area } of pairs.sort((p, q) => q.area - p.area)) {
    if (area <= 0 || found.has(own.id) || taken.has(old.id)) continue;
    found.set(own.id, old.id);
    taken.add(old.id);
  }
  return found;
}

/** The marks of one piece after an edit: a panel has the number of the one it was. New panels have none. */
function marksAfter(piece: Piece, before: Numbered, after: Design): readonly NumberMark[] {
  const old = before.pieces.find((p) => p.whole.piece.id === piece.id);
  if (!old) return [];
  const own = slicedPiece(piece, after);
  const same = samePanels(own.panels, old.panels);
  return own.panels.flatMap((p): NumberMark[] => {
    const was = same.get(p.id);
    return was ? [{ piece: piece.id, at: p.flat.at, number: before.plan.numbers.get(was)! }] : [];
  });
}

const isSameList = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a === b || (a.length === b.length && a.every((v, i) => v === b[i]));

/** What the sewing order depends on besides lines and pieces: whoever drags a step or puts in a zip has numbered pieces before them already. */
const IN_ORDER = ['sewing', 'edgeJobs', 'closings', 'trims'] as const;

/** Whether an edit leaves panels as they are, or says itself what their numbers are. */
const isNothingToKeep = (before: Design, after: Design): boolean =>
  before.numbers !== after.numbers ||
  (isSameList(before.lines, after.lines) &&
    isSameList(before.pieces, after.pieces) &&
    IN_ORDER.every((key) => before[key] === after[key]));

/** A garment's design with the number of every panel written down. */
export const withNumbers = (garment: Numbered): Design => ({ ...garment.design, numbers: marksOf(garment) });

/**
 * An edited design in which every panel keeps the number it had; new ones have none yet. Where nothing changed that numbers depend on, the same design.
 * @param before the garment before the edit
 */
export function keepNumbers(before: Numbered, after: Design): Design {
  if (isNothingToKeep(before.design, after)) return after;
  const was = (piece: Piece): PanelledPiece | undefined =>
    before.design.pieces.includes(piece) ? slicedPiece(piece, before.design) : undefined;
  const marks = marksOf(before);
  return {
    ...after,
    numbers: after.pieces.flatMap((piece) =>
      was(piece) === slicedPiece(piece, after)
        ? marks.filter((m) => m.piece === piece.id)
        : marksAfter(piece, before, after),
    ),
  };
}

/** The same while something is being dragged: marks stay where they were, which costs nothing. */
export const numbersMeanwhile = (before: Numbered, after: Design): Design =>
  isNothingToKeep(before.design, after) ? after : { ...after, numbers: marksOf(before) };

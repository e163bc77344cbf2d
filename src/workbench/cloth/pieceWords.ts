import type { LaidPiece } from '../../fabric';
import { howToCut, type Garment } from '../../garment';
import type { Panel } from '../../panels';

/** What is said of a laid piece. */
export interface PieceWords {
  /** `7 side front` */
  readonly name: string;
  /** `cut once, right side up, wearer’s left` and what its lying asks for. */
  readonly how: readonly string[];
  /** The panel whose place in the garment it takes: of a mirrored copy the panel it is cut for. */
  readonly panel: Panel;
}

const lower = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);

const LAYERS: Readonly<Record<LaidPiece['cutFrom'], string | null>> = {
  single: null,
  both: 'cut together with its mirrored copy, through both layers',
  fold: 'its middle on the fold',
  upper: 'cut from the upper layer alone',
  lower: 'cut from the lower layer alone',
};

/** Name a piece as it lies; null where its panel is gone from the garment meanwhile. */
export function pieceWords(garment: Garment, laid: LaidPiece): PieceWords | null {
  const own = garment.panelById.get(laid.piece.panel);
  if (!own) return null;
  const { twin, text } = howToCut(garment, own);
  const number = laid.flipped ? twin : null;
  const panel =
    number === null ? own : (garment.panels.find((p) => garment.plan.numbers.get(p.id) === number) ?? own);
  const piece = garment.pieceById.get(panel.piece);
  const isPair = twin !== null || garment.pieceById.get(own.piece)?.whole.piece.cutting === 'pair';
  const how = [
    isPair ? (laid.flipped ? 'the mirrored one of a pair' : 'one of a pair') : lower(text),
    laid.flipped ? 'its paper lies printed side down' : null,
    LAYERS[laid.cutFrom],
    laid.offGrain > 0 ? `turned ${Math.round(laid.offGrain)}° off its grain` : null,
  ];
  return {
    name: `${laid.number} ${piece?.whole.name ?? ''}${number === null ? '' : ` (for ${number})`}`,
    how: how.filter((words) => words !== null),
    panel,
  };
}

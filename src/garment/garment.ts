import type { CutPiece } from '../allowance';
import type { Neighbours } from '../neighbours';
import type { PanelId, PanelledPiece, Panel, Seam, SeamId } from '../panels';
import type { Design, PieceId, Problem } from '../pattern';
import type { SewingPlan } from '../sewing';
import type { TrimRun } from '../trim';
import type { PlacedClosing } from './closings';

/** Everything derived from a design except the lay plans (they take time) and paper. */
export interface Garment {
  readonly design: Design;
  readonly pieces: readonly PanelledPiece[];
  /** In order of number. */
  readonly panels: readonly Panel[];
  readonly panelById: ReadonlyMap<PanelId, Panel>;
  readonly pieceById: ReadonlyMap<PieceId, PanelledPiece>;
  readonly seams: readonly Seam[];
  readonly seamById: ReadonlyMap<SeamId, Seam>;
  /** Same order as `panels`. */
  readonly cutPieces: readonly CutPiece[];
  readonly plan: SewingPlan;
  readonly trims: readonly TrimRun[];
  /** Zips in their seams. */
  readonly closings: readonly PlacedClosing[];
  /**
   * Lining and facings as a garment of their own, null where there are none. Its panels are among `panels`, `panelById`, `pieceById`,
   * `cutPieces` and the plan's numbers here, after all others; its pieces, steps and neighbours are not.
   */
  readonly extras: Garment | null;
  /** Edges and their jobs, seams between pieces, lines that meet over them. */
  readonly neighbours: Neighbours;
  readonly problems: readonly Problem[];
}

import type { PanelId, SeamId } from '../panels';
import type { PieceId, PlacedDart, TrimId } from '../pattern';

export type StepKind = 'dart' | 'seam' | 'partial seam' | 'trim' | 'join';

/** One operation. `joins` are the groups of panels brought together, as they are at that time. */
export interface Step {
  readonly step: number;
  readonly kind: StepKind;
  readonly piece: PieceId;
  readonly joins: readonly [readonly PanelId[], readonly PanelId[]];
  /** Seams sewn in this step, in order along the line. */
  readonly seams: readonly SeamId[];
  readonly trim: TrimId | null;
  /** Darts sewn in this step. */
  readonly darts: readonly PlacedDart[];
  /** For a person at the machine; panels by number. */
  readonly text: string;
}

export interface SewingPlan {
  readonly steps: readonly Step[];
  /** Panel numbers from 1, in sewing order, one sequence for the garment. */
  readonly numbers: ReadonlyMap<PanelId, number>;
  readonly stepOfSeam: ReadonlyMap<SeamId, number>;
}

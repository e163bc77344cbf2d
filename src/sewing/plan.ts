import type { Pt } from '../geometry';
import type { EdgeRef } from '../neighbours';
import type { PanelId, SeamId } from '../panels';
import type { ClosingId, ColourId, PieceId, PlacedDart, TrimId } from '../pattern';

/**
 * dart, seam, partial seam, trim: within a piece. join: edges of pieces sewn to each other. zip: a zip set in. edge: a neckline or other
 * outer edge finished. hem: turned up and sewn.
 */
export type StepKind = 'dart' | 'seam' | 'partial seam' | 'trim' | 'join' | 'zip' | 'edge' | 'hem';

/**
 * Name of a step that stays while lines move: what it is and what it is about. A line sewn in several parts has a running number for
 * each after the first: `seam line-3`, `seam line-3 mirrored #2`, `trim trim-1`, `join front/side seam back/side seam`, `hem front/hem`.
 */
export type StepKey = string;

/** A corner that is sewn in two passes: reinforced, clipped to the corner and pivoted. */
export interface SetInCorner {
  readonly at: Pt;
  /** How far the seam turns there, degrees, 0..180. */
  readonly turn: number;
  /** The panel whose allowance is clipped: the one the corner points into. */
  readonly clip: PanelId;
}

/** Why a step cannot come earlier than another. */
export type Because =
  /** The other seam ends on this one, or is sewn in parts that this one crosses. */
  | { readonly kind: 'ends on it' | 'is crossed'; readonly at: Pt }
  /** The end of what is sewn first is caught here: a dart, a trim, a panel seam under an outer seam. */
  | { readonly kind: 'end is caught'; readonly at: Pt | null }
  /** A seam that was begun is finished; a trim lies over its seam; a zip is set into its seam. */
  | { readonly kind: 'begun there' | 'lies on it' | 'is set into it'; readonly at: Pt | null }
  /** What it is sewn to has to be whole first: sleeves set into closed armholes, lines sewn in the round. */
  | { readonly kind: 'goes round it'; readonly at: Pt | null };

/** A step that must be done before. */
export interface Need {
  readonly key: StepKey;
  readonly because: Because;
}

/** One operation. `joins` are the groups of panels brought together, as they are at that time. */
export interface Step {
  readonly step: number;
  readonly key: StepKey;
  readonly kind: StepKind;
  /** The piece it is done on; null where several are. */
  readonly piece: PieceId | null;
  readonly joins: readonly [readonly PanelId[], readonly PanelId[]];
  /** Seams sewn in this step, in order along the line. */
  readonly seams: readonly SeamId[];
  /** Outer edges sewn in this step: both sides of joins, hems, finished edges, edges with a zip. */
  readonly edges: readonly EdgeRef[];
  readonly trim: TrimId | null;
  readonly closing: ClosingId | null;
  /** Darts sewn in this step. */
  readonly darts: readonly PlacedDart[];
  readonly corners: readonly SetInCorner[];
  /** The cloth whose colour the thread has: the darkest of those sewn (common practice, no source). Null for a trim, which has its own. */
  readonly thread: ColourId | null;
  /** What must be done before, and why. */
  readonly needs: readonly Need[];
  /** What is done, in one sentence; panels by number, without lengths. */
  readonly text: string;
}

export interface SewingPlan {
  readonly steps: readonly Step[];
  /** Panel numbers from 1, one sequence for the garment: in sewing order, but that panels keep the number they have. */
  readonly numbers: ReadonlyMap<PanelId, number>;
  readonly stepOfSeam: ReadonlyMap<SeamId, number>;
  /** The step in which an outer edge is joined, finished or hemmed, by `edgeKey`. */
  readonly stepOfEdge: ReadonlyMap<string, number>;
}

/** Key of an outer edge in `stepOfEdge`. */
export const edgeKey = ({ piece, edge }: EdgeRef): string => `${piece}/${edge}`;

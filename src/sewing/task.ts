import type { Pt } from '../geometry';
import type { EdgeRef } from '../neighbours';
import type { PanelId, SeamId } from '../panels';
import type { ClosingId, PieceId, PlacedDart, TrimId } from '../pattern';
import type { Need, SetInCorner, StepKey, StepKind } from './plan';

/** One line that is sewn: the panels along either side of it, from end to end. For what is laid on, `b` is empty. */
export interface SewnLine {
  readonly a: readonly PanelId[];
  readonly b: readonly PanelId[];
}

/** An end of what is sewn that lies on an outer edge of the piece: whatever is sewn along that edge catches it, so it comes later. */
export interface Reach {
  /** Index of WholePiece.edges. */
  readonly edge: number;
  readonly at: Pt | null;
}

/**
 * One operation before it has its place in the order: what is sewn, what must come before it, and where it usually comes. A step of the
 * plan is made from it when the groups of panels at that time are known.
 */
export interface Task {
  readonly key: StepKey;
  readonly kind: StepKind;
  /** The piece it is done on; null where several are. */
  readonly piece: PieceId | null;
  /** What must be done before, by key. Keys that no task has are passed over. */
  readonly needs: readonly Need[];
  /**
   * Its usual place: any number, among the tasks of its piece (the n-th run of seams has n), or among those that sew pieces to each
   * other (see joinPlaces.ts). Where needs and wishes leave a choice, the lowest place comes first.
   */
  readonly place: number;
  /** Lines sewn; the two body sides of a join are two lines. */
  readonly lines: readonly SewnLine[];
  /** Panel seams, in order along the line. */
  readonly seams: readonly SeamId[];
  readonly edges: readonly EdgeRef[];
  readonly trim: TrimId | null;
  readonly closing: ClosingId | null;
  readonly darts: readonly PlacedDart[];
  readonly corners: readonly SetInCorner[];
  readonly reaches: readonly Reach[];
  /** A seam begun here is left open at this place; null where none is. */
  readonly openAt: Pt | null;
  /** The task that began the seam that is finished here; null where none is. */
  readonly finishes: StepKey | null;
  /** The dart, trim or edges it is about, in words; null where the panels say enough. */
  readonly what: string | null;
}

/** A task of one piece with nothing sewn yet; give what it is about. */
export const taskOf = (own: Pick<Task, 'key' | 'kind' | 'piece' | 'place'> & Partial<Task>): Task => ({
  needs: [],
  lines: [],
  seams: [],
  edges: [],
  trim: null,
  closing: null,
  darts: [],
  corners: [],
  reaches: [],
  openAt: null,
  finishes: null,
  what: null,
  ...own,
});

export const unique = <T>(items: readonly T[]): T[] => [...new Set(items)];

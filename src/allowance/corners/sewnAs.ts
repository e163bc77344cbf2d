/** What becomes of a stretch of a panel's boundary: a panel seam, or the job of an outer edge. */
export type CutJob = 'seam' | 'joins' | 'hem' | 'zip' | 'bound' | 'left' | 'fold';

/** An outer edge as its corners see it. */
export interface CutEdge {
  readonly job: CutJob;
  /** Its place in the sewing order; null where it is never sewn. */
  readonly rank: number | null;
}

/** How far a seam's allowance runs on beyond one end of an outer edge: agreed for both pieces sewn there, mm. */
export interface EndReach {
  readonly edge: number;
  readonly end: 'first' | 'last';
  readonly reach: number;
}

/** When the seams and edges of one piece are sewn: all that the corners of its cutting lines depend on besides shape and widths. */
export interface SewnAs {
  /** Places of its seams in the sewing order, in the order of the seams; null where one is never sewn. */
  readonly seams: readonly (number | null)[];
  /** In the order of WholePiece.edges. */
  readonly edges: readonly CutEdge[];
  readonly ends: readonly EndReach[];
}

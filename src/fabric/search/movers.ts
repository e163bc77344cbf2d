import type { LayJob } from '../layPlan';
import { allowedRotations } from '../placement';
import { foldedMovers } from './folded';

/** A way in which a mover may lie. */
export interface Stance {
  /** Degrees, as in Placement. */
  readonly rotation: number;
  /** Lies with its middle on the fold of folded cloth. */
  readonly onFold: boolean;
}

/** What the search moves as one: a piece, or on folded cloth a pair cut together. */
export interface Mover {
  /** Places in the job's pieces: the piece itself, then the one that lies mirrored over the fold. */
  readonly pieces: readonly number[];
  readonly stances: readonly Stance[];
}

/** The movers of a job, in the order of their first pieces. */
export function moversOf(job: LayJob): Mover[] {
  if (job.layering === 'folded') return foldedMovers(job);
  return job.pieces.map((piece, i) => ({
    pieces: [i],
    stances: allowedRotations(piece, job.nap).map((rotation) => ({ rotation, onFold: false })),
  }));
}

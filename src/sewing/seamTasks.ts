import type { PanelledPiece } from '../panels';
import { edgesAtEnds } from './edgesAlong';
import type { Need } from './plan';
import type { SeamRun } from './seamRun';
import { type Task, taskOf, unique } from './task';

/**
 * The runs of seams of one piece as tasks.
 * @param runs in the order in which they are usually sewn
 * @param caught what must be sewn before a run because its end lies on it, by place in `runs`
 */
export const seamTasks = (
  piece: PanelledPiece,
  runs: readonly SeamRun[],
  caught: (run: SeamRun) => readonly Need[],
): readonly Task[] =>
  runs.map((run, place) =>
    taskOf({
      key: run.key,
      kind: run.kind,
      piece: piece.whole.piece.id,
      place,
      needs: [...run.needs, ...caught(run)],
      lines: [{ a: unique(run.stretches.map((s) => s.a)), b: unique(run.stretches.map((s) => s.b)) }],
      seams: run.seams,
      corners: run.corners,
      reaches: edgesAtEnds(piece, run.seams),
      openAt: run.openAt === null ? null : (piece.nodePoints[run.openAt] ?? null),
      finishes: run.finishes,
    }),
  );

import type { PanelledPiece } from '../panels';
import { type Closing, type OrderWish, type Trim, remember } from '../pattern';
import { zipsInLines } from './closingTasks';
import { dartTasks } from './dartTasks';
import type { Need } from './plan';
import { runsFromJoins } from './runsFromJoins';
import type { SeamRun } from './seamRun';
import { seamTasks } from './seamTasks';
import type { Task } from './task';
import { trimTasks, trimsBeforeSeams } from './trimTasks';

/** What is done on one piece before it is sewn to others, and its runs of seams in their usual order. */
export interface PieceTasks {
  readonly runs: readonly SeamRun[];
  readonly tasks: readonly Task[];
}

/** Darts, seams, trims and zips within one piece. Kept while only other pieces change. */
export const pieceTasks = remember(
  (
    piece: PanelledPiece,
    trims: readonly Trim[],
    closings: readonly Closing[],
    wishes: readonly OrderWish[],
  ): PieceTasks => {
    const runs = runsFromJoins(piece);
    const darts = dartTasks(piece, runs);
    const underTrims = trimsBeforeSeams(piece, runs, trims, wishes);
    const caught = (run: SeamRun): Need[] => [
      ...darts
        .filter((d) => d.seams.some((s) => run.seams.includes(s)))
        .map(({ task }): Need => ({
          key: task.key,
          because: { kind: 'end is caught', at: task.reaches[0]?.at ?? null },
        })),
      ...(underTrims.get(run.key) ?? []),
    ];
    return {
      runs,
      tasks: [
        ...darts.map((d) => d.task),
        ...seamTasks(piece, runs, caught),
        ...trimTasks(piece, runs, trims, wishes),
        ...zipsInLines(piece, runs, closings),
      ],
    };
  },
);

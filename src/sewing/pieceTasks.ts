import type { PanelledPiece } from '../panels';
import { type Closing, type LineId, type OrderWish, type Trim, remember } from '../pattern';
import { zipsInLines } from './closingTasks';
import { dartTasks } from './dartTasks';
import type { Need } from './plan';
import { seamRuns } from './runs';
import type { SeamRun } from './seamRun';
import { seamTasks } from './seamTasks';
import type { Task } from './task';
import { trimTasks, trimsBeforeSeams } from './trimTasks';

/** What is done on one piece before it is sewn to others, and its runs of seams in their usual order. */
export interface PieceTasks {
  readonly runs: readonly SeamRun[];
  readonly tasks: readonly Task[];
}

/** Lines in the round run through where they are crossed, so that they are whole when their turn comes: that goes before other wishes. */
function withRounds(
  { lines }: PanelledPiece,
  wishes: readonly OrderWish[],
  inTheRound: readonly LineId[],
): readonly OrderWish[] {
  const names = lines.map((l) => ({ key: `seam ${l.line}${l.mirrored ? ' mirrored' : ''}`, line: l.line }));
  const round = names.filter((n) => inTheRound.includes(n.line));
  const others = names.filter((n) => !inTheRound.includes(n.line));
  return [...wishes, ...round.flatMap((r) => others.map((o) => ({ earlier: o.key, later: r.key })))];
}

/** Darts, seams, trims and zips within one piece. Kept while only other pieces change. */
export const pieceTasks = remember(
  (
    piece: PanelledPiece,
    trims: readonly Trim[],
    closings: readonly Closing[],
    wanted: readonly OrderWish[],
    inTheRound: readonly LineId[],
  ): PieceTasks => {
    const wishes = withRounds(piece, wanted, inTheRound);
    const runs = seamRuns(piece, wishes);
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

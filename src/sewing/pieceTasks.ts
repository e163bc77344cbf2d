import { isClosed } from '../geometry';
import type { LaidLine, PanelledPiece } from '../panels';
import { type Closing, type LineId, type OrderWish, type Trim, remember } from '../pattern';
import { zipsInLines } from './closingTasks';
import { dartTasks } from './dartTasks';
import type { Need } from './plan';
import { lineName, seamKey, seamRuns } from './runs';
import type { SeamRun } from './seamRun';
import { seamTasks } from './seamTasks';
import type { Task } from './task';
import { trimTasks, trimsBeforeSeams } from './trimTasks';

/** What is done on one piece before it is sewn to others, and its runs of seams in their usual order. */
export interface PieceTasks {
  readonly runs: readonly SeamRun[];
  readonly tasks: readonly Task[];
}

/**
 * Lines in the round run through where they are crossed, so that they are whole when their turn comes, and lines with a zip even where those
 * cross them: nothing can be sewn across a zip. That goes before other wishes. Closed lines are left out: what they cross would
 * be sewn in parts between the same two panels.
 */
function withWholeLines(
  { lines }: PanelledPiece,
  wishes: readonly OrderWish[],
  inTheRound: readonly LineId[],
  closings: readonly Closing[],
): readonly OrderWish[] {
  const isRound = (l: LaidLine): boolean => inTheRound.includes(l.line);
  const hasZip = ({ line, mirrored }: LaidLine): boolean =>
    !mirrored && closings.some(({ on }) => on.kind === 'line' && on.line === line);
  const rank = (l: LaidLine): number => (isClosed(l.path) ? 0 : hasZip(l) ? 2 : isRound(l) ? 1 : 0);
  const whole = lines.filter((l) => rank(l) > 0);
  const through = whole.flatMap((later) =>
    lines
      .filter((l) => rank(l) < rank(later))
      .map((earlier): OrderWish => ({
        earlier: seamKey(lineName(earlier), 1),
        later: seamKey(lineName(later), 1),
      })),
  );
  return [...wishes, ...through];
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
    const wishes = withWholeLines(piece, wanted, inTheRound, closings);
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

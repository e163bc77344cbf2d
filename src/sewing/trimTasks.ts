import type { LaidLine, PanelledPiece } from '../panels';
import type { Trim } from '../pattern';
import { edgesAtEnds } from './edgesAlong';
import type { SeamRun } from './seamRun';
import { type Task, taskOf, unique } from './task';

const isOn = (trim: Trim, { line }: LaidLine): boolean => trim.on.kind === 'line' && trim.on.line === line;

/**
 * Trims of one piece as tasks: each is laid when the seams it lies on are sewn, before what is sewn along the edges its ends reach.
 * @param runs the piece's runs of seams in their usual order
 */
export function trimTasks(
  piece: PanelledPiece,
  runs: readonly SeamRun[],
  trims: readonly Trim[],
): readonly Task[] {
  return trims.flatMap((trim, nth): Task[] => {
    const own = runs.filter((r) => r.lines.some((l) => isOn(trim, l)));
    if (own.length === 0) return [];
    const seams = unique(own.flatMap((r) => r.seams));
    return [
      taskOf({
        key: `trim ${trim.id}`,
        kind: 'trim',
        piece: piece.whole.piece.id,
        place: Math.max(...own.map((r) => runs.indexOf(r))) + 0.5 + nth / 1000,
        needs: own.map((r) => ({ key: r.key, because: { kind: 'lies on it', at: null } })),
        lines: [{ a: unique(own.flatMap((r) => r.stretches.flatMap((s) => [s.a, s.b]))), b: [] }],
        trim: trim.id,
        reaches: edgesAtEnds(piece, seams),
        what: trim.name,
      }),
    ];
  });
}

import { LIES_ON, type Pt, passesNear } from '../geometry';
import type { Panel, PanelledPiece, SeamId } from '../panels';
import { type PlacedDart } from '../pattern';
import { dartGroups } from './dartWords';
import type { SeamRun } from './seamRun';
import { type Reach, type Task, taskOf } from './task';

/** A dart task with the panel seams that catch its darts. */
export interface DartTask {
  readonly task: Task;
  readonly seams: readonly SeamId[];
}

const cornersOf = (dart: PlacedDart): readonly Pt[] =>
  dart.kind === 'single' ? [...dart.mouth, dart.point] : [dart.points[0], dart.points[2]];

/** What of a panel's boundary a dart reaches: that is sewn after it. */
function caughtAt(panel: Panel, darts: readonly PlacedDart[]): { seams: SeamId[]; reaches: Reach[] } {
  const seams: SeamId[] = [];
  const reaches: Reach[] = [];
  for (const p of darts.flatMap(cornersOf))
    for (const { origin, path } of [panel.boundary, ...panel.holes].flat()) {
      if (!passesNear(path, p, LIES_ON)) continue;
      if (origin.kind === 'seam') seams.push(origin.seam);
      else reaches.push({ edge: origin.edge, at: p });
    }
  return { seams, reaches };
}

/** Kinds of darts that one panel may have, and a step of place so small that no panels of a piece reach the next run. */
const MOST_KINDS = 20;
const LITTLE = 1e-7;

/** Darts of one piece as tasks: those of a panel that are called alike are sewn in one. They come before the first seam of their panel. */
export function dartTasks(piece: PanelledPiece, runs: readonly SeamRun[]): readonly DartTask[] {
  const counts = new Map<string, number>();
  return piece.panels.flatMap((panel, of): DartTask[] => {
    if (panel.darts.length === 0) return [];
    const first = runs.findIndex((r) => r.stretches.some((s) => s.a === panel.id || s.b === panel.id));
    return dartGroups(panel.darts, piece.whole).map(({ what, darts }, nth): DartTask => {
      const { traced, mirrored } = darts[0]!;
      const name = `dart ${piece.whole.piece.id}/${traced + 1}${mirrored ? ' mirrored' : ''}`;
      counts.set(name, (counts.get(name) ?? 0) + 1);
      const key = counts.get(name) === 1 ? name : `${name} #${counts.get(name)}`;
      const { seams, reaches } = caughtAt(panel, darts);
      const task = taskOf({
        key,
        kind: 'dart',
        piece: piece.whole.piece.id,
        // panel by panel: each has its thread
        place: (first < 0 ? runs.length : first) - 0.5 + (of * MOST_KINDS + nth) * LITTLE,
        lines: [{ a: [panel.id], b: [panel.id] }],
        darts,
        reaches,
        what,
      });
      return { task, seams };
    });
  });
}

import type { PanelId } from '../panels';
import { Groups } from './groups';
import type { Task } from './task';
import { unique } from './task';

/** The two units of panels that a task brings together as they are at its time; or, within one unit, those along either side. */
export type Units = readonly [readonly PanelId[], readonly PanelId[]];

const IS_SEWN: readonly Task['kind'][] = ['seam', 'partial seam', 'join', 'zip'];

/** Follow tasks in order and say what each has in hand. */
export function replay(tasks: readonly Task[], panels: readonly PanelId[]): readonly Units[] {
  const groups = new Groups(panels);
  return tasks.map((task): Units => {
    const [a, b] = [unique(task.lines.flatMap((l) => l.a)), unique(task.lines.flatMap((l) => l.b))];
    if (task.kind === 'trim') return [unique(a.flatMap((p) => groups.of(p))), []];
    if (!IS_SEWN.includes(task.kind) || a.length === 0 || b.length === 0) return [a, b];
    const [left, right] = [a, b].map((side) => unique(side.flatMap((p) => groups.of(p)))) as [
      PanelId[],
      PanelId[],
    ];
    const isWithin = left.some((p) => right.includes(p));
    for (const p of [...a, ...b]) groups.join(a[0]!, p);
    return isWithin ? [a, b] : [left, right];
  });
}

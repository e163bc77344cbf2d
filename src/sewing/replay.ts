import type { PanelId } from '../panels';
import { Groups } from './groups';
import { type SewnLine, type Task, unique } from './task';

/** The two units of panels that a task brings together as they are at its time; or, within one unit, those along either side. */
export type Units = readonly [readonly PanelId[], readonly PanelId[]];

const IS_SEWN: readonly Task['kind'][] = ['seam', 'partial seam', 'join', 'zip'];

/** Lines of one seam with the same unit on the same side: those of several pieces may have been drawn either way. */
function alike(lines: readonly SewnLine[], groups: Groups): readonly SewnLine[] {
  const [first] = lines;
  if (!first || lines.length === 1 || first.a.length === 0 || first.b.length === 0) return lines;
  const left = groups.of(first.a[0]!);
  const right = groups.of(first.b[0]!);
  const isTurned = ({ a, b }: SewnLine): boolean =>
    a.some((p) => right.includes(p)) && b.some((p) => left.includes(p));
  return left === right ? lines : lines.map((l) => (isTurned(l) ? { a: l.b, b: l.a } : l));
}

/** Follow tasks in order and say what each has in hand. */
export function replay(tasks: readonly Task[], panels: readonly PanelId[]): readonly Units[] {
  const groups = new Groups(panels);
  return tasks.map((task): Units => {
    const lines = alike(task.lines, groups);
    const [a, b] = [unique(lines.flatMap((l) => l.a)), unique(lines.flatMap((l) => l.b))];
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

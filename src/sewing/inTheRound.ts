import { type EdgeRef, type SeamJoin, sameEdge } from '../neighbours';
import type { PanelId, PanelledPiece, SeamId } from '../panels';
import type { PieceId } from '../pattern';
import { afterItsSeam } from './closingTasks';
import { edgesAlong } from './edgesAlong';
import { plainKey } from './edgeRing';
import type { EdgeWorkToDo, Ground } from './garmentTasks';
import { joinWords } from './joinWords';
import type { Need, StepKey } from './plan';
import { type RoundSeam, stepOfJoin, waitingFor } from './roundSeams';
import { type Task, taskOf, unique } from './task';

/** A garment's tasks once some seams are sewn in the round. */
export interface Rounded {
  readonly within: readonly Task[];
  readonly between: readonly Task[];
}

/** The panels along an edge between the seams that cross it in the round, in ring order. */
function partsOf(piece: PanelledPiece, edge: number, round: ReadonlySet<SeamId>): PanelId[][] {
  const parts: PanelId[][] = [[]];
  for (const { panel, after } of edgesAlong(piece)[edge]!) {
    if (parts.at(-1)!.at(-1) !== panel) parts.at(-1)!.push(panel);
    if (after !== null && round.has(after)) parts.push([]);
  }
  return parts.filter((p) => p.length > 0);
}

/** What a join is sewn in, from the agreed end on: the panels on either side of each part. */
function partsOfJoin(
  join: SeamJoin,
  pieces: ReadonlyMap<PieceId, PanelledPiece>,
  round: ReadonlySet<SeamId>,
): { a: PanelId[]; b: PanelId[] }[] {
  const along = ({ piece, edge }: EdgeRef, beginsLast: boolean): PanelId[][] => {
    const parts = partsOf(pieces.get(piece)!, edge, round);
    return beginsLast ? parts.reverse() : parts;
  };
  const a = along(join.a, join.beginsLast);
  const b = along(join.b, join.beginsLast !== join.reversed);
  return a.map((own, i) => ({ a: own, b: b[Math.min(i, b.length - 1)] ?? [] }));
}

/** The parts of a step that sews pieces to each other: those at the agreed ends in one go, the others seam by seam. */
function partTasks(
  task: Task,
  joins: readonly SeamJoin[],
  ground: Ground,
  round: ReadonlySet<SeamId>,
): Task[] {
  const pieces = new Map(ground.pieces.map((p) => [p.whole.piece.id, p] as const));
  const { wholes } = ground.neighbours;
  const all = joins.map((join) => ({
    join,
    name: `${plainKey(wholes, join.a)} ${plainKey(wholes, join.b)}`,
    edges: [join.a, join.b].map(({ piece, edge }) => ({ piece, edge })),
    parts: partsOfJoin(join, pieces, round),
  }));
  const first = { ...task, lines: all.flatMap((j) => j.parts.slice(0, 1)) };
  const later = unique(all.map((j) => j.name)).flatMap((name) => {
    const own = all.filter((j) => j.name === name);
    const most = Math.max(...own.map((j) => j.parts.length));
    return Array.from({ length: most - 1 }, (_, i) => own.filter((j) => j.parts.length > i + 1)).map(
      (js, i) => ({
        lines: js.map((j) => j.parts[i + 1]!),
        what: joinWords(
          js.map((j) => j.join),
          wholes,
        ),
        edges: task.edges.filter((e) => js.some((j) => j.edges.some((o) => sameEdge(o, e)))),
      }),
    );
  });
  return [
    first,
    ...later.map((part, i) => ({
      ...task,
      ...part,
      key: `${task.key} #${i + 2}`,
      place: task.place + (i + 1) / 1e5,
    })),
  ];
}

/** One seam all round, of the runs of several pieces. */
function roundTask({ tasks, crosses }: RoundSeam, parts: ReadonlyMap<SeamJoin, readonly Task[]>): Task {
  const [first] = tasks as [Task];
  const joins = crosses.flatMap(({ join, at }) => parts.get(join)!.map((task) => ({ task, at })));
  const round: Need[] = joins.map(({ task, at }) => ({
    key: task.key,
    because: { kind: 'goes round it', at },
  }));
  return taskOf({
    ...first,
    piece: tasks.every((t) => t.piece === first.piece) ? first.piece : null,
    place: Math.max(...joins.map((j) => j.task.place)) + 0.4,
    needs: [...tasks.flatMap((t) => t.needs), ...round],
    lines: tasks.flatMap((t) => t.lines),
    seams: tasks.flatMap((t) => t.seams),
    corners: tasks.flatMap((t) => t.corners),
    reaches: [],
    what: 'in the round',
  });
}

/**
 * Sew seams in the round: what they cross is sewn in parts above and below them first, then they are sewn as one, and what lies on them
 * follows.
 */
export function inTheRound(
  rounds: readonly RoundSeam[],
  work: EdgeWorkToDo,
  { within, between }: Rounded,
  ground: Ground,
): Rounded {
  if (rounds.length === 0) return { within, between };
  const runKeys = new Set(rounds.flatMap((r) => r.tasks.map((t) => t.key)));
  const waiting = waitingFor(runKeys, within);
  const seams = new Set(rounds.flatMap((r) => r.tasks.flatMap((t) => t.seams)));
  const crossed = unique(rounds.flatMap((r) => r.crosses.map((x) => stepOfJoin(work.joins, x.join))));
  const isLate = ({ key }: Need): boolean => runKeys.has(key) || waiting.has(key);
  const crossedKeys = new Set(crossed.map((c) => c.key));
  const zips = new Map(
    work.zips.filter((z) => z.seam?.isLater && crossedKeys.has(z.seam.key)).map((z) => [z.key, z] as const),
  );
  const partsByKey = new Map<StepKey, readonly Task[]>();
  const partsByJoin = new Map<SeamJoin, readonly Task[]>();
  for (const step of crossed) {
    const task = between.find((t) => t.key === step.key)!;
    const parts = partTasks(
      { ...task, needs: task.needs.filter((n) => !isLate(n) && !zips.has(n.key)) },
      step.joins,
      ground,
      seams,
    );
    partsByKey.set(step.key, parts);
    for (const join of step.joins) partsByJoin.set(join, parts);
  }
  const rounded = rounds.map((r) => roundTask(r, partsByJoin));
  const nameOf = new Map(rounds.flatMap((r) => r.tasks.map((t) => [t.key, r.tasks[0]!.key] as const)));
  // what needs a seam that is sewn in parts needs all of them; what needs a run needs the seam it is part of
  const renamed = (task: Task): Task => ({
    ...task,
    needs: task.needs.flatMap((n): Need[] =>
      (partsByKey.get(n.key) ?? [{ key: nameOf.get(n.key) ?? n.key }]).map(({ key }) => ({ ...n, key })),
    ),
  });
  const late = within
    .filter((t) => waiting.has(t.key))
    .map((t, i) => ({ ...t, place: Math.max(...rounded.map((r) => r.place)) + (i + 1) / 100 }));
  return {
    within: within.filter((t) => !isLate({ ...t, because: { kind: 'lies on it', at: null } })),
    between: [
      ...between.flatMap((t) => {
        const zip = zips.get(t.key);
        return partsByKey.get(t.key) ?? [zip ? afterItsSeam(zip, t) : t];
      }),
      ...rounded,
      ...late,
    ].map(renamed),
  };
}

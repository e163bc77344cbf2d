import { type Pt, SAME_POINT, distance } from '../geometry';
import { type EdgeRef, MISS_WARNING, type Neighbours, type SeamJoin, sameEdge } from '../neighbours';
import type { LineId, PieceId } from '../pattern';
import type { JoinStep } from './joinTasks';
import type { StepKey } from './plan';
import type { PieceTasks } from './pieceTasks';
import type { Task } from './task';

/** A run of seams that could be sewn in the round: it goes from edge to edge, and nothing of its piece has to wait for it. */
interface Candidate {
  readonly piece: PieceId;
  readonly task: Task;
}

/** A place where such a run crosses a seam between pieces. */
interface Crossing {
  readonly join: SeamJoin;
  readonly at: Pt;
  readonly runs: readonly Candidate[];
}

/** Runs of one or several pieces that are one seam all round, and the seams between pieces that they cross. */
export interface RoundSeam {
  readonly tasks: readonly Task[];
  readonly crosses: readonly { readonly join: SeamJoin; readonly at: Pt }[];
}

function candidatesOf(pieces: readonly PieceTasks[], lines: readonly LineId[]): Candidate[] {
  return pieces.flatMap(({ runs, tasks }) =>
    runs.flatMap((run): Candidate[] => {
      const task = tasks.find((t) => t.key === run.key)!;
      const isWanted = run.lines.some((l) => lines.includes(l.line));
      const isPlain = run.kind === 'seam' && !run.isClosed && task.reaches.length >= 2;
      const isAwaited = runs.some((r) => r.needs.some((n) => n.key === run.key));
      return isWanted && isPlain && !isAwaited ? [{ piece: task.piece!, task }] : [];
    }),
  );
}

const endsAt = (c: Candidate, { piece, edge }: EdgeRef, at: Pt): boolean =>
  c.piece === piece &&
  c.task.reaches.some((r) => r.edge === edge && r.at !== null && distance(r.at, at) <= SAME_POINT);

/** Where candidates meet over a seam between pieces; at the centre seam of a pair each meets itself. */
function crossingsOf(candidates: readonly Candidate[], { seams }: Neighbours): Crossing[] {
  return seams.flatMap(({ join, meetings }): Crossing[] => {
    if (sameEdge(join.a, join.b))
      return candidates.flatMap((c) =>
        c.piece !== join.a.piece
          ? []
          : c.task.reaches
              .filter((r) => r.edge === join.a.edge && r.at !== null)
              .map((r) => ({ join, at: r.at!, runs: [c] })),
      );
    return meetings.flatMap((m): Crossing[] => {
      if (m.mm > MISS_WARNING) return [];
      const one = candidates.find((c) => endsAt(c, join.a, m.a.at));
      const other = candidates.find((c) => endsAt(c, join.b, m.b.at));
      return one && other ? [{ join, at: m.a.at, runs: [one, other] }] : [];
    });
  });
}

/** Whether a candidate goes on over every seam between pieces that it ends on, and ends on one at least. */
function goesOn(c: Candidate, crossings: readonly Crossing[], { jobs }: Neighbours): boolean {
  let count = 0;
  const isOver = (join: SeamJoin, edge: number, at: Pt): boolean =>
    crossings.some((x) => x.join === join && x.runs.includes(c) && endsAt(c, { piece: c.piece, edge }, at));
  const isWhole = c.task.reaches.every(({ edge, at }) =>
    jobs.joins.every((join) => {
      const isOn = [join.a, join.b].some((side) => sameEdge(side, { piece: c.piece, edge }));
      if (!isOn || at === null) return true;
      count += 1;
      return join.role !== 'armhole' && isOver(join, edge, at);
    }),
  );
  return isWhole && count > 0;
}

/** Seams in the round: lines that are wanted so and that meet over every seam they cross. Others are sewn flat. */
export function roundSeams(
  pieces: readonly PieceTasks[],
  neighbours: Neighbours,
  lines: readonly LineId[],
): readonly RoundSeam[] {
  let candidates = candidatesOf(pieces, lines);
  let crossings = crossingsOf(candidates, neighbours);
  for (let count = -1; count !== candidates.length;) {
    count = candidates.length;
    candidates = candidates.filter((c) => goesOn(c, crossings, neighbours));
    crossings = crossings.filter((x) => x.runs.every((c) => candidates.includes(c)));
  }
  const rounds: RoundSeam[] = [];
  const rest = [...candidates];
  while (rest.length > 0) {
    const own = rest.splice(0, 1);
    for (const c of own)
      for (const x of crossings.filter((k) => k.runs.includes(c)))
        for (const other of x.runs)
          if (rest.includes(other)) own.push(...rest.splice(rest.indexOf(other), 1));
    const crosses = crossings.filter((x) => x.runs.some((c) => own.includes(c)));
    rounds.push({ tasks: own.map((c) => c.task), crosses });
  }
  return rounds;
}

/** Runs that are wanted in the round and cannot be: they are sewn flat. */
export const sewnFlat = (
  pieces: readonly PieceTasks[],
  lines: readonly LineId[],
  rounds: readonly RoundSeam[],
): readonly Task[] =>
  pieces.flatMap(({ runs, tasks }) =>
    runs
      .filter((r) => r.lines.some((l) => lines.includes(l.line)))
      .flatMap((r) => tasks.find((t) => t.key === r.key) ?? [])
      .filter((t) => !rounds.some((round) => round.tasks.includes(t))),
  );

/** The keys of what lies on a seam in the round and so comes after it. */
export function waitingFor(keys: ReadonlySet<StepKey>, tasks: readonly Task[]): ReadonlySet<StepKey> {
  const found = new Set(keys);
  for (let size = -1; size !== found.size;) {
    size = found.size;
    for (const t of tasks) if (t.needs.some((n) => found.has(n.key))) found.add(t.key);
  }
  for (const key of keys) found.delete(key);
  return found;
}

/** The step that sews a seam between pieces. */
export const stepOfJoin = (joins: readonly JoinStep[], join: SeamJoin): JoinStep =>
  joins.find((s) => s.joins.includes(join))!;

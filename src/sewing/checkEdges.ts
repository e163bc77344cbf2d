import { type Pt, endOf, nearestOnPath, startOf } from '../geometry';
import type { EdgeWork, Neighbours } from '../neighbours';
import type { PanelledPiece, Seam } from '../panels';
import type { Closing } from '../pattern';
import { edgePath } from '../pattern';
import type { SewingPlan, Step } from './plan';

interface Fault {
  readonly step: number | null;
  readonly what: string;
}

/** An end of a seam this near an outer edge lies on it, mm. */
const ON_EDGE = 0.05;

type Name = `${string}/${number}`;
const nameOf = (piece: string, edge: number): Name => `${piece}/${edge}`;

/** What is sewn along outer edges, looked up by piece and edge. */
function stepsByEdge({ steps }: SewingPlan): ReadonlyMap<Name, readonly Step[]> {
  const found = new Map<Name, Step[]>();
  for (const step of steps)
    for (const { piece, edge } of step.edges) {
      const name = nameOf(piece, edge);
      found.set(name, [...(found.get(name) ?? []), step]);
    }
  return found;
}

/** Every seam between pieces is sewn, every hem, and every edge to be bound unless all are left; of edges of one name one has the zip. */
function missingFaults(
  byEdge: ReadonlyMap<Name, readonly Step[]>,
  { jobs }: Neighbours,
  leavesEdges: boolean,
): Fault[] {
  const has = (name: Name, kind: Step['kind']): boolean =>
    (byEdge.get(name) ?? []).some((s) => s.kind === kind);
  const hasOne = (works: readonly EdgeWork[], { piece, plainName }: EdgeWork, kind: Step['kind']): boolean =>
    works.some((w) => w.plainName === plainName && has(nameOf(piece, w.edge), kind));
  const joins = jobs.joins.filter((j) => [j.a, j.b].some((s) => !has(nameOf(s.piece, s.edge), 'join')));
  const stepFor = (job: EdgeWork['job']): Step['kind'] | null =>
    job.kind === 'hem' || job.kind === 'zip' ? job.kind : job.kind === 'bound' && !leavesEdges ? 'edge' : null;
  const others = [...jobs.edges.values()].flatMap((works) =>
    works.flatMap((work) => {
      const kind = stepFor(work.job);
      const isDone =
        kind === 'zip' ? hasOne(works, work, kind) : kind === null || has(nameOf(work.piece, work.edge), kind);
      return isDone ? [] : [{ step: null, what: `no ${kind} of ${work.piece}/${work.name}` }];
    }),
  );
  return [
    ...joins.map((j) => ({ step: null, what: `${j.a.piece} is never sewn to ${j.b.piece}` })),
    ...others,
  ];
}

/** The edges of a piece that a point lies on. */
function edgesAt({ whole }: PanelledPiece, p: Pt): Name[] {
  return whole.edges.flatMap((_, edge) =>
    nearestOnPath(edgePath(whole, edge), p).distance <= ON_EDGE ? [nameOf(whole.piece.id, edge)] : [],
  );
}

/** A panel seam that ends on an edge is sewn before what is sewn along it; one in the round after all parts of it. */
function caughtFaults(
  plan: SewingPlan,
  pieces: readonly PanelledPiece[],
  byEdge: ReadonlyMap<Name, readonly Step[]>,
): Fault[] {
  const lastStep = (seam: Seam): number =>
    Math.max(...plan.steps.filter((s) => s.seams.includes(seam.id)).map((s) => s.step));
  return pieces.flatMap((piece) =>
    piece.seams.flatMap((seam) =>
      [startOf(seam.path), endOf(seam.path)].flatMap((p) =>
        edgesAt(piece, p).flatMap((name): Fault[] => {
          const along = byEdge.get(name) ?? [];
          const own = lastStep(seam);
          const early = along.filter((s) => s.step < own);
          const parts = along.filter((s) => s.kind === 'join');
          const isRound =
            parts.length > 1 && early.length === parts.length && early.every((s) => parts.includes(s));
          return early.length === 0 || isRound
            ? []
            : [{ step: early[0]!.step, what: `it catches the end of ${seam.id}, which is not sewn by then` }];
        }),
      ),
    ),
  );
}

/** A dart that opens on an edge is sewn before what is sewn along it. */
function dartFaults(
  { steps }: SewingPlan,
  pieces: readonly PanelledPiece[],
  byEdge: ReadonlyMap<Name, readonly Step[]>,
): Fault[] {
  return steps.flatMap((step) => {
    const piece = pieces.find((p) => p.whole.piece.id === step.piece);
    const mouths = step.darts.flatMap((d) => (d.kind === 'single' ? d.mouth : []));
    return mouths
      .flatMap((p) => (piece ? edgesAt(piece, p) : []))
      .flatMap((name) => (byEdge.get(name) ?? []).filter((s) => s.step < step.step))
      .map((s) => ({ step: s.step, what: `it catches the dart of step ${step.step}` }));
  });
}

/** A hem comes after every seam between pieces that ends on it, hems come last unless wished. */
function hemFaults({ steps }: SewingPlan, { wholes }: Neighbours, hasWishes: boolean): Fault[] {
  const isBeside = (hem: Step, other: Step): boolean =>
    hem.edges.some((h) =>
      other.edges.some((e) => {
        const n = wholes.get(h.piece)!.edges.length;
        return h.piece === e.piece && [1, n - 1].includes((h.edge - e.edge + n) % n);
      }),
    );
  const hems = steps.filter((s) => s.kind === 'hem');
  const late = hems.flatMap((hem) =>
    steps
      .filter((s) => s.kind === 'join' && s.step > hem.step && isBeside(hem, s))
      .map((s) => ({
        step: hem.step,
        what: `the seam of step ${s.step} ends on it and is not sewn by then`,
      })),
  );
  const first = hems[0];
  const after = first && !hasWishes ? steps.filter((s) => s.step > first.step && s.kind !== 'hem') : [];
  return [...late, ...after.map((s) => ({ step: s.step, what: 'it comes after a hem' }))];
}

/** A zip comes after the seam it is set into; a hidden one may come before it, where that seam waits for it. */
function zipFaults({ steps }: SewingPlan, closings: readonly Closing[]): Fault[] {
  const isShown = (zip: Step): boolean => closings.some((c) => c.id === zip.closing && c.kind === 'shown');
  return steps
    .filter((zip) => zip.kind === 'zip' && zip.edges.length > 0)
    .flatMap((zip) =>
      steps
        .filter(
          (s) =>
            s.kind === 'join' &&
            s.step > zip.step &&
            (isShown(zip) || !s.needs.some((n) => n.key === zip.key)) &&
            zip.edges.every((z) => s.edges.some((e) => e.piece === z.piece && e.edge === z.edge)),
        )
        .map(() => ({ step: zip.step, what: 'the seam it is set into is not sewn by then' })),
    );
}

interface Around {
  readonly neighbours: Neighbours;
  readonly wishes: readonly unknown[];
  readonly closings?: readonly Closing[];
  readonly leavesEdges?: boolean;
}

/** The laws of what is sewn along outer edges, from the geometry alone. */
export function edgeFaults(
  plan: SewingPlan,
  pieces: readonly PanelledPiece[],
  { neighbours, wishes, closings = [], leavesEdges = false }: Around,
): readonly Fault[] {
  const byEdge = stepsByEdge(plan);
  return [
    ...missingFaults(byEdge, neighbours, leavesEdges),
    ...caughtFaults(plan, pieces, byEdge),
    ...dartFaults(plan, pieces, byEdge),
    ...hemFaults(plan, neighbours, wishes.length > 0),
    ...zipFaults(plan, closings),
  ];
}

import { type EdgeRef, type EdgeRole, type Neighbours, sameEdge } from '../neighbours';
import type { PanelId, PanelledPiece } from '../panels';
import { type Closing, type Facing, type PieceId, remember } from '../pattern';
import { type ZipStep, zipNeeds, zipSteps } from './closingTasks';
import { areBeside, plainKey } from './edgeRing';
import { type EdgeStep, edgeSteps } from './edgeTasks';
import { edgesAlong } from './edgesAlong';
import { type JoinStep, joinSteps } from './joinTasks';
import type { Sleeves } from './joinPlaces';
import type { Need } from './plan';
import { type SewnLine, type Task, taskOf, unique } from './task';

/** What is sewn along outer edges, before the panels on them are known. */
export interface EdgeWorkToDo {
  readonly joins: readonly JoinStep[];
  readonly zips: readonly ZipStep[];
  readonly edges: readonly EdgeStep[];
}

const caught = (key: string): Need => ({ key, because: { kind: 'end is caught', at: null } });

/** Whether a finished edge takes in the ends of the seams that meet it; armholes finished flat are caught by the sides instead. */
const isCaughtBySides = (step: EdgeStep, sleeves: Sleeves): boolean =>
  step.kind === 'edge' && step.role === 'armhole' && sleeves === 'flat';
const isSide = (role: EdgeRole | null): boolean => role === 'side seam' || role === 'underarm seam';

/** Joins, zips, necklines and hems of a garment. They depend on pieces and answers, not on panel lines. */
export const edgeWork = remember(
  (
    jobs: Neighbours['jobs'],
    wholes: Neighbours['wholes'],
    closings: readonly Closing[],
    facings: readonly Facing[],
    sleeves: Sleeves,
  ): EdgeWorkToDo => {
    const neighbours = { jobs, wholes };
    const joins = joinSteps({ wholes, joins: jobs.joins }, sleeves);
    const edges = edgeSteps(neighbours, facings, sleeves);
    const touch = (p: readonly EdgeRef[], q: readonly EdgeRef[]): boolean =>
      p.some((x) => q.some((y) => areBeside(wholes, x, y)));
    const afterArmholes = (join: JoinStep): Need[] =>
      join.roles.some(isSide)
        ? edges
            .filter((e) => isCaughtBySides(e, sleeves) && touch(e.edges, join.edges))
            .map((e) => caught(e.key))
        : [];
    const inOrder = joins.map((j) => ({ ...j, needs: [...j.needs, ...afterArmholes(j)] }));
    const zips = zipSteps(neighbours, inOrder, closings);
    return {
      joins: inOrder.map((j) => ({ ...j, needs: [...j.needs, ...zipNeeds(zips, j.key)] })),
      zips,
      edges,
    };
  },
);

/** What an edge step needs of the seams that end on its edges. */
function needsOfEdge(step: EdgeStep, work: EdgeWorkToDo, { wholes }: Neighbours, sleeves: Sleeves): Need[] {
  const ends = (edges: readonly EdgeRef[]): boolean =>
    edges.some((x) => step.edges.some((y) => areBeside(wholes, x, y)));
  const comesLater = (j: JoinStep): boolean => isCaughtBySides(step, sleeves) && j.roles.some(isSide);
  const joins = work.joins.filter((j) => ends(j.edges) && !comesLater(j));
  const zips = work.zips.filter(
    (z) => ends(z.sides) && !work.joins.some((j) => j.key === z.seam?.key && comesLater(j)),
  );
  return [...joins, ...zips].map((s) => caught(s.key));
}

/** Edges and what is on them, for one derivation. */
export interface Ground {
  readonly pieces: readonly PanelledPiece[];
  readonly neighbours: Neighbours;
  /** Tasks of the pieces, in order. */
  readonly tasks: readonly Task[];
  readonly sleeves: Sleeves;
}

/** Panels along edges, in ring order; each once. */
function panelsAlong(pieces: ReadonlyMap<PieceId, PanelledPiece>, edges: readonly EdgeRef[]): PanelId[] {
  return unique(
    edges.flatMap(({ piece, edge }) => edgesAlong(pieces.get(piece)!)[edge]!.map((s) => s.panel)),
  );
}

/** What of the pieces is caught by sewing along edges. */
function caughtOn(edges: readonly EdgeRef[], tasks: readonly Task[]): Need[] {
  return tasks.flatMap((task): Need[] => {
    const reach = task.reaches.find((r) =>
      edges.some((e) => sameEdge(e, { piece: task.piece!, edge: r.edge })),
    );
    return reach ? [{ key: task.key, because: { kind: 'end is caught', at: reach.at } }] : [];
  });
}

/** What is sewn along outer edges, as tasks: joins of pieces, zips, edges to finish, hems. */
export function garmentTasks(
  work: EdgeWorkToDo,
  { pieces, neighbours, tasks, sleeves }: Ground,
): readonly Task[] {
  const byId = new Map(pieces.map((p) => [p.whole.piece.id, p] as const));
  const line = (a: readonly EdgeRef[], b: readonly EdgeRef[]): SewnLine => ({
    a: panelsAlong(byId, a),
    b: panelsAlong(byId, b),
  });
  const onlyPiece = (edges: readonly EdgeRef[]): PieceId | null =>
    edges.every((e) => e.piece === edges[0]!.piece) ? edges[0]!.piece : null;
  const joins = work.joins.map((j) =>
    taskOf({
      ...{ key: j.key, kind: 'join', place: j.place, piece: onlyPiece(j.edges) },
      needs: [...j.needs, ...caughtOn(j.edges, tasks)],
      lines: j.joins.map(({ a, b }) => line([a], [b])),
      edges: j.edges,
      what: j.what,
    }),
  );
  const zips = work.zips.map((z) =>
    taskOf({
      ...{ key: z.key, kind: 'zip', place: z.place, piece: onlyPiece(z.sides), closing: z.closing },
      needs: [...z.needs, ...caughtOn(z.sides, tasks)],
      lines: [line([z.sides[0]], [z.sides[1]])],
      edges: unique(z.sides.map((s) => s.edge)).length === 1 && onlyPiece(z.sides) ? [z.sides[0]] : z.sides,
      what: `the ${plainNames(neighbours, z.sides)}`,
    }),
  );
  const edges = work.edges.map((e) =>
    taskOf({
      ...{ key: e.key, kind: e.kind, place: e.place, piece: onlyPiece(e.edges) },
      needs: [...needsOfEdge(e, work, neighbours, sleeves), ...caughtOn(e.edges, tasks)],
      lines: [{ a: panelsAlong(byId, e.edges), b: [] }],
      edges: e.edges,
      what: plainNames(neighbours, e.edges),
    }),
  );
  return [...joins, ...zips, ...edges];
}

/** `neckline`; names of several edges once each. */
const plainNames = ({ wholes }: Neighbours, edges: readonly EdgeRef[]): string =>
  unique(edges.map((e) => plainKey(wholes, e).slice(e.piece.length + 1))).join(' and ');

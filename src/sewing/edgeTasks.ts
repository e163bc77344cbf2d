import { type EdgeRef, type EdgeRole, type EdgeWork, type SeamJoin, sameEdge } from '../neighbours';
import type { Facing } from '../pattern';
import { type EdgesKnown, areBeside, plainKey, runsOn } from './edgeRing';
import { HEM_PLACE, type Sleeves, finishPlace } from './joinPlaces';
import type { StepKey } from './plan';

/** Outer edges that are finished or hemmed in one go, all round as far as the seams between them make it. */
export interface EdgeStep {
  readonly key: StepKey;
  readonly kind: 'edge' | 'hem';
  readonly role: EdgeRole | null;
  readonly edges: readonly EdgeRef[];
  readonly place: number;
}

/** Edges that lie open on a garment: they are finished even where nobody said how. */
const OPEN: readonly (EdgeRole | null)[] = ['neckline', 'armhole', 'waist'];

const isFaced = ({ piece, plainName }: EdgeWork, facings: readonly Facing[]): boolean =>
  facings.some((f) => f.piece === piece && f.edge === plainName);

function kindOf(work: EdgeWork, facings: readonly Facing[]): EdgeStep['kind'] | null {
  const { job, role } = work;
  if (job.kind === 'hem') return 'hem';
  if (job.kind === 'bound') return 'edge';
  return job.kind === 'left' && (OPEN.includes(role) || isFaced(work, facings)) ? 'edge' : null;
}

interface Open {
  readonly work: EdgeWork;
  readonly kind: EdgeStep['kind'];
}

const isAlike = (p: Open, q: Open): boolean =>
  p.kind === q.kind &&
  p.work.role === q.work.role &&
  (p.work.role !== null || p.work.plainName === q.work.plainName);

/** Edges that run on in each other: beside each other on one piece, or over the end of a seam. */
function groupsOf(open: readonly Open[], joins: readonly SeamJoin[], { wholes }: EdgesKnown): Open[][] {
  const passages = joins.flatMap((j) => runsOn(wholes, j));
  const continues = (p: EdgeRef, q: EdgeRef): boolean =>
    areBeside(wholes, p, q) ||
    passages.some(([x, y]) => (sameEdge(x, p) && sameEdge(y, q)) || (sameEdge(x, q) && sameEdge(y, p)));
  const rest = [...open];
  const groups: Open[][] = [];
  while (rest.length > 0) {
    const group = rest.splice(0, 1);
    for (const own of group)
      for (const other of [...rest]) {
        // an edge and its mirror image are told once, wherever they are
        const isImage = plainKey(wholes, own.work) === plainKey(wholes, other.work);
        if (!isAlike(own, other) || !(isImage || continues(own.work, other.work))) continue;
        group.push(other);
        rest.splice(rest.indexOf(other), 1);
      }
    groups.push(group);
  }
  return groups;
}

/** Necklines and other open edges to finish, and hems. */
export function edgeSteps(
  neighbours: EdgesKnown,
  facings: readonly Facing[],
  sleeves: Sleeves,
): readonly EdgeStep[] {
  const open = [...neighbours.jobs.edges.values()].flat().flatMap((work): Open[] => {
    const kind = kindOf(work, facings);
    return kind ? [{ work, kind }] : [];
  });
  return groupsOf(open, neighbours.jobs.joins, neighbours).map((group, i): EdgeStep => {
    const [{ work, kind }] = group as [Open];
    return {
      key: `${kind} ${plainKey(neighbours.wholes, work)}`,
      kind,
      role: work.role,
      edges: group.map(({ work: { piece, edge } }) => ({ piece, edge })),
      place: (kind === 'hem' ? HEM_PLACE : finishPlace(work.role, sleeves)) + i / 1000,
    };
  });
}

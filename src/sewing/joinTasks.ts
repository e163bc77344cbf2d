import { type EdgeRef, type EdgeRole, type Neighbours, type SeamJoin, sameEdge } from '../neighbours';
import { areBeside, plainKey } from './edgeRing';
import { type Sleeves, joinPlace, mustPrecede } from './joinPlaces';
import { joinWords } from './joinWords';
import type { Need, StepKey } from './plan';

/** Seams between pieces that are sewn in one step: both body sides, both parts of a cap, a side with its sleeve's underarm seam. */
export interface JoinStep {
  readonly key: StepKey;
  readonly joins: readonly SeamJoin[];
  readonly roles: readonly (EdgeRole | null)[];
  /** Edges of both sides, each once. */
  readonly edges: readonly EdgeRef[];
  readonly place: number;
  readonly needs: readonly Need[];
  /** `both side seams`: what it is called. */
  readonly what: string;
}

type Sewn = Pick<Neighbours, 'wholes'> & { readonly joins: readonly SeamJoin[] };

function edgesOnce(edges: readonly EdgeRef[]): EdgeRef[] {
  const found: EdgeRef[] = [];
  for (const { piece, edge } of edges)
    if (!found.some((f) => sameEdge(f, { piece, edge }))) found.push({ piece, edge });
  return found;
}

/** Whether front and back, which a cap is sewn to, hang together by then: without a shoulder seam each is sewn to it for itself. */
const isCapInOne = ({ role, a, b }: SeamJoin, joins: readonly SeamJoin[]): boolean =>
  role === 'armhole' &&
  joins
    .filter((j) => j.role === 'armhole' && sameEdge(j.b, b) && j.a.piece !== a.piece)
    .every((other) =>
      joins.some(
        (j) =>
          j.role === 'shoulder' &&
          [j.a.piece, j.b.piece].includes(a.piece) &&
          [j.a.piece, j.b.piece].includes(other.a.piece),
      ),
    );

/** Joins that are each other's mirror image, and the two that sew one cap in, together. */
function gathered({ joins, wholes }: Sewn): SeamJoin[][] {
  const groups = new Map<string, SeamJoin[]>();
  for (const join of joins) {
    const [a, b] = [plainKey(wholes, join.a), plainKey(wholes, join.b)];
    const key = isCapInOne(join, joins) ? `armhole ${b}` : `${a} ${b}`;
    groups.set(key, [...(groups.get(key) ?? []), join]);
  }
  return [...groups.values()];
}

const hasRole = (group: readonly SeamJoin[], role: EdgeRole): boolean => group.some((j) => j.role === role);
const meet = ({ wholes }: Sewn, one: readonly SeamJoin[], other: readonly SeamJoin[]): boolean =>
  one.some((p) => other.some((q) => [p.a, p.b].some((s) => [q.a, q.b].some((t) => areBeside(wholes, s, t)))));

/** With sleeves sewn in flat, a side and the underarm seam of the sleeve above it are sewn in one go. */
function withUnderarms(groups: readonly SeamJoin[][], sewn: Sewn): SeamJoin[][] {
  let all = [...groups];
  for (const armhole of groups.filter((g) => hasRole(g, 'armhole'))) {
    const closing = all.filter(
      (g) => (hasRole(g, 'side seam') || hasRole(g, 'underarm seam')) && meet(sewn, g, armhole),
    );
    if (closing.length < 2) continue;
    // the sides come first: they give the step its name
    const merged = closing
      .toSorted((p, q) => Number(hasRole(q, 'side seam')) - Number(hasRole(p, 'side seam')))
      .flat();
    all = all.flatMap((g) => (g === closing[0] ? [merged] : closing.includes(g) ? [] : [g]));
  }
  return all;
}

/** Steps that sew pieces to each other, with what they need of each other. */
export function joinSteps(sewn: Sewn, sleeves: Sleeves): readonly JoinStep[] {
  const { wholes } = sewn;
  const groups = gathered(sewn);
  const merged = sleeves === 'flat' ? withUnderarms(groups, sewn) : groups;
  const steps = merged.map((joins, i): JoinStep => ({
    key: `join ${plainKey(wholes, joins[0]!.a)} ${plainKey(wholes, joins[0]!.b)}`,
    joins,
    roles: [...new Set(joins.map((j) => j.role))],
    edges: edgesOnce(joins.flatMap((j) => [j.a, j.b])),
    place: Math.min(...joins.map((j) => joinPlace(j.role, sleeves))) + i / 1000,
    needs: [],
    what: joinWords(joins, wholes),
  }));
  return steps.map((step) => ({ ...step, needs: needsAmong(step, steps, sewn, sleeves) }));
}

function needsAmong(step: JoinStep, all: readonly JoinStep[], sewn: Sewn, sleeves: Sleeves): Need[] {
  return all.flatMap((other): Need[] => {
    if (other === step) return [];
    const kinds = step.joins.flatMap((later) =>
      other.joins
        .filter((first) => meet(sewn, [first], [later]))
        .map((first) => mustPrecede(first.role, later.role, sleeves)),
    );
    const kind = kinds.find((k) => k !== null);
    return kind ? [{ key: other.key, because: { kind, at: null } as Need['because'] }] : [];
  });
}

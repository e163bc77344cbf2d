import { type EdgeAnswer, type EdgeJob, type WholePiece, remember, sewnEdge } from '../pattern';
import { type EdgeInPlace, type EdgeRole, roleOfName, wordsOfPiece } from './edgeRole';
import { edgePairs } from './bodySides';
import { joinCap, joinEdges } from './makeJoin';
import { type Bearers, meetsItself, meetsItsLike, partnerOf } from './proposePairs';
import { type EdgeJobs, type EdgeRef, type EdgeWork, type SeamJoin, sameEdge } from './seamJoin';

/** An edge with what is known of it before seams are looked for. */
interface Known extends EdgeInPlace {
  readonly role: EdgeRole | null;
  readonly answer: EdgeJob | null;
}

const plain = ({ whole, edge }: EdgeInPlace): string => whole.edges[edge]!.plainName;

/** Whether a setting kept under a name is meant for an edge: its plain name, or the number it had before it got a name. */
export function isKeptAs(edge: WholePiece['edges'][number], name: string): boolean {
  return edge.plainName === name || edge.numbered === name;
}

function knownEdges(wholes: readonly WholePiece[], answers: readonly EdgeAnswer[]): Known[] {
  return wholes.flatMap((whole) =>
    whole.edges.map((e, edge): Known => {
      const own = answers.filter((a) => a.piece === whole.piece.id && isKeptAs(e, a.edge));
      return { whole, edge, role: roleOfName(e.plainName), answer: own.at(-1)?.job ?? null };
    }),
  );
}

/** Edges by piece, in the order of the pieces. */
function bearers(edges: readonly Known[]): Bearers[] {
  const wholes = [...new Set(edges.map((k) => k.whole))];
  return wholes.map((whole) => ({
    whole,
    edges: edges.filter((k) => k.whole === whole).map((k) => k.edge),
  }));
}

const inPlace = (whole: WholePiece, edge: number): EdgeInPlace => ({ whole, edge });

/** The two edges of one name on a piece are sewn to each other; the only one of a pair to that of the other copy. */
function joinsWithin({ whole, edges }: Bearers, role: EdgeRole | null): SeamJoin[] {
  if (edges.length === 2) return [joinEdges(inPlace(whole, edges[0]!), inPlace(whole, edges[1]!), role)];
  if (edges.length === 1 && whole.piece.cutting === 'pair')
    return [joinEdges(inPlace(whole, edges[0]!), inPlace(whole, edges[0]!), role)];
  return [];
}

const joinsBetween = (a: Bearers, b: Bearers, role: EdgeRole | null): SeamJoin[] =>
  edgePairs(a, b).map(([x, y]) => joinEdges(inPlace(a.whole, x), inPlace(b.whole, y), role));

const lengthOf = ({ whole, edges }: Bearers): number => sewnEdge(whole, edges[0]!).length;

/** The armholes a cap goes into: one front and one back, of two pieces whose names do not tell the first is the front. Null where there are more. */
function armholesFor(armholes: readonly Bearers[]): readonly [Bearers, Bearers] | null {
  const of = (part: 'front' | 'back'): Bearers[] =>
    armholes.filter((b) => wordsOfPiece(b.whole.name).part === part);
  const [front, back] = [of('front'), of('back')];
  if (front.length === 1 && back.length === 1) return [front[0]!, back[0]!];
  if (armholes.length !== 2 || front.length + back.length > 1) return null;
  const [one, other] = armholes as [Bearers, Bearers];
  return front[0] === other || back[0] === one ? [other, one] : [one, other];
}

function joinsOfCap(cap: Bearers, [front, back]: readonly [Bearers, Bearers]): SeamJoin[] {
  const lengths = { front: lengthOf(front), back: lengthOf(back) };
  return [front, back].flatMap((armhole, i) =>
    edgePairs(armhole, cap).map(([x, y]) =>
      joinCap(inPlace(armhole.whole, x), inPlace(cap.whole, y), i === 0, lengths),
    ),
  );
}

/** A piece's place among the garment's. */
const placeOf = (known: readonly Known[], { whole }: Bearers): number =>
  known.findIndex((k) => k.whole === whole);

/** Seams the user has asked for. */
function answeredJoins(known: readonly Known[]): SeamJoin[] {
  const seen = new Set<string>();
  return bearersByName(known.filter((k) => k.answer?.kind === 'joins')).flatMap(({ role, answer, own }) => {
    if (answer?.kind !== 'joins') return [];
    const others = bearers(
      known.filter((k) => k.whole.piece.id === answer.piece && isKeptAs(k.whole.edges[k.edge]!, answer.edge)),
    )[0];
    if (!others) return [];
    const key = [own, others]
      .map((b) => `${b.whole.piece.id}/${b.edges.join('+')}`)
      .sort()
      .join(' ');
    if (seen.has(key)) return [];
    seen.add(key);
    if (own.whole === others.whole)
      return joinsWithin({ ...own, edges: [...new Set([...own.edges, ...others.edges])] }, role);
    const otherRole = roleOfName(plain(inPlace(others.whole, others.edges[0]!)));
    if (role === 'armhole' && otherRole === 'sleeve cap') return answeredCap(known, own, others);
    if (role === 'sleeve cap' && otherRole === 'armhole') return answeredCap(known, others, own);
    const isFirst = placeOf(known, own) < placeOf(known, others);
    return isFirst
      ? joinsBetween(own, others, role ?? otherRole)
      : joinsBetween(others, own, role ?? otherRole);
  });
}

/** A cap and one armhole, by answer: the other armhole is taken from the names. */
function answeredCap(known: readonly Known[], armhole: Bearers, cap: Bearers): SeamJoin[] {
  const all = bearers(known.filter((k) => k.role === 'armhole'));
  const pair = armholesFor(all);
  if (!pair) return joinsBetween(armhole, cap, 'armhole');
  return joinsOfCap(cap, pair).filter((j) => j.a.piece === armhole.whole.piece.id);
}

function bearersByName(
  known: readonly Known[],
): { role: EdgeRole | null; answer: EdgeJob | null; own: Bearers }[] {
  const groups = new Map<string, Known[]>();
  for (const k of known) {
    const key = `${k.whole.piece.id} ${plain(k)}`;
    groups.set(key, [...(groups.get(key) ?? []), k]);
  }
  return [...groups.values()].map((g) => ({
    role: g[0]!.role,
    answer: g[0]!.answer,
    own: { whole: g[0]!.whole, edges: g.map((k) => k.edge) },
  }));
}

/** What edges are likely to be sewn to each other, and which of those without a partner are doubtful. */
interface Proposal {
  readonly joins: readonly SeamJoin[];
  readonly doubtful: readonly EdgeRef[];
}

const refOf = (whole: WholePiece, edge: number): EdgeRef => ({ piece: whole.piece.id, edge });
const refsOf = ({ whole, edges }: Bearers): EdgeRef[] => edges.map((e) => refOf(whole, e));

function proposeAmong(all: readonly Bearers[], role: EdgeRole | null): Proposal {
  const joins: SeamJoin[] = [];
  const doubtful: EdgeRef[] = [];
  const done = new Set<Bearers>();
  for (const own of all) {
    const within = meetsItself(role) ? joinsWithin(own, role) : [];
    if (within.length > 0) {
      joins.push(...within);
      continue;
    }
    if (done.has(own)) continue;
    const partner =
      meetsItsLike(role) || meetsItself(role) ? partnerOf(own, all, role) : ({ kind: 'none' } as const);
    const isOpen =
      role !== 'zip' && (partner.kind === 'several' || (partner.kind === 'none' && meetsItself(role)));
    if (partner.kind !== 'one') {
      if (isOpen || role === null) doubtful.push(...refsOf(own));
      continue;
    }
    for (const other of partner.partners) joins.push(...joinsBetween(own, other, role));
    for (const b of [own, ...partner.partners]) done.add(b);
  }
  return { joins, doubtful };
}

/** Both armholes are looked at, also one that is spoken for: the cap is divided between them. */
function proposeCaps(known: readonly Known[], isFree: (k: Known) => boolean): Proposal {
  const caps = bearers(known.filter((k) => k.role === 'sleeve cap' && isFree(k)));
  if (caps.length === 0) return { joins: [], doubtful: [] };
  const armholes = bearers(known.filter((k) => k.role === 'armhole'));
  const pair = armholesFor(armholes);
  const free = (e: EdgeRef): boolean => known.some((k) => isFree(k) && sameEdge(refOf(k.whole, k.edge), e));
  if (pair)
    return {
      joins: caps.flatMap((cap) => joinsOfCap(cap, pair)).filter((j) => free(j.a)),
      doubtful: [],
    };
  return { joins: [], doubtful: armholes.length > 0 ? caps.flatMap(refsOf) : [] };
}

/** Names that have no meaning of their own: numbered edges are never taken to join their namesakes. */
const isNumbered = (k: Known): boolean => k.whole.edges[k.edge]!.naming === 'numbered';

function propose(all: readonly Known[], isFree: (k: Known) => boolean): Proposal {
  const known = all.filter(isFree);
  const named = known.filter((k) => !isNumbered(k));
  const keys = [...new Set(named.map((k) => k.role ?? plain(k)))];
  const parts = keys
    .filter((key) => key !== 'sleeve cap' && key !== 'armhole')
    .map((key) => {
      const own = named.filter((k) => (k.role ?? plain(k)) === key);
      return proposeAmong(bearers(own), own[0]!.role);
    });
  const found = [proposeCaps(all, isFree), ...parts];
  return {
    joins: found.flatMap((p) => p.joins),
    doubtful: [
      ...found.flatMap((p) => p.doubtful),
      ...known.filter(isNumbered).map((k) => refOf(k.whole, k.edge)),
    ],
  };
}

/** The job an edge has when nobody has said otherwise and it joins nothing. A neckline keeps its allowance until it is said to be bound. */
function jobAlone(role: EdgeRole | null): EdgeJob {
  return role === 'hem' || role === 'zip' || role === 'fold' ? { kind: role } : { kind: 'left' };
}

function workOf(known: Known, joins: readonly SeamJoin[], doubtful: readonly EdgeRef[]): EdgeWork {
  const ref = refOf(known.whole, known.edge);
  const joined = joins.flatMap(({ a, b }): EdgeRef[] => [
    ...(sameEdge(a, ref) ? [{ piece: b.piece, edge: b.edge }] : []),
    ...(sameEdge(b, ref) && !sameEdge(a, b) ? [{ piece: a.piece, edge: a.edge }] : []),
  ]);
  return { ...ref, ...namesOf(known), role: known.role, ...jobOf(known, joined, doubtful, ref), joined };
}

const namesOf = ({ whole, edge }: Known): { name: string; plainName: string } => {
  const { name, plainName } = whole.edges[edge]!;
  return { name, plainName };
};

function jobOf(
  { answer, role }: Known,
  joined: readonly EdgeRef[],
  doubtful: readonly EdgeRef[],
  ref: EdgeRef,
): Pick<EdgeWork, 'job' | 'isAnswered' | 'isSure'> {
  if (answer && (answer.kind !== 'joins' || joined.length > 0))
    return { job: answer, isAnswered: true, isSure: true };
  if (joined.length > 0 && role === 'zip') return { job: { kind: 'zip' }, isAnswered: false, isSure: true };
  if (joined.length > 0)
    return { job: { kind: 'joins', piece: joined[0]!.piece, edge: '' }, isAnswered: false, isSure: true };
  const isDoubtful = answer !== null || doubtful.some((d) => sameEdge(d, ref));
  return { job: jobAlone(role), isAnswered: false, isSure: !isDoubtful };
}

/** Proposed joins name the other edge by its plain name. */
function withNames(work: EdgeWork, wholes: readonly WholePiece[]): EdgeWork {
  if (work.job.kind !== 'joins' || work.isAnswered) return work;
  const [to] = work.joined;
  const whole = wholes.find((w) => w.piece.id === to!.piece)!;
  return { ...work, job: { ...work.job, edge: whole.edges[to!.edge]!.plainName } };
}

/**
 * What becomes of every edge of a garment: as answered, else proposed from the edges' names and the pieces there are. Edges
 * that join give the seams. An answer wins over proposals on both sides of it; one that names an edge that is not there
 * any more leaves a question.
 */
export const edgeJobs = (wholes: readonly WholePiece[], answers: readonly EdgeAnswer[]): EdgeJobs =>
  jobsOnce(answers, wholes);

/** Remembered by the answers: they stay the same object while lines are moved. */
const jobsOnce = remember((answers: readonly EdgeAnswer[], wholes: readonly WholePiece[]): EdgeJobs => {
  const known = knownEdges(wholes, answers);
  const asked = answeredJoins(known).filter((j) => !isRefused(known, j));
  const isTaken = (k: Known): boolean =>
    (k.answer !== null && k.answer.kind !== 'zip') ||
    asked.some((j) =>
      [j.a, j.b].some((side) => sameEdge(side, refOf(k.whole, k.edge)) && k.role !== 'sleeve cap'),
    );
  const { joins: proposed, doubtful } = propose(known, (k) => !isTaken(k));
  const joins = [...asked, ...proposed];
  const edges = wholes.map((whole) => {
    const own = known.filter((k) => k.whole === whole).map((k) => workOf(k, joins, doubtful));
    return [whole.piece.id, own.map((w) => withNames(w, wholes))] as const;
  });
  return { edges: new Map(edges), joins };
});

/** A seam to an edge that the user has given another job. One with a zip is still sewn to its like, below the zip's stop. */
function isRefused(known: readonly Known[], { a, b }: SeamJoin): boolean {
  return [a, b].some((side) => {
    const own = known.find((k) => sameEdge(refOf(k.whole, k.edge), side))!;
    return own.answer !== null && own.answer.kind !== 'joins' && own.answer.kind !== 'zip';
  });
}

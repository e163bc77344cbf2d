import { type Path, type Pt, curveLength, dot, directionAt, reversePath, scale } from '../geometry';
import type { LaidLine, PanelledPiece, Stretch } from '../panels';

/**
 * What is sewn in one go if nothing stands in its way: stretches end to end, of one line or of lines that meet end to end
 * in the open (the corner of an inset).
 */
export interface Chain {
  /** Index among the piece's chains. */
  readonly index: number;
  /** Drawing order of its earliest line. */
  readonly order: number;
  readonly lines: readonly LaidLine[];
  readonly stretches: readonly Stretch[];
  readonly isClosed: boolean;
}

type Loose = Omit<Chain, 'index'>;

const nodesOf = (stretches: readonly Stretch[]): number[] => [
  stretches[0]!.from,
  ...stretches.map((s) => s.to),
];

const flipped = (stretches: readonly Stretch[]): Stretch[] =>
  stretches
    .map((s): Stretch => ({ ...s, a: s.b, b: s.a, from: s.to, to: s.from, path: reversePath(s.path) }))
    .reverse();

/** Part a line where it meets itself: only plain stretches and plain rings can be sewn in one go. */
function withoutSelfContact(line: LaidLine, stretches: readonly Stretch[]): Loose[] {
  const nodes = nodesOf(stretches);
  const visits = new Map<number, number>();
  for (const n of nodes) visits.set(n, (visits.get(n) ?? 0) + 1);
  const isRing = nodes[0] === nodes.at(-1);
  const repeated = nodes.filter((n) => visits.get(n)! > 1);
  const isPlain = repeated.length === 0 || (isRing && repeated.length === 2);
  if (isPlain) return [{ order: line.order, lines: [line], stretches, isClosed: isRing }];
  const parts: Stretch[][] = [[]];
  stretches.forEach((s, i) => {
    parts.at(-1)!.push(s);
    if (i + 1 < stretches.length && visits.get(s.to)! > 1) parts.push([]);
  });
  return parts.map((part) => ({
    order: line.order,
    lines: [line],
    stretches: part,
    isClosed: part[0]!.from === part.at(-1)!.to,
  }));
}

/** Direction in which a chain leaves a node it ends at. */
function leaving(chain: Loose, atStart: boolean): Pt {
  const path: Path = atStart ? chain.stretches[0]!.path : chain.stretches.at(-1)!.path;
  const solid = path.filter((c) => curveLength(c) > 0);
  if (solid.length === 0) return [0, 0];
  return atStart ? directionAt(solid[0]!, 0) : scale(directionAt(solid.at(-1)!, 1), -1);
}

interface ChainEnd {
  readonly chain: Loose;
  readonly atStart: boolean;
}

function endsAt(chains: readonly Loose[], node: number): ChainEnd[] {
  return chains.flatMap((chain): ChainEnd[] => {
    if (chain.isClosed) return [];
    const ends: ChainEnd[] = [];
    if (chain.stretches[0]!.from === node) ends.push({ chain, atStart: true });
    if (chain.stretches.at(-1)!.to === node) ends.push({ chain, atStart: false });
    return ends;
  });
}

function joined(first: ChainEnd, second: ChainEnd): Loose {
  if (first.chain === second.chain) return { ...first.chain, isClosed: true };
  const head = first.atStart ? flipped(first.chain.stretches) : first.chain.stretches;
  const tail = second.atStart ? second.chain.stretches : flipped(second.chain.stretches);
  const lines = [...first.chain.lines, ...second.chain.lines.filter((l) => !first.chain.lines.includes(l))];
  const stretches = [...head, ...tail];
  const isClosed = stretches[0]!.from === stretches.at(-1)!.to;
  return { order: Math.min(first.chain.order, second.chain.order), lines, stretches, isClosed };
}

/** The pair of ends that runs on most nearly straight, leaving no other end of the same chain behind at the node. */
function straightestPair(ends: readonly ChainEnd[]): readonly [ChainEnd, ChainEnd] | null {
  let best: readonly [ChainEnd, ChainEnd] | null = null;
  let least = Infinity;
  ends.forEach((p, i) => {
    ends.slice(i + 1).forEach((q) => {
      const leftBehind = ends.some((e) => e !== p && e !== q && (e.chain === p.chain || e.chain === q.chain));
      if (leftBehind) return;
      const turn = dot(leaving(p.chain, p.atStart), leaving(q.chain, q.atStart));
      if (turn < least) [best, least] = [[p, q], turn];
    });
  });
  return best;
}

/** Join ends that meet in the open, where no chain runs through. */
function joinEnds(chains: Loose[], outlineNodes: ReadonlySet<number>): Loose[] {
  const through = new Set(chains.flatMap((c) => nodesOf(c.stretches).slice(1, -1)));
  const closedAt = chains.filter((c) => c.isClosed).map((c) => c.stretches[0]!.from);
  const endNodes = new Set(chains.flatMap((c) => [c.stretches[0]!.from, c.stretches.at(-1)!.to]));
  for (const node of [...endNodes].sort((a, b) => a - b)) {
    if (outlineNodes.has(node) || through.has(node) || closedAt.includes(node)) continue;
    const pair = straightestPair(endsAt(chains, node));
    if (!pair) continue;
    const [p, q] = pair;
    const rest = chains.filter((c) => c !== p.chain && c !== q.chain);
    const place = chains.indexOf(p.chain);
    const merged = joined(p, q);
    chains = [...rest.slice(0, place), merged, ...rest.slice(place)];
  }
  return chains;
}

/** The chains of one sliced piece, in drawing order. */
export function chainsOf(piece: Pick<PanelledPiece, 'runs' | 'outlineNodes'>): readonly Chain[] {
  const single = piece.runs.flatMap(({ line, stretches }) => withoutSelfContact(line, stretches));
  return joinEnds(single, piece.outlineNodes).map((chain, index): Chain => ({ ...chain, index }));
}

/** All junctions of a chain in order; a closed one repeats its first at the end. */
export const chainNodes = (chain: Pick<Chain, 'stretches'>): readonly number[] => nodesOf(chain.stretches);

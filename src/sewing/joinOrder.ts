import type { PanelId, PanelledPiece, SeamId, Stretch } from '../panels';
import { type Chain, chainNodes, chainsOf } from './chains';
import { Groups } from './groups';

/** One join of panels of a piece, before numbers and words. */
export interface Join {
  readonly kind: 'seam' | 'partial seam';
  readonly left: readonly PanelId[];
  readonly right: readonly PanelId[];
  readonly seams: readonly SeamId[];
  readonly chain: Chain;
  /** True where a seam left open earlier is finished. */
  readonly finishes: boolean;
  /** The junction at which a partial seam is left open. */
  readonly openAt: number | null;
}

interface Contacts {
  readonly through: ReadonlyMap<number, readonly Chain[]>;
  readonly ending: ReadonlyMap<number, readonly Chain[]>;
}

/** Which chains run through, and which end at, each junction inside the piece. */
function contactsOf(chains: readonly Chain[], outlineNodes: ReadonlySet<number>): Contacts {
  const through = new Map<number, Chain[]>();
  const ending = new Map<number, Chain[]>();
  const note = (map: Map<number, Chain[]>, node: number, chain: Chain): void => {
    if (outlineNodes.has(node)) return;
    map.set(node, [...(map.get(node) ?? []), chain]);
  };
  for (const chain of chains) {
    const nodes = chainNodes(chain);
    for (const n of chain.isClosed ? nodes.slice(1) : nodes.slice(1, -1)) note(through, n, chain);
    if (!chain.isClosed) for (const n of [nodes[0]!, nodes.at(-1)!]) note(ending, n, chain);
  }
  return { through, ending };
}

/**
 * The joins of one piece in an order in which no seam is trapped.
 * A chain that ends on another is sewn before it. At crossings the earlier drawn chain runs through, the later one is sewn
 * in parts before it; each crossing breaks exactly one chain, so the number of seams is the same whichever is chosen. Only
 * a ring's first break makes no further part, so a ring (an inset) that an open chain crosses is sewn in parts before it.
 * Where chains end on each other in a ring, one of them is begun, left partly open and finished later.
 * Time grows with junctions + chains², memory with junctions.
 */
export function joinOrder(piece: PanelledPiece): readonly Join[] {
  const chains = chainsOf(piece);
  return new Ordering(
    chains,
    contactsOf(chains, piece.outlineNodes),
    piece.panels.map((p) => p.id),
  ).run();
}

/** What of a chain is sewn already; it stands in nobody's way at its closed nodes. */
interface Begun {
  readonly stretches: ReadonlySet<Stretch>;
  readonly closedNodes: ReadonlySet<number>;
}

class Ordering {
  readonly #waiting: Set<Chain>;
  readonly #before = new Map<Chain, Set<Chain>>();
  readonly #begun = new Map<Chain, Begun>();
  readonly #groups: Groups;
  readonly #contacts: Contacts;
  readonly #joins: Join[] = [];
  /** Rings that an open chain crosses. */
  readonly #crossedRings = new Set<Chain>();

  constructor(chains: readonly Chain[], contacts: Contacts, panels: readonly PanelId[]) {
    this.#waiting = new Set(chains);
    this.#contacts = contacts;
    this.#groups = new Groups(panels);
    for (const chain of chains) this.#before.set(chain, new Set());
    for (const [node, enders] of contacts.ending)
      for (const t of contacts.through.get(node) ?? [])
        for (const e of enders) if (e !== t) this.#before.get(t)!.add(e);
    for (const meeting of contacts.through.values())
      if (meeting.some((c) => !c.isClosed))
        for (const c of meeting) if (c.isClosed) this.#crossedRings.add(c);
  }

  run(): readonly Join[] {
    while (this.#waiting.size > 0) {
      const ready = [...this.#waiting].filter((c) => this.#before.get(c)!.size === 0);
      const next = this.#lastDrawn(ready.filter((c) => this.#crossedRings.has(c))) ?? this.#lastDrawn(ready);
      if (next) this.#sew(next);
      else this.#begin();
    }
    return this.#joins;
  }

  #lastDrawn(chains: readonly Chain[]): Chain | undefined {
    return chains.reduce<Chain | undefined>(
      (best, c) => (best && best.order >= c.order ? best : c),
      undefined,
    );
  }

  /** Sew a chain between the junctions where something still unsewn meets it. */
  #sew(chain: Chain): void {
    for (const part of this.#parts(chain)) {
      const finishes = part.some((s) => this.#begun.get(chain)?.stretches.has(s));
      for (const run of this.#sameGroups(part)) this.#join(chain, run, finishes);
    }
    this.#waiting.delete(chain);
    for (const set of this.#before.values()) set.delete(chain);
  }

  #isBlocked(chain: Chain, node: number): boolean {
    const { through, ending } = this.#contacts;
    const isOpen = (c: Chain): boolean =>
      c !== chain && this.#waiting.has(c) && !this.#begun.get(c)?.closedNodes.has(node);
    return [...(through.get(node) ?? []), ...(ending.get(node) ?? [])].some(isOpen);
  }

  #parts(chain: Chain): Stretch[][] {
    let { stretches } = chain;
    if (chain.isClosed) {
      const first = stretches.findIndex((s) => this.#isBlocked(chain, s.from));
      if (first > 0) stretches = [...stretches.slice(first), ...stretches.slice(0, first)];
    }
    const parts: Stretch[][] = [];
    stretches.forEach((s, i) => {
      if (i === 0 || this.#isBlocked(chain, s.from)) parts.push([s]);
      else parts.at(-1)!.push(s);
    });
    return parts;
  }

  /** Each join brings two groups together: a part is divided where the group beside it changes. */
  #sameGroups(part: readonly Stretch[]): Stretch[][] {
    const runs: Stretch[][] = [];
    for (const s of part) {
      const last = runs.at(-1)?.[0];
      const goes =
        last &&
        this.#groups.of(last.a) === this.#groups.of(s.a) &&
        this.#groups.of(last.b) === this.#groups.of(s.b);
      if (goes) runs.at(-1)!.push(s);
      else runs.push([s]);
    }
    return runs;
  }

  #join(chain: Chain, run: readonly Stretch[], finishes: boolean): void {
    const begun = this.#begun.get(chain);
    const { a, b } = run[0]!;
    const [left, right] = [this.#groups.of(a), this.#groups.of(b)];
    const isClosing = left === right;
    const sides = isClosing ? [unique(run.map((s) => s.a)), unique(run.map((s) => s.b))] : [left, right];
    this.#joins.push({
      kind: isClosing && finishes ? 'partial seam' : 'seam',
      left: sides[0]!,
      right: sides[1]!,
      seams: unique(run.filter((s) => !begun?.stretches.has(s)).map((s) => s.seam)),
      chain,
      finishes: finishes && isClosing,
      openAt: null,
    });
    this.#groups.join(a, b);
  }

  /** Nothing can be sewn whole: begin the chain that needs it least far from done, at an end that others wait for. */
  #begin(): void {
    const offers = [...this.#waiting].filter((c) => !this.#begun.has(c)).flatMap((c) => this.#startsOf(c));
    const best = offers.toSorted(
      (p, q) =>
        this.#before.get(p.chain)!.size - this.#before.get(q.chain)!.size || q.chain.order - p.chain.order,
    )[0];
    if (!best) {
      // Every waiting chain is begun: sew one as it stands; its runs are parted by groups, so the plan stays true.
      this.#sew(this.#lastDrawn([...this.#waiting])!);
      return;
    }
    const { chain, part, openAt, endsOn } = best;
    const closedNodes = new Set(part.flatMap((s) => [s.from, s.to]).filter((n) => n !== openAt));
    this.#begun.set(chain, { stretches: new Set(part), closedNodes });
    const { a, b } = part[0]!;
    this.#joins.push({
      kind: 'partial seam',
      left: this.#groups.of(a),
      right: this.#groups.of(b),
      seams: unique(part.map((s) => s.seam)),
      chain,
      finishes: false,
      openAt,
    });
    this.#groups.join(a, b);
    for (const other of endsOn) this.#before.get(other)!.delete(chain);
  }

  /** From each end of a chain that others wait for, the stretches up to the first junction still blocked. */
  #startsOf(chain: Chain): { chain: Chain; part: Stretch[]; openAt: number; endsOn: readonly Chain[] }[] {
    if (chain.isClosed) return [];
    const nodes = chainNodes(chain);
    return [false, true].flatMap((fromStart) => {
      const node = fromStart ? nodes[0]! : nodes.at(-1)!;
      const endsOn = (this.#contacts.through.get(node) ?? []).filter(
        (c) => c !== chain && this.#waiting.has(c),
      );
      if (endsOn.length === 0) return [];
      const order = fromStart ? chain.stretches : chain.stretches.toReversed();
      const part: Stretch[] = [];
      let openAt = node;
      for (const s of order) {
        part.push(s);
        openAt = fromStart ? s.to : s.from;
        if (this.#isBlocked(chain, openAt)) break;
      }
      const { a, b } = part[0]!;
      const isOneJoin = part.every(
        (s) => this.#groups.of(s.a) === this.#groups.of(a) && this.#groups.of(s.b) === this.#groups.of(b),
      );
      return isOneJoin && this.#groups.of(a) !== this.#groups.of(b) ? [{ chain, part, openAt, endsOn }] : [];
    });
  }
}

const unique = <T>(items: readonly T[]): T[] => [...new Set(items)];

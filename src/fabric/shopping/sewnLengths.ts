import { type EdgeRef, type Neighbours, type Zip, sameEdge } from '../../neighbours';
import type { PanelledPiece, Seam, SeamId } from '../../panels';
import {
  type ColourId,
  type Design,
  type PieceId,
  type PlacedDart,
  dartLegLengths,
  sewnEdge,
} from '../../pattern';
import type { SewingPlan, Step } from '../../sewing';
import type { TrimRun } from '../../trim';

/** What is sewn: a garment is one. */
export interface SewnSource {
  readonly design: Pick<Design, 'colours' | 'trims'>;
  readonly pieces: readonly PanelledPiece[];
  readonly seamById: ReadonlyMap<SeamId, Seam>;
  readonly plan: Pick<SewingPlan, 'steps'>;
  readonly trims: readonly TrimRun[];
  readonly closings: readonly { readonly zip: Pick<Zip, 'id' | 'kind'>; readonly length: number }[];
  readonly neighbours: Neighbours;
  readonly extras?: SewnSource | null;
}

/** One step: how much is stitched, with what thread. */
export interface SewnStep {
  readonly kind: Step['kind'];
  /** Of the cloth, or the trim, that the thread goes with. */
  readonly thread: { readonly name: string; readonly fill: string };
  /** Rows of lockstitch, both copies of a pair, mm. */
  readonly sewn: number;
  /** Raw edges of cloth that are left along it, mm: two to a seam. */
  readonly raw: number;
  readonly closing: Step['closing'];
}

/**
 * Rows of stitching of a finished edge: a facing is sewn on and understitched, a binding sewn on and sewn down. A zip is sewn down on either
 * side. Common practice, no source.
 */
const EDGE_ROWS = 2;
const ZIP_ROWS = 2;

/** Sewn once for each dart: legs lie on each other. The longer one counts where they differ. */
function dartLength(dart: PlacedDart): number {
  const l = dartLegLengths(dart);
  const [first, last] = [Math.max(l[0]!, l.at(-1)!), dart.kind === 'double' ? Math.max(l[1]!, l[2]!) : 0];
  return first + last;
}

class Lengths {
  readonly #source: SewnSource;
  readonly #byId: ReadonlyMap<PieceId, PanelledPiece>;
  /** Seams between pieces that a step has claimed: one sewn in parts counts once. */
  readonly #joined = new Set<unknown>();

  constructor(source: SewnSource) {
    this.#source = source;
    this.#byId = new Map(source.pieces.map((p) => [p.whole.piece.id, p] as const));
  }

  #copies(piece: PieceId | null): number {
    return piece !== null && this.#byId.get(piece)?.whole.piece.cutting === 'pair' ? 2 : 1;
  }

  #seams(step: Step): number {
    const own = step.seams.flatMap((id) => this.#source.seamById.get(id) ?? []);
    return own.reduce((sum, s) => sum + Math.max(s.lengthA, s.lengthB) * this.#copies(s.piece), 0);
  }

  /** Two edges of pairs are sewn together twice, but for the one edge of a pair that is sewn to that of the other copy. */
  #joins({ edges }: Step): number {
    const has = (side: EdgeRef): boolean => edges.some((e) => sameEdge(e, side));
    let sum = 0;
    for (const { walk } of this.#source.neighbours.seams) {
      const { a, b } = walk.join;
      if (!has(a) || !has(b) || this.#joined.has(walk)) continue;
      this.#joined.add(walk);
      const copies = sameEdge(a, b) ? 1 : Math.min(this.#copies(a.piece), this.#copies(b.piece));
      sum += Math.max(walk.lengthA, walk.lengthB) * copies;
    }
    return sum;
  }

  #edges({ edges }: Step): number {
    return edges.reduce((sum, { piece, edge }) => {
      const own = this.#byId.get(piece);
      return own ? sum + sewnEdge(own.whole, edge).length * this.#copies(piece) : sum;
    }, 0);
  }

  #zip({ closing }: Step): number {
    return this.#source.closings.find((c) => c.zip.id === closing)?.length ?? 0;
  }

  #trim({ key }: Step): number {
    const runs = this.#source.trims.filter((t) => t.key === key);
    return runs.reduce((sum, t) => sum + t.length * t.trim.rows, 0);
  }

  /** @returns what is stitched, and along how much of it two raw edges lie, mm */
  of(step: Step): readonly [sewn: number, seam: number] {
    const once = (length: number): readonly [number, number] => [length, length];
    switch (step.kind) {
      case 'seam':
      case 'partial seam':
        return once(this.#seams(step));
      case 'join':
        return once(this.#joins(step));
      case 'dart':
        return [step.darts.reduce((sum, d) => sum + dartLength(d), 0) * this.#copies(step.piece), 0];
      case 'zip':
        return [ZIP_ROWS * this.#zip(step), 0];
      case 'edge':
        return [EDGE_ROWS * this.#edges(step), 0];
      case 'hem':
        return [this.#edges(step), 0];
      case 'trim':
        return [this.#trim(step), 0];
    }
  }
}

/** The thread of a step: its trim's, or its cloth's as the sewing plan names it; else that of the first cloth. */
function threadOf({ colours, trims }: SewnSource['design'], step: Step): { name: string; fill: string } {
  const ofCloth = (id: ColourId | null): Design['colours'][number] =>
    colours.find((c) => c.id === id) ?? colours[0]!;
  const { name, fill } =
    trims.find((t) => step.kind === 'trim' && t.id === step.trim) ?? ofCloth(step.thread);
  return { name, fill };
}

/** How much is stitched in every step of a garment, lining and facings included. What is sewn by hand or basted is not counted. */
export function sewnLengths(source: SewnSource): readonly SewnStep[] {
  const lengths = new Lengths(source);
  const own = source.plan.steps.map((step): SewnStep => {
    const [sewn, seam] = lengths.of(step);
    return {
      kind: step.kind,
      thread: threadOf(source.design, step),
      sewn,
      raw: 2 * seam,
      closing: step.closing,
    };
  });
  return source.extras ? [...own, ...sewnLengths(source.extras)] : own;
}

import type { Allowances, EdgeAllowance, EdgeAnswer, PieceId } from './design';

/** What a tracing holds inside its outline, for one piece: nothing (null) on a net one. */
export interface Included {
  /** Edges without a width of their own, mm. */
  readonly general: number;
  /** Hems, mm. */
  readonly hem: number;
  /** Widths set for single edges of this piece. */
  readonly edges: readonly EdgeAllowance[];
  /** What was said of this piece's edges: decides what is a hem, over their names. */
  readonly answers: readonly EdgeAnswer[];
}

/** What a design's tracings include at one piece; null where the outlines are stitching lines. */
export function includedOf(
  piece: PieceId,
  { tracing, hem, edges }: Allowances,
  answers: readonly EdgeAnswer[] = [],
): Included | null {
  if (tracing.kind === 'net') return null;
  return {
    general: tracing.included,
    hem,
    edges: edges.filter((e) => e.piece === piece),
    answers: answers.filter((a) => a.piece === piece),
  };
}

/**
 * Width that a cut tracing includes at one edge, mm: its own, else the hem's on a hem, else the general one.
 * @param keys what settings of the edge are kept under: its plain name, and the number it had before it was named
 * @param isHem     whether it is a hem by its name; an answer of the user counts more
 */
export function includedWidth(
  { general, hem, edges, answers }: Included,
  keys: readonly string[],
  isHem: boolean,
): number {
  const own = edges.find((e) => keys.includes(e.edge));
  if (own) return own.width;
  const answer = answers.find((a) => keys.includes(a.edge));
  return (answer ? answer.job.kind === 'hem' : isHem) ? hem : general;
}

import { type Path, type Pt, directionAt, endOf, scale, startOf } from '../geometry';
import type { PanelId, SeamId, Stretch } from '../panels';
import type { LineId, PieceId, Trim } from '../pattern';
import type { StepKey } from './plan';

/** An end of a strip of trim. */
export interface StripEnd {
  readonly at: Pt;
  /** Unit direction out of the strip. */
  readonly out: Pt;
  /** The junction of panel lines it lies at; null where it lies at none. */
  readonly node: number | null;
  /** Outline edges it runs into, indices into WholePiece.edges; two at a corner. */
  readonly edges: readonly number[];
}

/** A length of trim that is laid in one go: on a run of a panel line, or on a path of its own. */
export interface TrimStrip {
  /** `trim trim-1`, `trim trim-1 mirrored`, `trim trim-1 #2`: also the key of its step. */
  readonly key: StepKey;
  readonly trim: Trim;
  readonly piece: PieceId;
  /** Null on a path of its own. */
  readonly line: LineId | null;
  /** `L3 mirrored`; the trim's name on a path of its own. */
  readonly label: string;
  /** Its middle line on the whole piece. */
  readonly path: Path;
  readonly isClosed: boolean;
  readonly ends: readonly [StripEnd, StripEnd];
  /** The stretches of panel line it lies on, some perhaps only in part; none on a path of its own. */
  readonly stretches: readonly Stretch[];
  /** Seams that lie under it: they are sewn before. */
  readonly seams: readonly SeamId[];
  /** Panels that lie under it. */
  readonly panels: readonly PanelId[];
}

/** When seams of one piece are sewn: in which run, and what is known of the order of two. */
export interface SewnOrder {
  /** Seams of the same answer are sewn in one go. */
  readonly runOf: (seam: SeamId) => StepKey | number | undefined;
  readonly isBefore: (earlier: SeamId, later: SeamId) => boolean;
}

/** Unit directions out of a path at its two ends. */
export const outOf = (path: Path): readonly [Pt, Pt] => [
  scale(directionAt(path[0]!, 0), -1),
  directionAt(path.at(-1)!, 1),
];

/** Both ends of a strip on a path. */
export function endsOf(
  path: Path,
  where: readonly [Pick<StripEnd, 'node' | 'edges'>, Pick<StripEnd, 'node' | 'edges'>],
): readonly [StripEnd, StripEnd] {
  const [a, b] = outOf(path);
  return [
    { at: startOf(path), out: a, ...where[0] },
    { at: endOf(path), out: b, ...where[1] },
  ];
}

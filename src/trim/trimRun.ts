import type { LineId, PieceId, Trim } from '../pattern';

export type TrimEnd = 'seam' | 'under trim' | 'turned under';

/** A trim laid along one laid line, or along a part of it where a later seam crosses. */
export interface TrimRun {
  readonly trim: Trim;
  readonly piece: PieceId;
  readonly line: LineId;
  readonly lineLabel: string;
  /** 2 on the mirrored copy of a piece that is cut as a pair. */
  readonly copy: 1 | 2;
  readonly ends: readonly [TrimEnd, TrimEnd];
  /** To cut, end allowances included, mm. */
  readonly length: number;
  /** Length of the trim's two long edges along the run, mm; they differ on a curve. The first lies on the line's left as drawn on screen. */
  readonly edgeLengths: readonly [number, number];
  /** How much its edges must stretch or shrink at the tightest curve: width / (2 · radius). 0 on a straight line. */
  readonly strain: number;
  /** Step in the sewing plan after which it is laid. */
  readonly afterStep: number;
}

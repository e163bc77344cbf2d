import type { LineId, PieceId, Trim } from '../pattern';

export type TrimEnd = 'seam' | 'under trim' | 'turned under';

/** A trim laid along one laid line. */
export interface TrimRun {
  readonly trim: Trim;
  readonly piece: PieceId;
  readonly line: LineId;
  readonly lineLabel: string;
  readonly ends: readonly [TrimEnd, TrimEnd];
  /** To cut, end allowances included, mm. */
  readonly length: number;
  /** Length of the trim's two long edges along the run, mm; they differ on a curve. */
  readonly edgeLengths: readonly [number, number];
  /** Step in the sewing plan after which it is laid. */
  readonly afterStep: number;
}

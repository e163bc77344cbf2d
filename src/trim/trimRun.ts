import type { Path } from '../geometry';
import type { SeamId } from '../panels';
import type { LineId, PieceId, Trim } from '../pattern';
import type { StepKey } from '../sewing';

export type TrimEnd = 'seam' | 'under trim' | 'turned under';

/** What hides the raw end of a strip. */
export type Hidden =
  /** Caught in what is sewn along an outer edge: a seam, a hem, a binding. */
  | { readonly by: 'edge'; readonly edge: number }
  /** Caught in a panel seam sewn later; perhaps a trim lies over it too. */
  | { readonly by: 'seam'; readonly seam: SeamId; readonly over: StepKey | null }
  /** Under a trim laid later. */
  | { readonly by: 'trim'; readonly over: StepKey }
  /** Tucked under a trim that was laid earlier and left unstitched there. */
  | { readonly by: 'tuck'; readonly over: StepKey }
  /** The end of a ring overlaps its start and is turned under. */
  | { readonly by: 'itself' }
  /** Nothing: turned under. */
  | { readonly by: 'nothing' };

/** A trim laid along one laid line or along a path of its own, or along a part of it where a later seam crosses. */
export interface TrimRun {
  /** Key of its step. */
  readonly key: StepKey;
  readonly trim: Trim;
  readonly piece: PieceId;
  /** Null on a path of its own. */
  readonly line: LineId | null;
  /** The trim's name on a path of its own. */
  readonly lineLabel: string;
  /** Its middle line on the whole piece. */
  readonly path: Path;
  readonly isClosed: boolean;
  /** 2 on the mirrored copy of a piece that is cut as a pair. */
  readonly copy: 1 | 2;
  /** An end caught at an outer edge, a hem included, is a `seam`; one tucked under a trim lies `under trim`. */
  readonly ends: readonly [TrimEnd, TrimEnd];
  readonly hidden: readonly [Hidden, Hidden];
  /** To cut from washed ribbon, end allowances, mitres and joins included, mm. */
  readonly length: number;
  /** Diagonal joins of ribbon that is sold in shorter lengths. */
  readonly joins: number;
  /** Length of the trim's two long edges along the run, mm; they differ on a curve. The first lies on the line's left as drawn on screen. */
  readonly edgeLengths: readonly [number, number];
  /** How much its edges must stretch or shrink at the tightest curve: width / (2 · radius). 0 on a straight line. */
  readonly strain: number;
  /** Step in the sewing plan after which it is laid: the last of the seams under it; 0 where there is none. */
  readonly afterStep: number;
  /** Its own step in the sewing plan; null where the plan has none. */
  readonly step: number | null;
}

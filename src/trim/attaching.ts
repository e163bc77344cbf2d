import type { TrimRun } from './trimRun';
import { bendOf } from './trimBend';

/** How a run of trim is sewn on, as facts; `sayAttaching` makes the words. */
export interface Attaching {
  /** Length of the stitch, mm: a seam's for one row along the middle, a topstitch's along the edges. */
  readonly stitch: readonly [least: number, most: number];
  readonly rows: 1 | 2;
  /** On a curve the longer, outer edge is stitched first and the inner one shrunk in with steam. */
  readonly isOuterEdgeFirst: boolean;
  /** Corners that are folded into a mitre. */
  readonly mitres: number;
  /** Joins of shorter lengths. */
  readonly joins: number;
  /** Ends of its own that are tucked under a trim laid before. */
  readonly tucks: number;
}

/** Seams 2.5–3 mm, topstitching 3–3.5 mm on light to medium cloth (a stitch-length answer page, n.d.; see the outside checks). */
const SEAM_STITCH = [2.5, 3] as const;
const TOPSTITCH = [3, 3.5] as const;

/** How a run is sewn on. Outer edge of a curve first: marnajeandavis.com (n.d.). */
export const attachingOf = ({ trim, strain, joins, hidden, path, isClosed }: TrimRun): Attaching => ({
  stitch: trim.rows === 1 ? SEAM_STITCH : TOPSTITCH,
  rows: trim.rows,
  isOuterEdgeFirst: trim.rows === 2 && strain > 0,
  mitres: bendOf(path, isClosed).corners.length,
  joins,
  tucks: hidden.filter((h) => h.by === 'tuck').length,
});

/** What is particular about sewing on a run, in sentences. Stitch lengths are read in mm everywhere, on machines too. */
export function sayAttaching(a: Attaching): readonly string[] {
  return [
    `Stitches ${a.stitch.join(' to ')} mm long.`,
    ...(a.joins > 0 ? ['Join its lengths on the diagonal first and press the joins open.'] : []),
    ...(a.mitres > 0 ? ['Fold each corner into a mitre.'] : []),
    ...(a.isOuterEdgeFirst
      ? ['On the curve stitch the outer edge first, then steam the inner edge in and stitch it.']
      : []),
    ...(a.tucks > 0
      ? [
          'Unpick the trim laid before where the end goes under it, tuck it in, and stitch that edge down again.',
        ]
      : []),
  ];
}

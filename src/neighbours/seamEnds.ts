import { endOf, startOf } from '../geometry';
import { type WholePiece, edgePath, acrossFromMiddle, heightOf } from '../pattern';
import { type EdgeRole, roleOfName } from './edgeRole';

/** Roles that come together where two seams meet: an armhole's end meets a cap's, a side seam's an underarm seam's. */
const MEETING: Partial<Record<EdgeRole, EdgeRole>> = {
  'sleeve cap': 'armhole',
  'underarm seam': 'side seam',
};

/** One end of an edge: what it runs into there, and where it is. */
export interface SeamEnd {
  readonly into: EdgeRole | null;
  readonly down: number;
  readonly across: number;
}

/** The first and last end of an edge, in ring order. */
export function seamEnds(whole: WholePiece, edge: number): readonly [SeamEnd, SeamEnd] {
  const n = whole.edges.length;
  const path = edgePath(whole, edge);
  const into = (other: number): EdgeRole | null => {
    const role = roleOfName(whole.edges[(other + n) % n]!.plainName);
    return role && (MEETING[role] ?? role);
  };
  const end = (role: EdgeRole | null, p: readonly [number, number]): SeamEnd => ({
    into: role,
    down: heightOf(whole, p),
    across: acrossFromMiddle(whole, p),
  });
  return [end(into(edge - 1), startOf(path)), end(into(edge + 1), endOf(path))];
}

type Ends = readonly [SeamEnd, SeamEnd];
const meets = (a: SeamEnd, b: SeamEnd): number => (a.into !== null && a.into === b.into ? 1 : 0);

/**
 * Whether two edges that are sewn together run against each other: ends that run into edges of the same role meet. Where that does
 * not tell, the upper ends meet, or for seams across the body the ends on the same side as drawn.
 */
export function isReversed(a: Ends, b: Ends): boolean {
  const along = meets(a[0], b[0]) + meets(a[1], b[1]);
  const against = meets(a[0], b[1]) + meets(a[1], b[0]);
  if (along !== against) return against > along;
  const fall = (e: Ends): number => e[1].down - e[0].down;
  const run = (e: Ends): number => e[1].across - e[0].across;
  const isUpright = (e: Ends): boolean => Math.abs(fall(e)) >= Math.abs(run(e));
  const way = isUpright(a) && isUpright(b) ? fall : run;
  return way(a) > 0 !== way(b) > 0;
}

/** The agreed end of a walk: which end of the first edge, and its name. */
export function agreedEnd(role: EdgeRole | null, ends: Ends): { beginsLast: boolean; beginsAt: string } {
  const [into, beginsAt]: [EdgeRole | null, string] =
    role === 'side seam' || role === 'underarm seam'
      ? ['armhole', 'the underarm']
      : role === 'shoulder'
        ? ['neckline', 'the neck']
        : role === 'armhole'
          ? ['side seam', 'the underarm']
          : [null, 'the upper end'];
  const [first, last] = ends;
  if (into !== null && (first.into === into) !== (last.into === into))
    return { beginsLast: last.into === into, beginsAt };
  const isFlat = Math.abs(first.down - last.down) < Math.abs(first.across - last.across);
  return isFlat
    ? { beginsLast: last.across < first.across, beginsAt: 'the left end as drawn' }
    : { beginsLast: last.down < first.down, beginsAt: into === null ? beginsAt : 'the upper end' };
}

import { type CornerShape, type CornerShapes, SAME_POINT, distance, endOf, startOf } from '../../geometry';
import type { Panel, PanelEdge, PanelId, PanelledPiece } from '../../panels';
import { type Allowances, edgePath, remember, type WholePiece } from '../../pattern';
import { type CornerBook, type CornerStyle, type PanelCorner, cornerBook, cornerStyle } from './cornerStyle';
import type { EndReach, SewnAs } from './sewnAs';

/** Styles of the corners of one panel's outer ring, as text that says all of it: equal styles are equal texts. */
export type PanelCorners = string & { readonly corners: unique symbol };

/** All corners mitred. */
export const MITRED = '[]' as PanelCorners;

interface StyledCorner {
  /** Number of the ring's curve that begins at the corner. */
  readonly index: number;
  readonly style: CornerStyle;
  /** The end of a seam or outer edge that is squared off, named alike for both panels sewn there; null where none is. */
  readonly end: string | null;
}

/** The two ends of each edge of a whole piece. */
const edgeEnds = remember((whole: WholePiece) =>
  whole.edges.map((_, edge) => {
    const path = edgePath(whole, edge);
    return path.length === 0 ? null : { first: startOf(path), last: endOf(path) };
  }),
);

const outerEnd = (edge: number, end: 'first' | 'last'): string => `edge ${edge} ${end}`;

/** Name of the end at which a stretch comes to a corner; null where an outer edge is left before its end. */
function endName(
  edge: PanelEdge,
  end: 'first' | 'last',
  { at }: PanelCorner,
  whole: WholePiece,
): string | null {
  const { origin } = edge;
  if (origin.kind === 'seam')
    return `${origin.seam} ${(end === 'first') === origin.forward ? 'start' : 'end'}`;
  const ends = edgeEnds(whole)[origin.edge];
  return ends && distance(ends[end], at) < SAME_POINT ? outerEnd(origin.edge, end) : null;
}

function styledCorners({ boundary }: Panel, book: CornerBook): StyledCorner[] {
  let index = 0;
  return boundary.flatMap((after, k): StyledCorner[] => {
    const corner: PanelCorner = { at: startOf(after.path), before: boundary.at(k - 1)!, after };
    const own = index;
    index += after.path.length;
    const style = boundary.length > 1 ? cornerStyle(corner, book) : null;
    if (!style) return [];
    const { whole } = book.sliced;
    const end =
      style.kind !== 'squared off'
        ? null
        : style.earlier === 'before'
          ? endName(corner.before, 'last', corner, whole)
          : endName(after, 'first', corner, whole);
    return [{ index: own, style, end }];
  });
}

interface PieceCorners {
  readonly ofPanel: ReadonlyMap<PanelId, readonly StyledCorner[]>;
  /** How far squared ends run on, mm, by name of the end: the longest of all panels there, since too little cloth ruins a seam. */
  readonly reaches: ReadonlyMap<string, number>;
}

const cornersByOrder = remember(
  (
    sliced: PanelledPiece,
    allowances: Allowances,
    seams: SewnAs['seams'],
    edges: SewnAs['edges'],
  ): PieceCorners => {
    const book = cornerBook(sliced, allowances, { seams, edges });
    const ofPanel = new Map(sliced.panels.map((p) => [p.id, styledCorners(p, book)] as const));
    const reaches = new Map<string, number>();
    for (const corners of ofPanel.values()) {
      for (const { style, end } of corners) {
        if (style.kind === 'squared off' && end !== null)
          reaches.set(end, Math.max(style.reach, reaches.get(end) ?? 0));
      }
    }
    return { ofPanel, reaches };
  },
);

/** What is agreed for ends with other pieces plays no part here. */
const pieceCorners = (
  sliced: PanelledPiece,
  allowances: Allowances,
  { seams, edges }: SewnAs,
): PieceCorners => cornersByOrder(sliced, allowances, seams, edges);

/** Outer edges of a piece that are squared off at their ends, and how far they would run on there for this piece alone, mm. */
export function endReaches(sliced: PanelledPiece, allowances: Allowances, sewn: SewnAs): EndReach[] {
  const { reaches } = pieceCorners(sliced, allowances, sewn);
  return sliced.whole.edges.flatMap((_, edge) =>
    (['first', 'last'] as const).flatMap((end): EndReach[] => {
      const reach = reaches.get(outerEnd(edge, end));
      return reach === undefined ? [] : [{ edge, end, reach }];
    }),
  );
}

/** Below a thousandth of a mm ends agree, and a text need not change. */
const said = (reach: number): number => Math.round(reach * 1e6) / 1e6;

/** Styles of the corners of each panel of a piece. Both panels of a seam run on equally far beyond its ends. */
export function cornersOf(
  sliced: PanelledPiece,
  allowances: Allowances,
  sewn: SewnAs,
): ReadonlyMap<PanelId, PanelCorners> {
  const { ofPanel, reaches } = pieceCorners(sliced, allowances, sewn);
  const agreed = new Map(sewn.ends.map((e) => [outerEnd(e.edge, e.end), e.reach] as const));
  const shapeOf = ({ style, end }: StyledCorner): CornerShape => {
    if (style.kind === 'turned back') return { kind: 'mirrored', across: style.folded };
    const longest = end === null ? 0 : Math.max(reaches.get(end) ?? 0, agreed.get(end) ?? 0);
    return { kind: 'square end', of: style.earlier, reach: said(Math.max(style.reach, longest)) };
  };
  return new Map(
    [...ofPanel].map(([id, corners]) => [
      id,
      JSON.stringify(corners.map((c) => [c.index, shapeOf(c)])) as PanelCorners,
    ]),
  );
}

/** Corners by the number of the curve that begins there, for offsetRing. */
export const shapesOf = (corners: PanelCorners): CornerShapes =>
  new Map(JSON.parse(corners) as readonly (readonly [number, CornerShape])[]);

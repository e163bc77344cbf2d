import {
  applyMatrix,
  distanceToSegment,
  flattenPath,
  mirrorAcross,
  nearestOnPath,
  pathBox,
  type Path,
  type Polyline,
  type Pt,
} from '../../geometry';
import type { Panel, PanelledPiece } from '../../panels';
import { dartLegs, type LineId, type PanelLine, type PlacedDart, type WholePiece } from '../../pattern';

/** Even-odd test against corner points; a point on the boundary may fall either way. */
export function isInside(points: Polyline, [x, y]: Pt): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i, i += 1) {
    const [a, b] = [points[i]!, points[j]!];
    if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
  }
  return inside;
}

/** The panel under a point in traced coordinates; the smallest where one lies in another's inset. */
export function panelAt(panels: readonly Panel[], p: Pt): Panel | null {
  const under = panels.filter((panel) => isInside(panel.flat.points, p));
  return under.reduce<Panel | null>((best, panel) => (!best || panel.area < best.area ? panel : best), null);
}

/** The dart, still sewn as one, whose wedge a point in traced coordinates lies in. */
export const dartAt = ({ darts }: WholePiece, p: Pt): PlacedDart | null =>
  darts.find((d) => d.close === null && isInside(flattenPath(dartLegs(d)).points, p)) ?? null;

/** The mirrored twin of a panel on an opened-out piece: the panel under the mirror image of its spot, if that is another one. */
export function twinOf(piece: PanelledPiece, panel: Panel): Panel | null {
  const fold = piece.whole.foldLine;
  if (!fold) return null;
  const twin = panelAt(piece.panels, applyMatrix(mirrorAcross(fold), panel.flat.at));
  if (!twin || twin.id === panel.id) return null;
  return Math.abs(twin.area - panel.area) < Math.max(50, panel.area * 0.01) ? twin : null;
}

/** A line taken hold of; `reflect` when its mirror image was touched, so that the hand must be mirrored too. */
export interface HeldLine {
  readonly line: LineId;
  readonly reflect: boolean;
  readonly distance: number;
}

/** The hand as the drawn line sees it. */
export const seenBy = (whole: WholePiece, reflect: boolean, p: Pt): Pt =>
  reflect && whole.foldLine ? applyMatrix(mirrorAcross(whole.foldLine), p) : p;

/** The nearest panel line within reach, its mirror image included. */
export function lineAt(
  whole: WholePiece,
  lines: readonly PanelLine[],
  p: Pt,
  reach: number,
): HeldLine | null {
  let best: HeldLine | null = null;
  const offer = (id: LineId, path: Path, reflect: boolean): void => {
    if (path.length === 0) return;
    const box = pathBox(path);
    const q = seenBy(whole, reflect, p);
    if (
      q[0] < box.minX - reach ||
      q[0] > box.maxX + reach ||
      q[1] < box.minY - reach ||
      q[1] > box.maxY + reach
    )
      return;
    const away = nearestOnPath(path, q).distance;
    if (away <= reach && (!best || away < best.distance)) best = { line: id, reflect, distance: away };
  };
  for (const { id, path, once, piece } of lines) {
    if (piece !== whole.piece.id) continue;
    offer(id, path, false);
    if (whole.foldLine && !once) offer(id, path, true);
  }
  return best;
}

/** How far a point lies outside a polygon, mm; 0 inside. */
export function awayFrom(points: Polyline, p: Pt): number {
  if (isInside(points, p)) return 0;
  return points.reduce(
    (least, a, i) => Math.min(least, distanceToSegment(p, a, points[(i + 1) % points.length]!).distance),
    Infinity,
  );
}

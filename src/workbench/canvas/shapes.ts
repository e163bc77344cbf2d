import paper from 'paper/dist/paper-core';
import { isCubic, subtract, type Path, type Polyline, type Pt } from '../../geometry';

type SegmentData = [Pt, Pt, Pt];

/** Our curves as paper.js segments; handles are relative there. */
function segmentsOf(path: Path, closed: boolean): SegmentData[] {
  const none: Pt = [0, 0];
  const segments = path.map((curve, i): SegmentData => {
    const before = path[i - 1] ?? (closed ? path[path.length - 1] : undefined);
    const into = before && isCubic(before) ? subtract(before[2], before[3]) : none;
    return [curve[0], into, isCubic(curve) ? subtract(curve[1], curve[0]) : none];
  });
  const last = path[path.length - 1];
  if (last && !closed)
    segments.push([last[last.length - 1]!, isCubic(last) ? subtract(last[2], last[3]) : none, none]);
  return segments;
}

type Style = Partial<paper.Path>;

/** Strokes keep their width in screen pixels however near the drawing is. */
const steady = (style: Style): object => ({
  strokeScaling: false,
  strokeCap: 'round',
  strokeJoin: 'round',
  ...style,
  insert: false,
});

export const pathItem = (path: Path, style: Style, closed = false): paper.Path =>
  new paper.Path({ segments: segmentsOf(path, closed), closed, ...steady(style) });

export const pointsItem = (points: Polyline, style: Style, closed = false): paper.Path =>
  new paper.Path({ segments: points as Pt[], closed, ...steady(style) });

/** A ring with its holes, filled by even-odd. */
export function ringItem(ring: Path, holes: readonly Path[], style: Style): paper.Path | paper.CompoundPath {
  if (holes.length === 0) return pathItem(ring, style, true);
  return new paper.CompoundPath({
    children: [ring, ...holes].map((r) => pathItem(r, {}, true)),
    fillRule: 'evenodd',
    ...steady(style as object),
  });
}

export const dotItem = (at: Pt, radius: number, style: Style): paper.Path =>
  new paper.Path.Circle({ center: at as [number, number], radius, ...steady(style) });

export const textItem = (at: Pt, content: string, style: Partial<paper.PointText>): paper.PointText =>
  new paper.PointText({ point: at as [number, number], content, ...style, insert: false });

/** Screen pixels wanted at a zoom (pixels per mm). */
type SizeRule = (zoom: number) => number;

interface SizedData {
  anchor: Pt;
  /** Size in its own units when scale is 1. */
  base: number;
  scale: number;
  rule: SizeRule;
}

/**
 * A group whose size on screen follows its own rule instead of the zoom: numbers, names, marks.
 * Its children are built at `base` pixels = `base` mm around `anchor`.
 */
export function sizedItem(anchor: Pt, base: number, rule: SizeRule, children: paper.Item[]): paper.Group {
  const group = new paper.Group({ children, insert: false });
  group.data = { anchor, base, scale: 1, rule } satisfies SizedData;
  return group;
}

/** Bring sized groups in step with the zoom. */
export function resizeItems(items: readonly paper.Item[], zoom: number): void {
  for (const item of items) {
    const data = item.data as SizedData;
    const scale = data.rule(zoom) / (data.base * zoom);
    if (Math.abs(scale / data.scale - 1) < 1e-6) continue;
    item.scale(scale / data.scale, new paper.Point(data.anchor[0], data.anchor[1]));
    data.scale = scale;
  }
}

/** Move a sized group along with the piece it belongs to. */
export function shiftSized(item: paper.Item, by: Pt): void {
  const data = item.data as SizedData;
  item.translate(new paper.Point(by[0], by[1]));
  data.anchor = [data.anchor[0] + by[0], data.anchor[1] + by[1]];
}

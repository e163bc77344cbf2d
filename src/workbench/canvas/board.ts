import paper from 'paper/dist/paper-core';
import type { Box, Pt } from '../../geometry';
import type { PieceId } from '../../pattern';
import type { TableLayout } from '../drawing/tableLayout';
import { drawPiece, type PieceDrawing, type PieceView } from './drawPiece';
import { resizeItems, shiftSized } from './shapes';

/** Marks over the pieces, in the traced coordinates of one piece. */
export interface Overlay {
  readonly piece: PieceId;
  readonly flat: readonly paper.Item[];
  readonly sized: readonly paper.Item[];
}

export interface Picture {
  readonly layout: TableLayout;
  readonly pieces: readonly PieceView[];
  readonly overlays: readonly Overlay[];
}

/**
 * The one place that speaks paper.js: shows a picture on a canvas and keeps the view (zoom in pixels per mm, centre in
 * table mm). Redraws on the next animation frame; a piece whose view did not change keeps its drawing.
 */
export interface Board {
  show(picture: Picture): void;
  zoom(): number;
  zoomBy(factor: number, aboutPx?: Pt): void;
  panBy(dxPx: number, dyPx: number): void;
  /** Whether the view is still the one `fit` gave: nobody has moved it since. */
  isFitted(): boolean;
  /** Bring a box of the table into view, `inset` pixels clear on the left, top, right and bottom. */
  fit(box: Box, inset: readonly [number, number, number, number]): void;
  /** Bring a table point to the middle of what is free, no farther away than `leastZoom`; so much more is covered on the left than on the right. */
  reveal(at: Pt, leastZoom: number, moreOnLeftPx: number): void;
  toTable(px: Pt): Pt;
  toScreen(table: Pt): Pt;
  resize(width: number, height: number): void;
  /** Called after every change of zoom, place or size. */
  onView(listener: () => void): () => void;
  dispose(): void;
}

const LEAST_ZOOM = 0.05;
const MOST_ZOOM = 24;

interface Shown {
  readonly view: PieceView;
  readonly drawing: PieceDrawing;
  readonly shift: Pt;
}

const sameView = (a: PieceView, b: PieceView): boolean =>
  (Object.keys(a) as (keyof PieceView)[]).every(
    (key) =>
      a[key] === b[key] ||
      key === 'numbers' ||
      (key === 'cutPieces' && sameItems(a.cutPieces, b.cutPieces)) ||
      (key === 'trims' && sameItems(a.trims, b.trims)),
  );

const sameItems = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i]);

/** Set up a board on a canvas element. Call `dispose` before the canvas goes. */
export function createBoard(canvas: HTMLCanvasElement): Board {
  const scope = new paper.PaperScope();
  scope.setup(canvas);
  const { view } = scope;
  const table = scope.project.activeLayer;
  const top = new paper.Layer({ insert: false });
  scope.project.addLayer(top);
  const shown = new Map<PieceId, Shown>();
  const listeners = new Set<() => void>();
  let over: paper.Item[] = [];
  let fitted = false;

  const sized = (): paper.Item[] => [...[...shown.values()].flatMap(({ drawing }) => drawing.sized), ...over];
  const viewChanged = (zoomed: boolean): void => {
    if (zoomed) resizeItems(sized(), view.zoom);
    canvas.dataset['view'] = `${view.zoom} ${view.center.x} ${view.center.y}`; // for tests and bug reports
    for (const listener of listeners) listener();
  };

  const showPiece = (piece: PieceView, shift: Pt): void => {
    const id = piece.panelled.whole.piece.id;
    const before = shown.get(id);
    if (
      before &&
      sameView(before.view, piece) &&
      before.shift[0] === shift[0] &&
      before.shift[1] === shift[1]
    )
      return;
    const drawing = drawPiece(piece);
    const { sized: marks, group } = drawing;
    group.translate(new paper.Point(shift[0], shift[1]));
    for (const mark of marks) moveAnchor(mark, shift);
    resizeItems(marks, view.zoom);
    if (before) before.drawing.group.replaceWith(group);
    else table.addChild(group);
    shown.set(id, { view: piece, drawing, shift });
  };

  const showOverlays = ({ overlays, layout }: Picture): void => {
    top.removeChildren();
    over = [];
    for (const { piece, flat, sized: marks } of overlays) {
      const shift = layout.shift.get(piece) ?? [0, 0];
      for (const item of flat) item.translate(new paper.Point(shift[0], shift[1]));
      for (const mark of marks) shiftSized(mark, shift);
      top.addChildren([...flat, ...marks]);
      over.push(...marks);
    }
    resizeItems(over, view.zoom);
  };

  const setView = (zoom: number, centre: Pt, byFit = false): void => {
    fitted = byFit;
    const next = Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, zoom));
    const zoomed = next !== view.zoom;
    view.zoom = next;
    view.center = new paper.Point(centre[0], centre[1]);
    viewChanged(zoomed);
  };

  return {
    show: (picture) => {
      scope.activate();
      const ids = new Set(picture.pieces.map(({ panelled }) => panelled.whole.piece.id));
      for (const [id, { drawing }] of shown) {
        if (ids.has(id)) continue;
        drawing.group.remove();
        shown.delete(id);
      }
      for (const piece of picture.pieces)
        showPiece(piece, picture.layout.shift.get(piece.panelled.whole.piece.id) ?? [0, 0]);
      showOverlays(picture);
    },
    zoom: () => view.zoom,
    zoomBy: (factor, aboutPx) => {
      const { width, height } = view.viewSize;
      const about = aboutPx ?? [width / 2, height / 2];
      const zoom = Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, view.zoom * factor));
      const fixed = view.viewToProject(new paper.Point(about[0], about[1]));
      setView(zoom, [fixed.x - (about[0] - width / 2) / zoom, fixed.y - (about[1] - height / 2) / zoom]);
    },
    panBy: (dx, dy) => setView(view.zoom, [view.center.x - dx / view.zoom, view.center.y - dy / view.zoom]),
    isFitted: () => fitted,
    fit: (box, [left, above, right, below]) => {
      const { width, height } = view.viewSize;
      const [w, h] = [Math.max(60, width - left - right), Math.max(60, height - above - below)];
      const zoom = Math.min(w / Math.max(1, box.maxX - box.minX), h / Math.max(1, box.maxY - box.minY));
      const centre: Pt = [
        (box.minX + box.maxX) / 2 - (left - right) / 2 / zoom,
        (box.minY + box.maxY) / 2 - (above - below) / 2 / zoom,
      ];
      setView(zoom, centre, true);
    },
    reveal: (at, leastZoom, moreOnLeft) => {
      const zoom = Math.max(view.zoom, leastZoom);
      setView(zoom, [at[0] - moreOnLeft / 2 / zoom, at[1]]);
    },
    toTable: (px) => {
      const p = view.viewToProject(new paper.Point(px[0], px[1]));
      return [p.x, p.y];
    },
    toScreen: (at) => {
      const p = view.projectToView(new paper.Point(at[0], at[1]));
      return [p.x, p.y];
    },
    resize: (width, height) => {
      const { center } = view;
      view.viewSize = new paper.Size(width, height);
      view.center = center;
      viewChanged(false);
    },
    onView: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispose: () => {
      listeners.clear();
      scope.project.remove();
    },
  };
}

function moveAnchor(item: paper.Item, by: Pt): void {
  const data = item.data as { anchor: Pt };
  data.anchor = [data.anchor[0] + by[0], data.anchor[1] + by[1]];
}

import { createContext, useContext } from 'react';
import { joinBoxes, pathBox, type Box, type Pt } from '../../geometry';
import type { PieceId } from '../../pattern';
import { garmentOf, type BenchStore } from '../store/benchStore';
import type { Board } from './board';
import { layoutOf } from './layoutOf';

/** What moves the view of whatever lies in the middle of the bench. */
export interface View {
  zoomBy(factor: number): void;
  /** Pixels. */
  panBy(dx: number, dy: number): void;
  fitAll(): void;
}

/** What the rest of the bench may ask of the table. Empty until the canvas stands. */
export interface TableControls {
  board: Board | null;
  /** While the sheet brings its own centre, which lies over the drawing: the view of that. */
  centre?: View | null;
  /** Put away the stroke or drag under way. */
  cancelHand: () => void;
}

export const TableContext = createContext<TableControls>({ board: null, cancelHand: () => undefined });
export const useTable = (): TableControls => useContext(TableContext);

/** The view in the middle: of the sheet's own centre, or of the drawing. */
export function viewOf(controls: TableControls, store: BenchStore): View {
  const { board } = controls;
  return (
    controls.centre ?? {
      zoomBy: (factor) => board?.zoomBy(factor),
      panBy: (dx, dy) => board?.panBy(dx, dy),
      fitAll: () => fitAll(controls, store),
    }
  );
}

/** Clear space round the pieces for names and levels, pixels. */
const MARGIN = 22;
/** More on the left, where the levels' names stand. */
const LEVEL_NAMES = 40;

/** Height of the placing slip on a tablet, pixels. */
const SLIP = 44;

/** Above the tape, the slip that says what a line costs stands this far into the drawing's margin, pixels: in one row, or in two. */
const COST_SLIP = { wide: 22, narrow: 44 } as const;

/** In windows lower than this (pixels) the drawing keeps that room for itself. */
const LOW_WINDOW = 560;

/** A notice may stand this far into the space above the pieces' names, pixels. */
const TITLE_CLEAR = 8;

/**
 * How much of the canvas other things cover: the sheet on the left, title and notices above, tape below. Pixels, as laid out:
 * a sheet that is still sliding in already counts in full.
 */
export function covered(): readonly [number, number, number, number] {
  // while the next sheet is still being fetched, the one before stands hidden beside its empty leaf
  const find = (selector: string): HTMLElement | undefined =>
    [...document.querySelectorAll<HTMLElement>(selector)].find((element) => element.offsetWidth > 0);
  const height = (selector: string): number => find(selector)?.offsetHeight ?? 0;
  // the same question as in look/small.css
  const wide = !window.matchMedia('(max-width: 760px) and (orientation: portrait)').matches;
  const sheet = find('.sheet');
  const left = wide && sheet ? sheet.offsetLeft + sheet.offsetWidth : 0;
  // on tablets the placing slip lies below the title; on laptops inside it
  const narrow = window.innerWidth <= 1100;
  const slip = wide && narrow ? SLIP : 0;
  const costs = window.innerHeight < LOW_WINDOW ? 0 : COST_SLIP[narrow ? 'narrow' : 'wide'];
  const low = !wide && sheet ? sheet.offsetHeight : costs;
  const notices = find('.notices');
  const noticed = notices?.offsetHeight ? notices.offsetTop + notices.offsetHeight - TITLE_CLEAR : 0;
  return [left, Math.max(height('.title-bar') + slip, noticed), 0, height('.tape') + low];
}

/** Bring the whole garment into view. */
export function fitAll({ board }: TableControls, store: BenchStore): void {
  if (!board) return;
  const garment = garmentOf(store.getState());
  const { shift } = layoutOf(garment);
  const box = garment.pieces.reduce<Box | null>((all, { whole }) => {
    const b = pathBox(whole.outline);
    const [dx, dy] = shift.get(whole.piece.id) ?? [0, 0];
    const laid = { minX: b.minX + dx, maxX: b.maxX + dx, minY: b.minY + dy, maxY: b.maxY + dy };
    return all ? joinBoxes(all, laid) : laid;
  }, null);
  if (!box) return;
  const { tracing, hem } = garment.design.allowances;
  const outer = tracing.kind === 'net' ? tracing.outer : 0;
  const withAllowance: Box = {
    minX: box.minX - outer,
    minY: box.minY - outer,
    maxX: box.maxX + outer,
    maxY: box.maxY + (tracing.kind === 'net' ? Math.max(outer, hem) : 0),
  };
  const [left, above, right, below] = covered();
  board.fit(withAllowance, [
    left + MARGIN + LEVEL_NAMES,
    above + MARGIN + 24,
    right + MARGIN,
    below + MARGIN,
  ]);
}

/**
 * As long as nobody has moved the view, keep everything in it: when the window changes its size, when the sheet is folded
 * away or comes back, and when other pieces come on to the table.
 * @returns a function that stops it
 */
export function keepFitted(holder: Element, controls: TableControls, store: BenchStore): () => void {
  let frame = 0;
  let must = false;
  const fit = (): void => {
    if (must || controls.board?.isFitted()) fitAll(controls, store);
    must = false;
  };
  const later = (always: boolean): void => {
    must ||= always;
    cancelAnimationFrame(frame);
    // the frame after next, when the sheet and the notices stand or are gone
    frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(fit);
    });
  };
  const watch = new ResizeObserver(() => {
    controls.board?.resize(holder.clientWidth, holder.clientHeight);
    later(false);
  });
  watch.observe(holder);
  const stop = store.subscribe((s, before) => {
    if (s.doc.pieces !== before.doc.pieces) later(true);
    else if (
      s.sheetOpen !== before.sheetOpen ||
      s.notice !== before.notice ||
      s.keeping.state !== before.keeping.state
    )
      later(false);
  });
  return () => {
    cancelAnimationFrame(frame);
    watch.disconnect();
    stop();
  };
}

/** A small thing is looked at from no farther than this, pixels per mm. */
const NEAR_BY = 1.4;

/**
 * Point at a place on a piece, bringing it to the middle of what is free where that is needed.
 * @param leastZoom look at it from at least this near; 0 for things so large that they are seen from anywhere, which leaves a
 * view alone that shows the place already
 */
export function showPlace(
  { board }: TableControls,
  store: BenchStore,
  piece: PieceId,
  at: Pt,
  leastZoom = NEAR_BY,
): void {
  const [dx, dy] = layoutOf(garmentOf(store.getState())).shift.get(piece) ?? [0, 0];
  const spot: Pt = [at[0] + dx, at[1] + dy];
  store.getState().pointAt(piece, at);
  if (!board) return;
  const [left, above, , below] = covered();
  const [x, y] = board.toScreen(spot);
  const isFree =
    x > left + MARGIN &&
    x < window.innerWidth - MARGIN &&
    y > above + MARGIN &&
    y < window.innerHeight - below - MARGIN;
  if (leastZoom === 0 && isFree) return;
  const list = document.querySelector<HTMLElement>('.problem-slip ul');
  board.reveal(spot, leastZoom, left - (list?.offsetWidth ?? 0));
}

import { createContext, useContext } from 'react';
import { joinBoxes, pathBox, type Box, type Pt } from '../../geometry';
import type { PieceId } from '../../pattern';
import { garmentOf, type BenchStore } from '../store/benchStore';
import type { Board } from './board';
import { layoutOf } from './layoutOf';

/** What the rest of the bench may ask of the table. Empty until the canvas stands. */
export interface TableControls {
  board: Board | null;
  /** Put away the stroke or drag under way. */
  cancelHand: () => void;
}

export const TableContext = createContext<TableControls>({ board: null, cancelHand: () => undefined });
export const useTable = (): TableControls => useContext(TableContext);

/** Clear space round the pieces for names and levels, pixels. */
const MARGIN = 22;
/** More on the left, where the levels' names stand. */
const LEVEL_NAMES = 40;

/** Height of the placing slip on a tablet, pixels. */
const SLIP = 44;

/** How much of the canvas other things cover: the sheet on the left, title above, tape below. Pixels. */
export function covered(): readonly [number, number, number, number] {
  const size = (selector: string, side: 'width' | 'height'): number =>
    document.querySelector(selector)?.getBoundingClientRect()[side] ?? 0;
  const wide = window.innerWidth > 760;
  const sheet = document.querySelector('.sheet');
  const left = wide && sheet ? sheet.getBoundingClientRect().right : 0;
  // on tablets the placing slip lies below the title; on laptops inside it
  const slip = wide && window.innerWidth <= 1100 ? SLIP : 0;
  const low = !wide && sheet ? sheet.getBoundingClientRect().height : 0;
  return [left, size('.title-bar', 'height') + slip, 0, size('.tape', 'height') + low];
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

/** Bring a place on a piece to the middle of what is free, and point at it. */
export function showPlace(controls: TableControls, store: BenchStore, piece: PieceId, at: Pt): void {
  const [dx, dy] = layoutOf(garmentOf(store.getState())).shift.get(piece) ?? [0, 0];
  controls.board?.reveal([at[0] + dx, at[1] + dy], 1.4, covered()[0]);
  store.getState().pointAt(piece, at);
}

import type { Garment } from '../../garment';
import type { Design } from '../../pattern';
import { layOut, type TableLayout } from '../drawing/tableLayout';

const layouts = new WeakMap<Design['pieces'], TableLayout>();

/** Where the pieces lie; the same as long as the traced pieces are the same, so that nothing jumps while lines are drawn. */
export function layoutOf(garment: Garment): TableLayout {
  const known = layouts.get(garment.design.pieces);
  if (known) return known;
  const layout = layOut(garment.pieces);
  layouts.set(garment.design.pieces, layout);
  return layout;
}

import { lazy, type ComponentType } from 'react';
import { LinesSheet } from '../sheets/LinesSheet';
import type { Place } from '../store/sessionSlice';

/** Sheets that are loaded when first wanted: the bench opens at the lines. */
const LOADS = {
  pattern: () => import('../sheets/PatternSheet').then((m) => ({ default: m.PatternSheet })),
  colours: () => import('../sheets/ColoursSheet').then((m) => ({ default: m.ColoursSheet })),
  order: () => import('../sheets/OrderSheet').then((m) => ({ default: m.OrderSheet })),
  cloth: () => import('../sheets/ClothSheet').then((m) => ({ default: m.ClothSheet })),
  paper: () => import('../sheets/PaperSheet').then((m) => ({ default: m.PaperSheet })),
} as const;

export const SHEETS: Readonly<Record<Place, ComponentType>> = {
  lines: LinesSheet,
  pattern: lazy(LOADS.pattern),
  colours: lazy(LOADS.colours),
  order: lazy(LOADS.order),
  cloth: lazy(LOADS.cloth),
  paper: lazy(LOADS.paper),
};

const loadLayTable = () => import('../cloth/LayTable').then((m) => ({ default: m.LayTable }));

/** What lies in the middle of the bench instead of the drawing, for places that bring their own. */
export const CENTRES: Readonly<Partial<Record<Place, ComponentType>>> = { cloth: lazy(loadLayTable) };

/** Fetch a sheet that is about to be wanted. A failure shows when it is really opened. */
export function fetchSheet(place: Place): void {
  if (place !== 'lines') LOADS[place]().catch(() => undefined);
  if (place === 'cloth') loadLayTable().catch(() => undefined);
}

import { scaleDesign } from '../../pattern';
import type { Edit } from './documentSlice';

/** Multiply everything that is drawn, across and down. Apart from the other edits: it is seldom wanted. */
export const scaleDrawing =
  (across: number, down: number): Edit =>
  (design) =>
    scaleDesign(design, across, down);

/**
 * How everything on paper looks: calm dark ink, chalk greys, one accent. Line widths in mm.
 * Widths and dashes tell what a line is; they are explained once, on the first sheet.
 */
import { contrast } from '../pattern';
import type { Stroke } from './marks';

export const INK = '#23262d';
export const SOFT = '#6a665f';
export const FAINT = '#b9b3a8';
export const HAIR = '#d9d4ca';
export const CHALK = '#f4f1ea';
export const ACCENT = '#a23c26';

export const CUTTING_LINE: Stroke = { width: 0.4, colour: INK };
export const STITCHING_LINE: Stroke = { width: 0.2, colour: INK, dash: [3, 1.6] };
export const NOTCH_LINE: Stroke = { width: 0.4, colour: INK };
export const CLIP_LINE: Stroke = { width: 0.25, colour: INK, dash: [0.6, 0.9] };
export const GRAIN_LINE: Stroke = { width: 0.35, colour: INK };
export const DART_LINE: Stroke = { width: 0.25, colour: INK, dash: [5, 1.5] };
export const ZIP_LINE: Stroke = { width: 0.25, colour: INK, dash: [1.4, 0.9] };
export const STOP_LINE: Stroke = { width: 0.6, colour: INK };
export const FOLD_LINE: Stroke = { width: 0.4, colour: INK, dash: [12, 2, 2, 2] };
export const LEVEL_LINE: Stroke = { width: 0.15, colour: SOFT, dash: [6, 1.5, 0.8, 1.5] };
export const TRIM_LINE: Stroke = { width: 0.2, colour: INK, dash: [9, 1.2] };
export const LEADER_LINE: Stroke = { width: 0.2, colour: SOFT };
export const JOIN_LINE: Stroke = { width: 0.15, colour: SOFT, dash: [1, 1.5] };
export const RULE: Stroke = { width: 0.2, colour: FAINT };

/** Ink or white, whichever reads better on the fill. */
export const inkOn = (fill: string): string =>
  contrast(INK, fill) >= contrast('#ffffff', fill) ? INK : '#ffffff';

/** The colour mixed with white: 0 leaves it, 1 is white. */
export function tint(hex: string, towardsWhite: number): string {
  const part = (at: number): string => {
    const c = parseInt(hex.slice(at, at + 2), 16);
    return Math.round(c + (255 - c) * towardsWhite)
      .toString(16)
      .padStart(2, '0');
  };
  return `#${part(1)}${part(3)}${part(5)}`;
}

/** The least contrast with white at which a tint still reads as one. */
const LEAST_TINT = 1.15;

/** Fills of a lay plan: of the cloth that is left, of pieces, of pieces cut from one layer alone. Pale cloth is left darker than its pieces. */
export function clothTints(fill: string): {
  readonly cloth: string;
  readonly piece: string;
  readonly alone: string;
} {
  const piece = tint(fill, 0.6);
  const isPale = contrast(piece, '#ffffff') < LEAST_TINT;
  return { cloth: isPale ? '#e4e1da' : tint(fill, 0.9), piece, alone: tint(fill, 0.78) };
}

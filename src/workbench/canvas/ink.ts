import { luminance } from '../../pattern';

/** The drawing's inks. Screen pixels for widths, kept under zoom; the same values as app/tokens.css where both need them. */
export const INK = {
  graphite: '#2b2a28',
  chalk: '#fdfbf6',
  paperEdge: '#8d8271',
  shadow: '#cdbfa6',
  indigo: '#2a4279',
  madder: '#9b2f22',
  levels: '#6f6552',
} as const;

export const SERIF =
  "'Iowan Old Style', 'Palatino Linotype', Palatino, 'Book Antiqua', Georgia, 'Liberation Serif', serif";
export const SANS =
  "system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', 'Liberation Sans', sans-serif";

/** Contrast of two #rrggbb colours, 1 to 21 (WCAG 2.2, contrast ratio). */
export function contrast(a: string, b: string): number {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

/** Graphite or chalk, whichever reads better on a fill. */
export const inkOn = (fill: string): string =>
  contrast(fill, INK.graphite) >= contrast(fill, INK.chalk) ? INK.graphite : INK.chalk;

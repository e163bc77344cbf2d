import { contrast } from '../../pattern';

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

/** Graphite or chalk, whichever reads better on a fill. */
export const inkOn = (fill: string): string =>
  contrast(fill, INK.graphite) >= contrast(fill, INK.chalk) ? INK.graphite : INK.chalk;

import { applyMatrix } from '../geometry';
import type { Box, Matrix, Pt } from '../geometry';
import { MM_PER_INCH } from '../pattern';
import type { Units } from '../pattern';
import type { LayOnPaper } from './layOnPaper';

/** How a lay is put on paper. */
export interface LayFrame {
  /** 1 : so many. */
  readonly scale: number;
  /** Length upwards, width to the right; else length to the right, width downwards. */
  readonly standing: boolean;
  /** Stretch of the cloth that is shown, mm at full size. */
  readonly from: number;
  readonly to: number;
}

/** Room round the cloth for numbers and words, mm. */
export interface Margins {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Neighbouring pages of a long lay show the same stretch of this length, mm at full size. */
export const SHOWN_TWICE = 100;

/** Height of a row of words beside the cloth, mm. */
export const WORD_ROW = 4;
/** Room for the ticks and numbers along a side. */
export const NUMBERS_BELOW = 6;
export const NUMBERS_LEFT = 9;
/** Room on the right of standing cloth for what is needed and bought. */
const NOTES_RIGHT = 19;

export const marginsOf = ({ standing }: LayFrame): Margins =>
  standing
    ? { left: NUMBERS_LEFT, top: 3, right: NOTES_RIGHT, bottom: NUMBERS_BELOW + WORD_ROW + 1 }
    : { left: NUMBERS_LEFT, top: 3 * WORD_ROW, right: 3, bottom: NUMBERS_BELOW + WORD_ROW + 1 };

/** The cloth on paper, its upper left corner where the margins end. */
export function clothBox(lay: LayOnPaper, frame: LayFrame): Box {
  const { left, top } = marginsOf(frame);
  const [long, wide] = [(frame.to - frame.from) / frame.scale, lay.across / frame.scale];
  return {
    minX: left,
    minY: top,
    maxX: left + (frame.standing ? wide : long),
    maxY: top + (frame.standing ? long : wide),
  };
}

/** Size of the whole drawing, mm. */
export function sizeOnPaper(
  lay: LayOnPaper,
  frame: LayFrame,
): { readonly width: number; readonly height: number } {
  const box = clothBox(lay, frame);
  const { right, bottom } = marginsOf(frame);
  return { width: box.maxX + right, height: box.maxY + bottom };
}

/** Cloth to paper: scaled and turned, never mirrored. */
export function toPaper(lay: LayOnPaper, frame: LayFrame): Matrix {
  const k = 1 / frame.scale;
  const box = clothBox(lay, frame);
  return frame.standing
    ? [0, -k, k, 0, box.minX, box.maxY + frame.from * k]
    : [k, 0, 0, k, box.minX - frame.from * k, box.minY];
}

export const pointOnPaper = (m: Matrix, x: number, y: number): Pt => applyMatrix(m, [x, y]);

/** Marks along a length: each a tick, some of them with a number. */
export interface LengthMark {
  /** mm at full size. */
  readonly at: number;
  readonly number: string | null;
}

/** Numbers stand at least this far apart, mm on paper. */
const NUMBERS_APART = 7.6;

/**
 * Every 10 cm, with a number as often as there is room (every 10, 25, 50 cm or 1, 2 … m); or every 1/8 yd (4.5 in), with a number
 * every 9, 18 or 36 in.
 */
export function lengthMarks(units: Units, from: number, to: number, scale: number): LengthMark[] {
  const [unit, tick, numbered] =
    units === 'cm' ? [10, 10, [10, 25, 50, 100, 200, 500]] : [MM_PER_INCH, 4.5, [9, 18, 36, 72, 180]];
  const step = numbered.find((n) => (n * unit) / scale >= NUMBERS_APART) ?? numbered[numbered.length - 1]!;
  const places = new Set<number>();
  for (const every of [tick, step]) {
    const first = Math.ceil(from / unit / every - 1e-9);
    for (let i = first; i * every * unit <= to + 1e-6; i += 1) places.add(i * every);
  }
  return [...places]
    .sort((a, b) => a - b)
    .map((n) => ({ at: n * unit, number: n % step === 0 ? `${n}` : null }));
}

import { MM_PER_INCH } from '../pattern';
import type { PaperSize, Units } from '../pattern';

/** A sheet of paper, mm. On a roll `height` is the longest page; a page is cut to what lies on it. */
export interface SheetSize {
  readonly paper: PaperSize;
  /** For people: `A4`, `Letter`, `roll 914 mm wide`. */
  readonly label: string;
  readonly width: number;
  readonly height: number;
  /** home: many sheets joined; large: pieces packed on one sheet if they fit; roll: page length follows the pieces. */
  readonly kind: 'home' | 'large' | 'roll';
}

/** Nothing is drawn nearer to the paper's edge than this, mm: most home printers cannot. */
export const PAGE_MARGIN = 12;
/** Neighbouring sheets show the same strip of this width, mm. */
export const SHEET_OVERLAP = 10;
/** 14,400 pt (200 in), the most a side may have in common viewers (PDF Reference 1.6, implementation limits). */
const LONGEST_PAGE = 5080;
const NARROWEST_ROLL = 200;

const inches = (n: number): number => n * MM_PER_INCH;

/** A sizes: ISO 216. Letter 8.5 × 11 in, Tabloid 11 × 17 in: ANSI A and B. */
const SIZES: Readonly<
  Record<string, readonly [label: string, width: number, height: number, kind: 'home' | 'large']>
> = {
  a4: ['A4', 210, 297, 'home'],
  letter: ['Letter', inches(8.5), inches(11), 'home'],
  a3: ['A3', 297, 420, 'home'],
  tabloid: ['Tabloid', inches(11), inches(17), 'home'],
  a0: ['A0', 841, 1189, 'large'],
};

/**
 * The sheet of a paper name.
 * @throws RangeError for an unknown name, or a roll narrower than 200 mm or wider than 5,080 mm
 */
export function sheetSize(paper: PaperSize): SheetSize {
  const known = SIZES[paper];
  if (known) return { paper, label: known[0], width: known[1], height: known[2], kind: known[3] };
  const roll = /^roll:(\d+(?:\.\d+)?)$/.exec(paper);
  const width = roll ? Number(roll[1]) : NaN;
  if (!(width >= NARROWEST_ROLL && width <= LONGEST_PAGE)) {
    throw new RangeError(
      `Paper '${paper}' is not known. Use a4, letter, a3, tabloid, a0 or roll:WIDTH (mm, ${NARROWEST_ROLL} to ${LONGEST_PAGE}).`,
    );
  }
  return { paper, label: `roll ${width} mm wide`, width, height: LONGEST_PAGE, kind: 'roll' };
}

/** The page of a handout: Letter where the pieces go on inch papers or the lengths are in inches, else A4. */
export function handoutSize(paper: PaperSize, units: Units): SheetSize {
  if (paper === 'letter' || paper === 'tabloid') return sheetSize('letter');
  if (paper === 'a4' || paper === 'a3') return sheetSize('a4');
  return sheetSize(units === 'in' ? 'letter' : 'a4');
}

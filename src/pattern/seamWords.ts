import type { LineId } from './design';
import { formatLength } from './units';

/** Two edges that are sewn together, by name; lengths as sewn, and the ease meant (a over b), mm. */
export interface SeamLengths {
  readonly a: string;
  readonly b: string;
  readonly lengthA: number;
  readonly lengthB: number;
  readonly least: number;
  readonly most: number;
}

/** Two line ends that miss each other over a seam by `mm`. */
export interface LinesMiss {
  readonly line: LineId;
  readonly end: 'start' | 'end';
  readonly other: LineId;
  readonly labels: readonly [string, string];
  readonly seam: readonly [string, string];
  readonly mm: number;
}

/** `front/side seam` as it is read: front, side seam. */
export const plainPlace = (name: string): string => name.replace('/', ', ');

/** Small differences are told in mm whatever the user's unit: tenths of a centimetre and sixteenths of an inch are too coarse for them. */
const sayFine = (mm: number): string => formatLength(mm, 'mm');

/** Where two lines miss each other, and what to do. */
export function sayMiss({ labels, seam, mm }: LinesMiss): string {
  const seams = `${plainPlace(seam[0])} and ${plainPlace(seam[1])}`;
  return `${labels[0]} and ${labels[1]} miss each other by ${sayFine(mm)} where ${seams} are joined. Move one of them, tie them together, or say that it is meant.`;
}

/** How two joined edges differ, and what to look at. */
export function sayLengths(
  { a, b, lengthA, lengthB, least, most }: SeamLengths,
  mm: (length: number) => string,
): string {
  const over = lengthA >= lengthB ? a : b;
  const meant = Math.max(-least, most);
  const ease = meant > 0 ? `; up to ${mm(meant)} of ease is usual here` : '';
  return `${plainPlace(a)} (${mm(lengthA)}) and ${plainPlace(b)} (${mm(lengthB)}) are joined but differ by ${sayFine(Math.abs(lengthA - lengthB))}${ease}. Check ${plainPlace(over)}, which is longer.`;
}

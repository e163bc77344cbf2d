import { MM_PER_INCH, type Units } from '../pattern';

/** Usual usable widths, mm: 90, 115, 140, 150 cm (110–115 and 140–150 are common practice, no source); 36, 45, 54, 60 in (Threads no. 151). */
export const USUAL_WIDTHS: Readonly<Record<Units, readonly number[]>> = {
  cm: [900, 1150, 1400, 1500],
  in: [36, 45, 54, 60].map((inches) => inches * MM_PER_INCH),
};

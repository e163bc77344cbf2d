import type { Design, SewingWishes } from './design';

/** What is wanted of the sewing order before anybody has said anything. */
const USUAL_SEWING: SewingWishes = { sleeves: 'flat', fewThreads: false, inTheRound: [], order: [] };

/** What a design that was only traced and sliced has of everything that makes it up. */
export const NOT_MADE_UP: Pick<
  Design,
  'trims' | 'closings' | 'sewing' | 'numbers' | 'lining' | 'facings' | 'edgeJobs' | 'meantOff'
> = {
  edgeJobs: [],
  meantOff: [],
  trims: [],
  closings: [],
  sewing: USUAL_SEWING,
  numbers: [],
  lining: null,
  facings: [],
};

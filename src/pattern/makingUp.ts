import type { Colour, Design, SewingWishes } from './design';

/** What is wanted of the sewing order before anybody has said anything. */
const USUAL_SEWING: SewingWishes = { sleeves: 'flat', fewThreads: false, inTheRound: [], order: [] };

/** What a design that was only traced and sliced has of everything that makes it up. */
export const NOT_MADE_UP: Pick<
  Design,
  | 'trims'
  | 'closings'
  | 'sewing'
  | 'numbers'
  | 'lining'
  | 'facings'
  | 'cuttingOut'
  | 'remnants'
  | 'offGrain'
  | 'edgeJobs'
  | 'meantOff'
> = {
  edgeJobs: [],
  meantOff: [],
  trims: [],
  closings: [],
  sewing: USUAL_SEWING,
  numbers: [],
  lining: null,
  facings: [],
  // room for the blade (common practice, no source)
  cuttingOut: { gap: 2 },
  remnants: [],
  offGrain: [],
};

/** Cloth about which nothing has been said but its width: all of it is used, in one layer, and just as much is bought as is needed. */
export const PLAIN_CLOTH: Pick<
  Colour,
  'nap' | 'shrinkage' | 'price' | 'margin' | 'layering' | 'repeat' | 'reserve'
> = {
  nap: false,
  shrinkage: { along: 0, across: 0 },
  price: null,
  margin: 0,
  layering: 'single',
  repeat: { along: 0, across: 0 },
  reserve: 0,
};

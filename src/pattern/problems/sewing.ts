import type { WordingOf } from './wording';

/** What the sewing order asks to be told. One entry per code, with the facts its sentence needs. */
export interface SewingFacts {
  'partial-seam': { panel: number };
}

export const SEWING: WordingOf<SewingFacts> = {
  'partial-seam': [
    'warning',
    ({ panel }) =>
      `These lines end on each other in a ring: panel ${panel} needs a seam left partly open and finished later. Extending one line through avoids it.`,
  ],
};

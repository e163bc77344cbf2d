import type { WordingOf } from './wording';

/** What can be wrong with paper. One entry per code, with the facts its sentence needs. */
export interface PaperFacts {
  'piece-larger-than-sheet': { panel: number };
}

export const PAPER: WordingOf<PaperFacts> = {
  'piece-larger-than-sheet': [
    'warning',
    ({ panel }) => `Panel ${panel} does not fit on one sheet and is spread over several.`,
  ],
};

import type { WordingOf } from './wording';

/** What can be wrong with cloth and paper. One entry per code, with the facts its sentence needs. */
export interface PaperFacts {
  'panel-wider-than-cloth': { panel: number; across: number; width: number; colour: string };
  'piece-larger-than-sheet': { panel: number };
}

export const PAPER: WordingOf<PaperFacts> = {
  'panel-wider-than-cloth': [
    'error',
    ({ panel, across, width, colour }, mm) =>
      `Panel ${panel} is ${mm(across)} across and does not fit ${colour} of ${mm(width)} usable width. Take wider cloth or add a line.`,
  ],
  'piece-larger-than-sheet': [
    'warning',
    ({ panel }) => `Panel ${panel} does not fit on one sheet and is spread over several.`,
  ],
};

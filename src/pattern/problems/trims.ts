import type { LineId } from '../design';
import type { WordingOf } from './wording';

/** What can be wrong with a trim. One entry per code, with the facts its sentence needs. */
export interface TrimsFacts {
  'trim-end-uncovered': { trim: string; line: LineId; allowance: number };
  'trim-curve-too-tight': { trim: string; width: number; radius: number };
  'trim-strained': { trim: string; percent: number; needsGathering: boolean };
  'trim-corner': { trim: string };
}

export const TRIMS: WordingOf<TrimsFacts> = {
  'trim-end-uncovered': [
    'hint',
    ({ trim, allowance }, mm) =>
      `Nothing covers this end of ${trim}: turn it under; ${mm(allowance)} is added for it. Ending the line at a seam avoids it.`,
  ],
  'trim-curve-too-tight': [
    'error',
    ({ trim, width, radius }, mm) =>
      `${trim}, ${mm(width)} wide, cannot follow this curve of ${mm(radius)} radius: its inner edge folds up. Take a trim narrower than ${mm(2 * radius)}, or a gentler line.`,
  ],
  'trim-strained': [
    'warning',
    ({ trim, percent, needsGathering }) =>
      needsGathering
        ? `${trim} will not lie flat on this curve: its edges differ from the line by ${percent} %. Take a narrower one, or gather its inner edge.`
        : `${trim} must give by ${percent} % on this curve. A bias strip or a ribbon that takes steam will; a straight-edged one will not.`,
  ],
  'trim-corner': ['hint', ({ trim }) => `${trim} turns a corner here: fold it into a mitre.`],
};

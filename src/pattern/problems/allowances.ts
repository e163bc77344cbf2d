import type { WordingOf } from './wording';

/** What can be wrong with allowances and cutting lines. One entry per code, with the facts its sentence needs. */
export interface AllowancesFacts {
  'cutting-line-unsound': { panel: number };
  'allowance-swallows-piece': { piece: string; included: number };
  'seam-without-marks': { a: number; b: number; length: number };
}

export const ALLOWANCES: WordingOf<AllowancesFacts> = {
  'cutting-line-unsound': [
    'error',
    ({ panel }) =>
      `The cutting line of panel ${panel} failed its check. Do not cut it; try a narrower allowance and report this design.`,
  ],
  'allowance-swallows-piece': [
    'error',
    ({ piece, included }, mm) =>
      `With ${mm(included)} of allowance inside it, nothing is left of ${piece}. Give the allowance that the tracing really includes.`,
  ],
  'seam-without-marks': [
    'hint',
    ({ a, b, length }, mm) =>
      `The seam between panels ${a} and ${b} is only ${mm(length)} long or too sharply bent: no match mark fits on it. Pin it from end to end, or move the line.`,
  ],
};

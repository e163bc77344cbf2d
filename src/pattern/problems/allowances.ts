import type { WordingOf } from './wording';

/** What can be wrong with allowances and cutting lines. One entry per code, with the facts its sentence needs. */
export interface AllowancesFacts {
  'cutting-line-unsound': { panel: number };
  'allowance-swallows-piece': { piece: string; included: number };
  'seam-without-marks': { a: number; b: number; length: number };
  /** mm of cloth, told in both systems whatever the user's units are. */
  'widths-mixed': { metric: number; inch: number };
  /** `share`: how much longer the raw edge may be, 0..1. */
  'hem-too-deep': { edge: string; piece: string; depth: number; most: number; share: number };
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
  'widths-mixed': [
    'warning',
    ({ metric, inch }) =>
      `Allowances of ${metric} mm and of ${inch} mm (inches) are mixed: ${Math.abs(inch - metric)
        .toFixed(3)
        .replace(
          /0+$/,
          '',
        )} mm apart at every edge, which adds up round the body. Use one of them throughout.`,
  ],
  'hem-too-deep': [
    'hint',
    ({ edge, piece, depth, most, share }, mm) =>
      `The ${edge} of ${piece} is curved: at ${mm(depth)} deep its raw edge is more than ${Math.round(share * 100)} % longer than where it is sewn, and must be eased in. Up to ${mm(most)} it lies flat enough; flared hems are usually 6 to 10 mm deep, or faced.`,
  ],
};

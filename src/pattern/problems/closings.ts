import { plainPlace } from '../seamWords';
import type { WordingOf } from './wording';

/** What can be wrong with a zip, a lining or a facing. `seam` is `front/side seam`, or a line's piece and label. One entry per code, with the facts its sentence needs. */
export interface ClosingsFacts {
  'zip-longer-than-seam': { seam: string; zip: number; length: number };
  'zip-round-corner': { seam: string };
  'zip-on-tight-curve': { seam: string; radius: number };
  'zip-lines-miss': { seam: string; mm: number };
  'zip-end-open': { seam: string };
  'lining-hem-too-high': { piece: string; shorter: number };
  'facing-does-not-fit': { piece: string; edge: string; depth: number };
}

export const CLOSINGS: WordingOf<ClosingsFacts> = {
  'zip-longer-than-seam': [
    'warning',
    ({ seam, zip, length }, mm) =>
      `The zip at ${plainPlace(seam)} is to be ${mm(zip)} long, the seam is only ${mm(length)}. Choose a shorter zip; it is drawn over the whole seam.`,
  ],
  'zip-round-corner': [
    'warning',
    ({ seam }) =>
      `The zip at ${plainPlace(seam)} goes round a corner, which it cannot. End it before the corner, or put it into another seam.`,
  ],
  'zip-on-tight-curve': [
    'hint',
    ({ seam, radius }, mm) =>
      `The zip at ${plainPlace(seam)} bends round a curve of ${mm(radius)} radius: it will ripple. Straighten the line there, or end the zip before it.`,
  ],
  'zip-lines-miss': [
    'warning',
    ({ seam, mm: off }, mm) =>
      `Two panel lines miss each other by ${mm(off)} across the zip at ${plainPlace(seam)}, where it shows most. Bring them together, or say that they are meant to be off.`,
  ],
  'zip-end-open': [
    'warning',
    ({ seam }) =>
      `The upper end of the zip at ${plainPlace(seam)} lies at no edge and no other seam: it could not be opened. Run the line on to an edge.`,
  ],
  'lining-hem-too-high': [
    'warning',
    ({ piece, shorter }, mm) =>
      `The lining of ${piece} cannot be ${mm(shorter)} shorter: nothing is left there. It is cut at full length; take off less.`,
  ],
  'facing-does-not-fit': [
    'warning',
    ({ piece, edge, depth }, mm) =>
      `There is no room for a facing ${mm(depth)} deep along ${edge} on ${piece}, or no such edge any more. Make it narrower, or take it out.`,
  ],
};

import { type LinesMiss, type SeamLengths, plainPlace, sayLengths, sayMiss } from '../seamWords';
import type { WordingOf } from './wording';

/** What can be wrong where pieces are sewn to each other. One entry per code, with the facts its sentence needs. */
export interface NeighboursFacts {
  'edge-job-unknown': { piece: string; edges: readonly string[] };
  'seam-lengths-nearly': SeamLengths;
  'seam-lengths-differ': SeamLengths;
  'lines-meet-nearly': LinesMiss;
  'lines-meet-off': LinesMiss;
  'lines-do-not-meet': LinesMiss;
  'joined-widths-differ': { a: string; b: string; widthA: number; widthB: number };
}

export const NEIGHBOURS: WordingOf<NeighboursFacts> = {
  'edge-job-unknown': [
    'hint',
    ({ piece, edges }) =>
      `What becomes of ${edges.join(', ')} on ${piece}? Say what ${edges.length === 1 ? 'it joins' : 'they join'}, or that ${edges.length === 1 ? 'it is' : 'they are'} hemmed, bound or left as is.`,
  ],
  'seam-lengths-nearly': ['hint', sayLengths],
  'seam-lengths-differ': ['warning', sayLengths],
  'lines-meet-nearly': ['hint', sayMiss],
  'lines-meet-off': ['warning', sayMiss],
  'lines-do-not-meet': ['error', sayMiss],
  'joined-widths-differ': [
    'hint',
    ({ a, b, widthA, widthB }, mm) =>
      `${plainPlace(a)} has ${mm(widthA)} of allowance, ${plainPlace(b)}, which it is sewn to, ${mm(widthB)}. Give both the same, or match the stitching lines, not the cut edges.`,
  ],
};

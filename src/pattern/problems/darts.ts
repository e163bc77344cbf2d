import type { LineId } from '../design';
import type { WordingOf } from './wording';

/** Why a dart cannot be swung to a place. */
export type SwingFault =
  'double-pointed' | 'no such place' | 'in the mouth' | 'not seen' | 'overlaps' | 'off the edge';

const NOT_SWUNG: Record<SwingFault, string> = {
  'double-pointed':
    'a double-pointed dart has no end at an edge to swing from. Keep it, or run a panel line through it.',
  'no such place': 'the edge it should go to is not on this piece any more. Choose another place.',
  'in the mouth': 'the place chosen lies in its own mouth. Choose one on another edge.',
  'not seen':
    'the cut from its point to the place chosen would leave the piece or run through another dart. Choose a place that can be reached straight from the point.',
  overlaps:
    'the part that turns would lie over the rest of the piece. Swing less of it, or to another place.',
  'off the edge': 'its mouth does not lie on the edge, or its point lies outside. Trace it anew.',
};

/** What can be wrong with a dart, or with a line near one. One entry per code, with the facts its sentence needs. */
export interface DartsFacts {
  'panel-line-near-dart': { line: LineId; gap: number };
  'line-crosses-dart': { line: LineId; gap: number };
  'line-ends-in-dart': { line: LineId };
  'allowance-over-dart': { line: LineId; gap: number; allowance: number };
  'dart-unsound': Record<never, never>;
  'dart-not-swallowed': Record<never, never>;
  'dart-end-too-wide': { width: number; most: number };
  'dart-mouth-off-edge': { gap: number };
  'dart-legs-differ-slightly': { difference: number };
  'dart-legs-differ': { difference: number };
  'dart-legs-differ-much': { difference: number };
  'dart-not-swung': { why: SwingFault };
}

export const DARTS: WordingOf<DartsFacts> = {
  'panel-line-near-dart': [
    'hint',
    ({ gap }, mm) =>
      `This line passes ${mm(gap)} from a dart point. Keep 2.5 cm clear, or run it through the point.`,
  ],
  'line-crosses-dart': [
    'warning',
    ({ gap }, mm) =>
      `This line crosses a dart and breaks by ${mm(gap)} once it is sewn. Lay it as sewn, or move it clear of the dart.`,
  ],
  'line-ends-in-dart': [
    'warning',
    () =>
      'This line ends in the mouth of a dart, where it is folded away. Run it through the point of the dart, or move it clear.',
  ],
  'allowance-over-dart': [
    'hint',
    ({ gap, allowance }, mm) =>
      `This line runs ${mm(gap)} beside a dart: its allowance of ${mm(allowance)} lies over the leg. Move it clear, or let the dart go into the seam.`,
  ],
  'dart-unsound': [
    'warning',
    () =>
      'This dart cannot be sewn as it is traced and is left out: it leaves the piece, crosses itself or another dart, or has no width. Trace it mouth, point, mouth inside the outline.',
  ],
  'dart-not-swallowed': [
    'warning',
    () =>
      'No panel line runs through the point of this dart, or across it: it stays a dart. Run a line through its point, or keep it.',
  ],
  'dart-end-too-wide': [
    'warning',
    ({ width, most }, mm) =>
      `The end of this dart leaves ${mm(width)} to ease in, more than about ${mm(most)}. Move the line nearer to its point, or sew the end as a shorter dart.`,
  ],
  'dart-mouth-off-edge': [
    'warning',
    ({ gap }, mm) =>
      `This dart stops ${mm(gap)} from the edge; its legs are drawn on to it. Trace its mouth on the edge.`,
  ],
  'dart-legs-differ-slightly': [
    'hint',
    ({ difference }, mm) =>
      `One leg of this dart is ${mm(difference)} longer than the other: within what sewing takes up. Sew from the point.`,
  ],
  'dart-legs-differ': [
    'warning',
    ({ difference }, mm) =>
      `One leg of this dart is ${mm(difference)} longer than the other. Check the tracing; the shorter leg is drawn on to match, and the edge steps there.`,
  ],
  'dart-legs-differ-much': [
    'warning',
    ({ difference }, mm) =>
      `One leg of this dart is ${mm(difference)} longer than the other: sewn like this the edge steps and the dart pulls. Trace its mouth or its point anew before you cut.`,
  ],
  'dart-not-swung': ['warning', ({ why }) => `This dart stays where it is: ${NOT_SWUNG[why]}`],
};

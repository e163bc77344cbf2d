import type { Pt } from '../geometry';
import { formatLength } from './units';
import type { LineId, Units } from './design';
import { type LinesMiss, type SeamLengths, plainPlace, sayLengths, sayMiss } from './seamWords';

/**
 * Everything that can go wrong with a sewist's drawing or file, with the facts its sentence needs.
 * One entry per code; rooms add theirs here so that all wording lives in one table.
 */
export interface ProblemFacts {
  // drawing
  'line-ends-in-the-open': {
    line: LineId;
    mirrored: boolean;
    end: 'start' | 'end';
    gap: number | null;
    reach: Pt | null;
  };
  'line-cuts-nothing': { line: LineId };
  'tie-lost': { line: LineId; what: string; why: 'gone' | 'missed' | 'ring' };
  'grain-assumed': { piece: string };
  'panel-too-narrow': { panel: number; width: number };
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
  'fold-off-outline': { gap: number };
  'fold-not-straight': Record<never, never>;
  'edge-name-off-outline': { name: string; gap: number };
  'notch-off-outline': { gap: number };
  'cutting-line-unsound': { panel: number };
  'allowance-swallows-piece': { piece: string; included: number };
  'partial-seam': { panel: number };
  'tracing-taken-as-net': { outer: number };
  // neighbours
  'edge-job-unknown': { piece: string; edges: readonly string[] };
  'seam-lengths-nearly': SeamLengths;
  'seam-lengths-differ': SeamLengths;
  'lines-meet-nearly': LinesMiss;
  'lines-meet-off': LinesMiss;
  'lines-do-not-meet': LinesMiss;
  'joined-widths-differ': { a: string; b: string; widthA: number; widthB: number };
  // trims
  'trim-end-uncovered': { trim: string; line: LineId; allowance: number };
  'trim-curve-too-tight': { trim: string; width: number; radius: number };
  'trim-strained': { trim: string; percent: number; needsGathering: boolean };
  'trim-corner': { trim: string };
  // cloth and paper
  'panel-wider-than-cloth': { panel: number; across: number; width: number; colour: string };
  'piece-larger-than-sheet': { panel: number };
  // files
  'file-empty': { file: string };
  'file-unreadable': { file: string; why: string };
  'file-too-large': { file: string; size: number; most: number };
  'file-not-svg': { file: string };
  'file-not-text': { file: string; encoding: string };
  'file-not-well-formed': { file: string; line: number; column: number; what: string };
  'file-hostile': { file: string; what: string };
  'no-outline': { file: string; piece: string };
  'outline-open': { file: string; piece: string; gap: number };
  'outline-without-area': { file: string; piece: string };
  'outline-crosses-itself': { file: string; piece: string };
  'lines-too-tangled': { most: number };
  'bad-number': { file: string; where: string; what: string };
  'scale-unknown': { file: string };
  'scale-assumed': { file: string };
  'several-outlines': { piece: string; count: number };
  'not-a-design': { file: string; what: string };
  'design-too-new': { file: string; version: number };
  'design-broken': { file: string; where: string; what: string };
  'left-out': { names: readonly string[] };
}

/** Why a dart cannot be swung to a place. */
export type SwingFault =
  'double-pointed' | 'no such place' | 'in the mouth' | 'not seen' | 'overlaps' | 'off the edge';

export type ProblemCode = keyof ProblemFacts;
export type Severity = 'error' | 'warning' | 'hint';

/** Something the tool wants you to see: what, where on which piece, and (in its sentence) what to do. */
export type Problem = {
  [C in ProblemCode]: {
    readonly code: C;
    readonly facts: Readonly<ProblemFacts[C]>;
    /** Piece name or null; the spot in the piece's traced coordinates or null. */
    readonly piece: string | null;
    readonly at: Pt | null;
  };
}[ProblemCode];

/** A result, or the reasons why there is none. Warnings may come with a result. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly [Problem, ...Problem[]] };

export const problem = <C extends ProblemCode>(
  code: C,
  facts: ProblemFacts[C],
  piece: string | null = null,
  at: Pt | null = null,
): Problem => ({ code, facts, piece, at }) as Problem;

type Wording = {
  [C in ProblemCode]: readonly [Severity, (facts: ProblemFacts[C], mm: (length: number) => string) => string];
};

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

/** The only wording. A code without a sentence does not compile. Each sentence says what, and what to do. */
const WORDING: Wording = {
  'line-ends-in-the-open': [
    'error',
    ({ gap }, mm) =>
      gap === null
        ? 'This panel line ends in the open, where it cannot be sewn. Draw its end to an edge or another line.'
        : `This panel line ends ${mm(gap)} short of the next line or edge, where it cannot be sewn. Extend it to there.`,
  ],
  'line-cuts-nothing': [
    'warning',
    () => 'This panel line divides nothing. Draw it from edge to edge, or delete it.',
  ],
  'tie-lost': [
    'warning',
    ({ what, why }) =>
      why === 'ring'
        ? 'This panel line is tied, over other lines, to itself. It stays where it is: untie one of them.'
        : why === 'gone'
          ? `This panel line is tied to ${what}, which is no longer there. It stays where it is: tie it anew or untie it.`
          : `This panel line is tied to ${what}, but does not meet it any more. It stays where it is: tie it anew or untie it.`,
  ],
  'grain-assumed': [
    'hint',
    ({ piece }) =>
      `No grain was traced on ${piece}; it is taken along the fold, or straight down the page. Check it.`,
  ],
  'panel-too-narrow': [
    'warning',
    ({ panel, width }, mm) =>
      `Panel ${panel} is only ${mm(width)} wide: hard to sew. Move a line, or lay a trim there instead.`,
  ],
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
  'dart-not-swung': ['warning', ({ why }) => `This dart stays where it is: ${NOT_SWUNG[why]}`],
  'dart-legs-differ-much': [
    'warning',
    ({ difference }, mm) =>
      `One leg of this dart is ${mm(difference)} longer than the other: sewn like this the edge steps and the dart pulls. Trace its mouth or its point anew before you cut.`,
  ],
  'fold-off-outline': [
    'error',
    ({ gap }, mm) => `The fold lies ${mm(gap)} off the outline. Trace it along the outline's straight edge.`,
  ],
  'fold-not-straight': [
    'error',
    () => 'The outline is not straight along the fold. Trace a straight edge there.',
  ],
  'edge-name-off-outline': [
    'warning',
    ({ name, gap }, mm) =>
      `The edge name “${name}” lies ${mm(gap)} off the outline and is not used. Trace it along the outline.`,
  ],
  'notch-off-outline': [
    'warning',
    ({ gap }, mm) =>
      `This notch lies ${mm(gap)} from the outline and is not used. Trace it so that it touches.`,
  ],
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
  'partial-seam': [
    'warning',
    ({ panel }) =>
      `These lines end on each other in a ring: panel ${panel} needs a seam left partly open and finished later. Extending one line through avoids it.`,
  ],
  'tracing-taken-as-net': [
    'hint',
    ({ outer }, mm) =>
      `The outline is taken as the stitching line and gets ${mm(outer)} added. If the tracing already has its allowance, say so.`,
  ],
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
  'panel-wider-than-cloth': [
    'error',
    ({ panel, across, width, colour }, mm) =>
      `Panel ${panel} is ${mm(across)} across and does not fit ${colour} of ${mm(width)} usable width. Take wider cloth or add a line.`,
  ],
  'piece-larger-than-sheet': [
    'warning',
    ({ panel }) => `Panel ${panel} does not fit on one sheet and is spread over several.`,
  ],
  'file-empty': ['error', ({ file }) => `${file} is empty. Export the tracing again.`],
  'file-unreadable': [
    'error',
    ({ file, why }) => `${file} cannot be read: ${why}. Check its name and place.`,
  ],
  'file-too-large': [
    'error',
    ({ file, size, most }) =>
      `${file} has ${size} nodes or bytes; the most is ${most}. Simplify the tracing and export it again.`,
  ],
  'file-not-svg': [
    'error',
    ({ file }) => `${file} is not an SVG drawing or a Panelwright design. Choose another file.`,
  ],
  'file-not-text': [
    'error',
    ({ file, encoding }) =>
      `${file} is not text in the encoding it claims (${encoding}). Export the drawing again as plain SVG in UTF-8.`,
  ],
  'file-not-well-formed': [
    'error',
    ({ file, line, column, what }) =>
      `${file}, line ${line}, column ${column}: ${what}. Export the drawing again.`,
  ],
  'file-hostile': [
    'error',
    ({ file, what }) => `${file} is refused: ${what}. Export a plain drawing without it.`,
  ],
  'no-outline': [
    'error',
    ({ file, piece }) => `${file}: piece ${piece} has no outline. Name a closed path 'outline'.`,
  ],
  'outline-open': [
    'error',
    ({ file, piece, gap }, mm) => `${file}: the outline of ${piece} is open by ${mm(gap)}. Close it.`,
  ],
  'outline-without-area': [
    'error',
    ({ file, piece }) => `${file}: the outline of ${piece} encloses nothing. Trace it again.`,
  ],
  'outline-crosses-itself': [
    'error',
    ({ file, piece }) => `${file}: the outline of ${piece} crosses itself. Trace it without a loop.`,
  ],
  'lines-too-tangled': [
    'error',
    ({ most }) =>
      `The panel lines cross each other at more than ${most} places. Remove lines until the panels can be sewn.`,
  ],
  'bad-number': [
    'error',
    ({ file, where, what }) =>
      `${file}: ${where} has ${what} where a number should be. Correct it and export again.`,
  ],
  'scale-unknown': [
    'error',
    ({ file }) =>
      `${file} does not say how large it is. Give its scale (--scale, mm per unit) or export it with a size in mm.`,
  ],
  'scale-assumed': [
    'hint',
    ({ file }) =>
      `${file} has no size of its own and is taken at 96 units to the inch. Measure one edge before you cut, or export it with a size in mm.`,
  ],
  'several-outlines': [
    'warning',
    ({ piece, count }) =>
      `${piece} has ${count} outlines; the largest is used. Put each piece in its own group.`,
  ],
  'not-a-design': [
    'error',
    ({ file, what }) => `${file} is not a Panelwright design: ${what}. Choose another file.`,
  ],
  'design-too-new': [
    'error',
    ({ file, version }) =>
      `${file} was saved by a newer Panelwright (version ${version}). Update, then open it again; it is left untouched.`,
  ],
  'design-broken': [
    'error',
    ({ file, where, what }) => `${file} is damaged at ${where}: ${what}. Open an earlier copy.`,
  ],
  'left-out': ['hint', ({ names }) => `Not understood and left out: ${names.join(', ')}.`],
};

export const severityOf = (p: Problem): Severity => WORDING[p.code][0];

/** The sentence for a person, lengths in their unit. */
export function sayProblem(p: Problem, units: Units | 'mm' = 'mm'): string {
  const say = WORDING[p.code][1] as (facts: Problem['facts'], mm: (length: number) => string) => string;
  return say(p.facts, (length) => formatLength(length, units));
}

export const isRefusal = (p: Problem): boolean => severityOf(p) === 'error';

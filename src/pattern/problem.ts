import type { Pt } from '../geometry';
import type { Units } from './design';
import { formatLength } from './units';
import { ALLOWANCES, type AllowancesFacts } from './problems/allowances';
import { CLOSINGS, type ClosingsFacts } from './problems/closings';
import { CLOTH, type ClothFacts } from './problems/cloth';
import { DARTS, type DartsFacts } from './problems/darts';
import { DRAWING, type DrawingFacts } from './problems/drawing';
import { FILES, type FilesFacts } from './problems/files';
import { NEIGHBOURS, type NeighboursFacts } from './problems/neighbours';
import { OWN_CLOTH, type OwnClothFacts } from './problems/ownCloth';
import { PAPER, type PaperFacts } from './problems/paper';
import { SEWING, type SewingFacts } from './problems/sewing';
import { TRIMS, type TrimsFacts } from './problems/trims';
import type { SayLength, Severity, WordingOf } from './problems/wording';

export type { Severity } from './problems/wording';
export type { SwingFault } from './problems/darts';
export type { TrimCure } from './problems/trims';

/**
 * Everything that can go wrong with a sewist's drawing or file, with the facts its sentence needs.
 * One entry per code, in the topic's own file; all wording stands there and nowhere else.
 */
export interface ProblemFacts
  extends
    DrawingFacts,
    DartsFacts,
    AllowancesFacts,
    SewingFacts,
    NeighboursFacts,
    TrimsFacts,
    ClosingsFacts,
    ClothFacts,
    OwnClothFacts,
    PaperFacts,
    FilesFacts {}

export type ProblemCode = keyof ProblemFacts;

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

/** The only wording. */
const WORDING: WordingOf<ProblemFacts> = {
  ...DRAWING,
  ...DARTS,
  ...ALLOWANCES,
  ...SEWING,
  ...NEIGHBOURS,
  ...TRIMS,
  ...CLOSINGS,
  ...CLOTH,
  ...OWN_CLOTH,
  ...PAPER,
  ...FILES,
};

export const severityOf = (p: Problem): Severity => WORDING[p.code][0];

/** The sentence for a person, lengths in their unit. */
export function sayProblem(p: Problem, units: Units | 'mm' = 'mm'): string {
  const say = WORDING[p.code][1] as (facts: Problem['facts'], mm: SayLength) => string;
  return say(p.facts, (length) => formatLength(length, units));
}

export const isRefusal = (p: Problem): boolean => severityOf(p) === 'error';

/** Where a sentence goes over to what can be done. */
const CHOICES = ' Choices: ';

/** As sayProblem, what is wrong and what can be done about it apart; no choices: null. */
export function sayInTwo(p: Problem, units: Units | 'mm' = 'mm'): { what: string; choices: string | null } {
  const words = sayProblem(p, units);
  const at = words.indexOf(CHOICES);
  return at < 0 ? { what: words, choices: null } : { what: words.slice(0, at), choices: words.slice(at + 1) };
}

import type { LineId, TrimId, TrimKind, TrimPlace } from '../design';
import type { SayLength, WordingOf } from './wording';

/** The smallest change that hides the raw end of a trim. */
export type TrimCure =
  /** Run on by so many mm, to where it is hidden; `place` is where the trim lies then. */
  | {
      readonly kind: 'extend';
      readonly by: number;
      readonly until: 'edge' | 'seam' | 'trim';
      readonly place: TrimPlace;
    }
  /** Lay a trim over the line it ends on, later. */
  | { readonly kind: 'cover'; readonly line: LineId; readonly label: string };

/** What can be wrong with a trim. One entry per code, with the facts its sentence needs. */
export interface TrimsFacts {
  'trim-end-uncovered': {
    trim: string;
    id: TrimId;
    line: LineId | null;
    allowance: number;
    cure: TrimCure | null;
  };
  'trim-end-tucked': { trim: string; over: string };
  'trim-curve-too-tight': { trim: string; width: number; radius: number };
  'trim-strained': { trim: string; kind: TrimKind; percent: number; widest: number; needsGathering: boolean };
  'trim-corner': { trim: string };
  'trim-shows-through': { trim: string; cloths: readonly string[]; how: 'darker' | 'two shades' };
  'trim-lies-nowhere': { trim: string };
  /** A narrow panel that cannot be given up for a trim. */
  'panel-is-no-strip': { why: 'outline' | 'mirrored' | 'run apart' | 'not side by side' };
  /** A trim that cannot be cut as a panel. */
  'trim-is-no-panel': { trim: string; why: 'part' | 'bends' };
}

const UNTIL = {
  edge: 'the edge',
  seam: 'the next seam, which catches it',
  trim: 'the next trim, and under it',
};

function sayCure(cure: TrimCure | null, mm: SayLength): string {
  if (cure === null) return 'Ending it at a seam avoids it.';
  if (cure.kind === 'cover') return `A trim laid later along ${cure.label} would cover it.`;
  return `Let it run on ${mm(cure.by)} to ${UNTIL[cure.until]}.`;
}

const NO_STRIP: Readonly<Record<TrimsFacts['panel-is-no-strip']['why'], string>> = {
  outline:
    'one of its long sides is the edge of the piece, not a panel line. Move the line, or finish the edge with a binding',
  mirrored:
    'its sides are not two lines drawn alike: one mirrors the other, or only one of them is mirrored. Draw one line in the middle and lay a trim on it',
  'run apart':
    'its two sides run apart, and a trim is equally wide all along. Move one of the lines until they run side by side',
  'not side by side':
    'its two sides do not lie side by side. Draw one line through it and lay a trim on that',
};

export const TRIMS: WordingOf<TrimsFacts> = {
  'trim-end-uncovered': [
    'hint',
    ({ trim, allowance, cure }, mm) =>
      `Nothing covers this end of ${trim}: turn it under; ${mm(allowance)} is added for it. ${sayCure(cure, mm)}`,
  ],
  'trim-end-tucked': [
    'hint',
    ({ trim, over }) =>
      `This end of ${trim} goes under ${over}, which is laid before it: leave ${over} unstitched here, tuck the end under, then stitch it down.`,
  ],
  'trim-curve-too-tight': [
    'error',
    ({ trim, width, radius }, mm) =>
      `${trim}, ${mm(width)} wide, cannot follow this curve of ${mm(radius)} radius: its inner edge folds up. Take a trim narrower than ${mm(2 * radius)}, or a gentler line.`,
  ],
  'trim-strained': [
    'warning',
    ({ trim, kind, percent, widest, needsGathering }, mm) =>
      needsGathering
        ? `${trim} will not lie flat on this curve: its edges differ from the line by ${percent} %. Take one of at most ${mm(widest)}, or gather its inner edge.`
        : `${trim} must give by ${percent} % on this curve, and a ${kind === 'straight' ? 'straight edge' : kind} will not. Take a bias strip or one with a scalloped edge, or one of at most ${mm(widest)}.`,
  ],
  'trim-corner': ['hint', ({ trim }) => `${trim} turns a corner here: fold it into a mitre.`],
  'trim-shows-through': [
    'hint',
    ({ trim, cloths, how }) =>
      `${how === 'darker' ? `${cloths[0]} may show through ${trim}` : `Under ${trim} the change from ${cloths.join(' to ')} may show as a line`}: lay a strip of its own colour under it, press the darker allowance away from it and grade it, or take a darker trim.`,
  ],
  'panel-is-no-strip': ['hint', ({ why }) => `This panel cannot become a trim: ${NO_STRIP[why]}.`],
  'trim-is-no-panel': [
    'hint',
    ({ trim, why }) =>
      why === 'part'
        ? `${trim} cannot be cut as a panel: a panel runs along the whole of a panel line. Let the trim lie on all of one.`
        : `${trim} cannot be cut as a panel: its line bends too tightly for two lines side by side.`,
  ],
  'trim-lies-nowhere': [
    'warning',
    ({ trim }) => `${trim} lies beside its piece, so none of it is laid. Draw it on the piece, or delete it.`,
  ],
};

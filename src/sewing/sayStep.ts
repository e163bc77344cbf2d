import type { StepKind } from './plan';

/** `1–3+5`: runs of numbers shortened. */
export function sayNumbers(numbers: readonly number[]): string {
  const sorted = [...numbers].sort((a, b) => a - b);
  const runs: [number, number][] = [];
  for (const n of sorted) {
    const last = runs.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else runs.push([n, n]);
  }
  return runs.map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}+${b}` : `${a}–${b}`)).join('+');
}

export interface StepFacts {
  readonly kind: StepKind;
  /** Name of the piece it is done on; null where several are. */
  readonly piece: string | null;
  readonly isPair: boolean;
  readonly left: readonly number[];
  readonly right: readonly number[];
  /** For a seam begun here: the step that finishes it. For one finished here: the step that began it. */
  readonly other: number | null;
  readonly finishes: boolean;
  /** The darts, the trim, the seam or the edges, in words. */
  readonly what: string | null;
  /** Whether both sides are one edge of a piece that is cut twice, mirrored. */
  readonly isMirrored: boolean;
  /** Whether the end of a dart is eased in along the seam. */
  readonly eases: boolean;
}

/** What is sewn within a piece. */
function sayWithin(f: StepFacts, left: string, right: string): string {
  if (f.kind === 'dart') return `sew ${f.what ?? 'the dart'} in ${left} shut and press`;
  if (f.kind === 'zip') return `set the zip into the seam of ${left} and ${right}`;
  if (f.kind === 'trim')
    return `lay ${f.what ?? 'the trim'} over the seam of ${left} and stitch both edges in the same direction`;
  if (f.kind === 'partial seam' && f.finishes)
    return `finish the seam left open in step ${f.other ?? '?'}: sew ${left} to ${right} to its end and press`;
  if (f.kind === 'partial seam')
    return `sew ${left} to ${right}, but only half of the seam, beginning at the end where the next line meets it; leave the rest open until step ${f.other ?? '?'}`;
  const ease = f.eases ? ' easing the fuller side in between the notches;' : '';
  const round = f.what ? ` ${f.what}` : '';
  return `sew ${left} to ${right}${round}, right sides together, notches matched;${ease} press before going on`;
}

/** What is sewn along outer edges. */
function sayAlong(f: StepFacts, left: string, right: string): string {
  const what = f.what ?? 'the edge';
  const to = f.isMirrored ? ' to the other half' : '';
  const sides = left === right ? `${left}${to}` : `${left} to ${right}`;
  if (f.kind === 'join') return `Sew ${what}: ${sides}.`;
  if (f.kind === 'zip') return `Set the zip into ${what}: ${sides}.`;
  if (f.kind === 'hem') return `Turn up and sew the ${what} of ${left}.`;
  return `Finish the ${what} of ${left}.`;
}

/** One step in words, without lengths, so that it reads the same in cm and inches. */
export function sayStep(f: StepFacts): string {
  const [left, right] = [sayNumbers(f.left), sayNumbers(f.right)];
  const isAlong = f.kind === 'join' || f.kind === 'edge' || f.kind === 'hem' || (f.kind === 'zip' && f.what);
  if (isAlong) return sayAlong(f, left, right);
  const start = f.piece === null ? '' : `${f.piece}: `;
  const twice =
    f.isPair && f.kind === 'seam' && f.what
      ? ' Both sides alike.'
      : f.isPair
        ? ' Make a second one, mirrored.'
        : '';
  return `${start}${sayWithin(f, left, right)}.${twice}`;
}

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
  readonly piece: string;
  readonly isPair: boolean;
  readonly left: readonly number[];
  readonly right: readonly number[];
  /** For a seam begun here: the step that finishes it. For one finished here: the step that began it. */
  readonly other: number | null;
  readonly finishes: boolean;
  /** The darts or the trim, in words. */
  readonly what: string | null;
  /** Whether the end of a dart is eased in along the seam. */
  readonly eases: boolean;
}

/** One step in words, without lengths, so that it reads the same in cm and inches. */
export function sayStep(f: StepFacts): string {
  const [left, right] = [sayNumbers(f.left), sayNumbers(f.right)];
  const twice = f.isPair ? ' Make a second one, mirrored.' : '';
  const start = `${f.piece}: `;
  if (f.kind === 'dart') return `${start}sew ${f.what ?? 'the dart'} in ${left} shut and press.${twice}`;
  if (f.kind === 'trim')
    return `${start}lay ${f.what ?? 'the trim'} over the seam of ${left} and stitch both edges in the same direction.${twice}`;
  if (f.kind === 'partial seam' && f.finishes)
    return `${start}finish the seam left open in step ${f.other ?? '?'}: sew ${left} to ${right} to its end and press.${twice}`;
  if (f.kind === 'partial seam')
    return `${start}sew ${left} to ${right}, but only half of the seam, beginning at the end where the next line meets it; leave the rest open until step ${f.other ?? '?'}.${twice}`;
  const ease = f.eases ? ' easing the fuller side in between the notches;' : '';
  return `${start}sew ${left} to ${right}, right sides together, notches matched;${ease} press before going on.${twice}`;
}

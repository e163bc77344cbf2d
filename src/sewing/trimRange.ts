import type { LaidLine } from '../panels';

/** From and to along a laid line, mm. */
export type Span = readonly [from: number, to: number];

/** Spans this near to each other are one, mm. */
const JOINED = 0.01;

function joined(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0])) {
    const last = out.at(-1);
    if (last && from <= last[1] + JOINED) out[out.length - 1] = [last[0], Math.max(last[1], to)];
    else out.push([from, to]);
  }
  return out;
}

/**
 * Where a share of a drawn line comes to lie on the line as laid on the whole piece, mm from its start: where its mirror image joins it
 * over the fold, on both halves.
 * @param length of the laid line, mm
 */
export function spansOn(
  { image }: Pick<LaidLine, 'image'>,
  length: number,
  { from, to }: { readonly from: number; readonly to: number },
): readonly Span[] {
  if (image === null) return [[from * length, to * length]];
  if (image === 'itself')
    return joined([
      [from * length, to * length],
      [(1 - to) * length, (1 - from) * length],
    ]);
  const half = length / 2;
  // both halves as distances from where they join
  const [near, far] = image === 'after' ? [1 - to, 1 - from] : [from, to];
  return joined([
    [half - far * half, half - near * half],
    [half + near * half, half + far * half],
  ]);
}

/** The share of the drawn line at a length along the laid line, mm. */
export function shareOn({ image }: Pick<LaidLine, 'image'>, length: number, along: number): number {
  if (image === null || image === 'itself') return along / length;
  const fromJoint = Math.abs(along - length / 2) / (length / 2);
  return image === 'after' ? 1 - fromJoint : fromJoint;
}

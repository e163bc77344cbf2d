import { add, crossStraight, dot, scale, subtract, type Path, type Pt } from '../../geometry';
import { type Base, type WholePiece, grainFrame } from '../../pattern';
import { levelWord } from './catchField';
import { finishStroke, type StrokeResult } from './stroke';

export type LineDirection = 'across' | 'with';

/** Something a line can be drawn at a distance from, without pointing at it. */
export interface LineReference {
  readonly key: string;
  readonly words: string;
  readonly origin: Pt;
  /** What a line placed by it is tied to; null for the ends of the piece. */
  readonly base: Base | null;
}

/** The farthest points of the stitching outline up, down, left or right in the grain's frame. */
function extreme({ stitching }: WholePiece, direction: Pt): Pt {
  const points = stitching.map((curve) => curve[0]);
  return points.reduce((far, p) => (dot(p, direction) > dot(far, direction) ? p : far), points[0] ?? [0, 0]);
}

/** What a new line may be measured from: levels or the centre first, then the piece's own ends. */
export function lineReferences(whole: WholePiece, direction: LineDirection): LineReference[] {
  const { along, across } = grainFrame(whole);
  const minus = (v: Pt): Pt => scale(v, -1);
  if (direction === 'with') {
    const centre = whole.foldLine
      ? [{ key: 'centre', words: 'the centre', origin: whole.foldLine[0], base: { kind: 'centre' as const } }]
      : [];
    return [
      ...centre,
      {
        key: 'left',
        words: 'the farthest left of the piece',
        origin: extreme(whole, minus(across)),
        base: null,
      },
      { key: 'right', words: 'the farthest right of the piece', origin: extreme(whole, across), base: null },
    ];
  }
  const seen = new Set<string>();
  const levels = whole.levels.flatMap(({ name, line }): LineReference[] => {
    const words = levelWord(name);
    if (seen.has(words)) return [];
    seen.add(words);
    return [{ key: `level ${words}`, words, origin: line[0], base: { kind: 'level', name } }];
  });
  return [
    ...levels,
    { key: 'top', words: 'the highest point', origin: extreme(whole, minus(along)), base: null },
    { key: 'bottom', words: 'the lowest point', origin: extreme(whole, along), base: null },
  ];
}

/**
 * A line right through the piece at a distance from a reference, from the first edge to the next that lies inside between them.
 * @param off mm; positive is below, or right on the drawing
 * @returns null where the piece has nothing there
 */
export function placedLine(
  whole: WholePiece,
  direction: LineDirection,
  reference: LineReference,
  off: number,
  mirroring: boolean,
): StrokeResult | null {
  const { along, across } = grainFrame(whole);
  const [run, step] = direction === 'across' ? [across, along] : [along, across];
  const origin = add(reference.origin, scale(step, off));
  const meets = crossStraight(whole.stitching, origin, run);
  const apart = meets.filter((m, i) => i === 0 || m.along - meets[i - 1]!.along > 0.5);
  if (apart.length < 2) return null;
  const stretches = apart
    .slice(1)
    .map((b, i) => ({ a: apart[i]!, b }))
    .filter((_, i) => i % 2 === 0);
  const longest = stretches.reduce(
    (best, s) => (s.b.along - s.a.along > best.b.along - best.a.along ? s : best),
    stretches[0]!,
  );
  const path: Path = [[longest.a.point, longest.b.point]];
  const done = finishStroke(whole, longest.a.point, longest.b.point, mirroring);
  return dot(subtract(longest.b.point, longest.a.point), run) > 3
    ? { ...done, path: done.path.length > 0 ? done.path : path }
    : null;
}

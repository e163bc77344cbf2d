import { directionAt } from './curve';
import type { CurveIndex } from './curveIndex';
import { refAtPlace, type ChordedPath } from './drawnPath';
import { chordsIn, straightOn, type LineEnd, type Target } from './lineEnds';
import { pointOn } from './path';
import type { LooseStretch } from './pruneLoose';
import type { LooseEnd } from './subdivision';
import { SAME_POINT } from './tolerances';
import type { Box, Pt } from './types';

/** First length looked ahead from a loose end, mm; then four times as far, and so on. */
const FIRST_LOOK = 20;
const FARTHEST_LOOK = 1e6;

/** Loose stretches inside the outline as the drawing's loose ends, by line, each with what lies straight on from it. The index is of `plain`. */
export function looseEndsOf(
  loose: readonly LooseStretch[],
  all: readonly ChordedPath[],
  plain: readonly ChordedPath[],
  index: CurveIndex,
): readonly LooseEnd[] {
  const ends = loose.flatMap((l): LooseEnd[] => {
    const { drawn } = all[l.polyline]!;
    const end = openEnd(l, all[l.polyline]!);
    if (drawn.source.kind === 'outline') return [];
    const ahead = firstAhead(end, plain, index);
    return [
      {
        line: drawn.source.line,
        end: l.end,
        point: end.point,
        gapAhead: ahead?.gap ?? null,
        reach: ahead?.point ?? null,
      },
    ];
  });
  return ends.sort((a, b) => a.line - b.line || (a.end === b.end ? 0 : a.end === 'start' ? -1 : 1));
}

function openEnd({ polyline, place, end }: LooseStretch, chords: ChordedPath): LineEnd {
  const ref = refAtPlace(chords, place);
  const way = directionAt(chords.drawn.path[ref.index]!, ref.t);
  const ahead: Pt = end === 'end' ? way : [-way[0], -way[1]];
  return { path: polyline, end, point: pointOn(chords.drawn.path, ref), ahead, tail: [], isShort: false };
}

/** The first outline or line straight on from an end. */
function firstAhead(end: LineEnd, all: readonly ChordedPath[], index: CurveIndex): Target | null {
  const { box } = index;
  if (!box) return null;
  const farthest = Math.hypot(box.maxX - box.minX, box.maxY - box.minY);
  for (let look = FIRST_LOOK; ; look *= 4) {
    let best: Target | null = null;
    for (const chord of chordsIn(boxAhead(end, look), all, index, end, 1)) {
      const hit = straightOn(chord, end, look);
      if (hit && hit.gap > SAME_POINT && (!best || hit.gap < best.gap)) best = hit;
    }
    if (best || !(look < farthest && look < FARTHEST_LOOK)) return best;
  }
}

function boxAhead({ point: [x, y], ahead }: LineEnd, look: number): Box {
  const [u, v] = [x + ahead[0] * look, y + ahead[1] * look];
  return { minX: Math.min(x, u), minY: Math.min(y, v), maxX: Math.max(x, u), maxY: Math.max(y, v) };
}

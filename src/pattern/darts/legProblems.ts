import type { DartShape } from '../design';
import { type Problem, problem } from '../problem';
import { dartLegDifference } from './dartShape';

/** Legs that differ by less than this are equal: about a pencil line's width, mm. Common practice, no source. */
const EQUAL_LEGS = 0.5;

/** Seams match to 1/16 in (1.6 mm), and 1/8 in (3.2 mm) is enough for many: "10 Patternwork Skills", Threads no. 200, 2018/19. mm. */
const SEAM_MATCH = 1.5;
const SEAM_MATCH_MOST = 3;

/** What there is to say about legs of unequal length, at the dart's mouth (the side of a double-pointed one). */
export function legProblems(dart: DartShape, piece: string): Problem[] {
  const difference = dartLegDifference(dart);
  if (difference <= EQUAL_LEGS) return [];
  const at = dart.kind === 'single' ? dart.mouth[0] : dart.points[1];
  const code =
    difference <= SEAM_MATCH
      ? 'dart-legs-differ-slightly'
      : difference <= SEAM_MATCH_MOST
        ? 'dart-legs-differ'
        : 'dart-legs-differ-much';
  return [problem(code, { difference }, piece, at)];
}

import {
  applyMatrix,
  distance,
  endOf,
  mirrorAcross,
  startOf,
  subtract,
  unit,
  type Path,
  type Pt,
} from '../../geometry';
import type { LineId, PanelLine, Problem, WholePiece } from '../../pattern';
import { extendTo } from './moveLine';

type OpenEndProblem = Extract<Problem, { code: 'line-ends-in-the-open' }>;

/** A drawn line's end in the open, and the line as it would be, drawn on to what lies ahead. */
export interface CurableEnd {
  readonly line: LineId;
  readonly end: 'start' | 'end';
  readonly at: Pt;
  readonly gap: number | null;
  /** Unit vector from the end to what it would reach. */
  readonly ahead: Pt;
  readonly cured: Path;
}

/** Which end of the drawn line a reported place belongs to: the problem may have been found on its mirror image. */
function ownEnd(line: PanelLine, whole: WholePiece, { at, facts }: OpenEndProblem): CurableEnd | null {
  if (!at || !facts.reach || line.path.length === 0) return null;
  const fold = whole.foldLine;
  const images =
    fold && !line.once ? [(p: Pt) => p, (p: Pt) => applyMatrix(mirrorAcross(fold), p)] : [(p: Pt) => p];
  const tries = images.flatMap((image) =>
    (['start', 'end'] as const).map((end) => ({
      end,
      image,
      away: distance(end === 'start' ? startOf(line.path) : endOf(line.path), image(at)),
    })),
  );
  const best = tries.sort((a, b) => a.away - b.away)[0]!;
  if (best.away > 2) return null;
  const [from, reach] = [best.image(at), best.image(facts.reach)];
  const ahead = unit(subtract(reach, from));
  return {
    line: line.id,
    end: best.end,
    at: from,
    gap: facts.gap,
    ahead,
    cured: extendTo(line.path, best.end, reach),
  };
}

/** Every open end that drawing straight on would cure, each drawn end once. */
export function curableEnds(
  problems: readonly Problem[],
  whole: WholePiece,
  lines: readonly PanelLine[],
): CurableEnd[] {
  const ends = problems.flatMap((p) => {
    if (p.code !== 'line-ends-in-the-open' || p.piece !== whole.name) return [];
    const line = lines.find(({ id }) => id === p.facts.line);
    return (line && ownEnd(line, whole, p)) ?? [];
  });
  return ends.filter((e, i) => ends.findIndex((other) => other.line === e.line && other.end === e.end) === i);
}

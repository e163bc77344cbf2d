import { type Path, distance, endOf, isCubic, startOf } from '../geometry';
import type { LineTies, PanelLine, Run, Tie } from '../pattern';
import { type Landing, landingOf } from './landing';
import { isLost } from './lost';
import { angleToGrain, runEnd } from './runLine';
import { type Lie, proposeTie, untilOf } from './tiesFor';
import { type TieGround, tiePoint } from './tiePoint';

/** What keeps a line's direction: square to the grain, with it, a fixed angle, or nothing but its two held ends. */
export type Keeping = 'square' | 'with' | 'angle' | 'both ends';

export const keepingOf = ({ run }: LineTies): Keeping => run?.kind ?? 'both ends';

const LIE: Readonly<Record<Keeping, Lie>> = {
  square: 'across',
  with: 'with',
  angle: 'any',
  'both ends': 'any',
};

function runOf(ground: TieGround, keeping: Exclude<Keeping, 'both ends'>, path: Path): Omit<Run, 'until'> {
  if (keeping !== 'angle') return { kind: keeping };
  const degrees = Math.round(angleToGrain(ground.whole, startOf(path), endOf(path)) * 10) / 10;
  return { kind: 'angle', degrees } as Omit<Run, 'until'>;
}

/** Ties for one direction from the end that is held; null where the line would not meet anything. */
function turnedFrom(
  ground: TieGround,
  keeping: Exclude<Keeping, 'both ends'>,
  path: Path,
  tie: Tie,
  atStart: boolean,
  other: Landing,
): LineTies | null {
  const until = untilOf(other);
  const from = atStart ? startOf(path) : endOf(path);
  const held = tiePoint(ground, tie, from);
  if (!until || isLost(held)) return null;
  const run = { ...runOf(ground, keeping, path), until } as Run;
  const end = runEnd(ground, run, held, other.at);
  if (isLost(end) || distance(end, held) < 1) return null;
  return { nodes: atStart ? [tie, null] : [null, tie], run };
}

/**
 * Ties of a straight line that is to keep another direction, or both its ends. What holds it now goes on holding it; one end
 * is let go, or taken hold of.
 * @returns null where there is no such line: it is curved, or would meet nothing in that direction
 */
export function turnTies(
  ground: TieGround,
  others: readonly PanelLine[],
  { nodes }: LineTies,
  path: Path,
  keeping: Keeping,
): LineTies | null {
  if (path.length !== 1 || isCubic(path[0]!)) return null;
  const ends = [startOf(path), endOf(path)].map((p) => landingOf(ground, others, p)) as [Landing, Landing];
  const ties = ends.map((landing, i) => nodes[i] ?? proposeTie(ground, landing, LIE[keeping])) as [
    Tie | null,
    Tie | null,
  ];
  if (keeping === 'both ends') return ties[0] && ties[1] ? { nodes: ties, run: null } : null;
  const startFirst = nodes[0] !== null || nodes[1] === null;
  for (const atStart of startFirst ? [true, false] : [false, true]) {
    const tie = atStart ? ties[0] : ties[1];
    const turned = tie && turnedFrom(ground, keeping, path, tie, atStart, atStart ? ends[1] : ends[0]);
    if (turned) return turned;
  }
  return null;
}
